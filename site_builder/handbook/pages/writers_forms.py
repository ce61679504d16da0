"""Every form that the keys of time accept, for the guide: what is written, and what it means.

A test writes each of them into a notebook, and sees that no form the reader of rhythms knows is left out.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Form:
    """``written`` stands at ``key``; ``means`` says what it is for. Braces are YAML as in a notebook."""

    key: str
    written: str
    means: str


FORMS = (
    Form("when", "start", "Before all else, once a batch."),
    Form("when", "end", "When all else is over."),
    Form("when", "first", "At the first piece; `last` and `first and last` likewise."),
    Form("when", "last", "At the last piece."),
    Form("when", "first and last", "At the first piece and at the last."),
    Form("when", "each piece", "At every one; any noun may stand there: `each shift`, `each load`."),
    Form("when", "every 10 pieces", "At every tenth; `every 10th piece` is the same."),
    Form("when", "every about 20 min", "By the clock, roughly."),
    Form("when", "3 of 50 pieces", "A sample out of a count; `2 of each load` out of whatever comes at once."),
    Form("when", "2 in first 60 pieces; then 1 per 60 pieces", "Closer at the beginning, then so many out of so many."),
    Form("when", "first 30 s, then every 1 min", "All through the beginning of the step, then by the clock."),
    Form("when", "last 10 s", "At the very end of the step."),
    Form("when", "after 2 min", "Counted from the beginning of the step it stands at."),
    Form("when", "18:00", "At that hour of the day, of 24."),
    Form("when", "after opening of the tin", "After an event, in your words; a step or a procedure by its id."),
    Form("when", "before each batch", "Before every one of them."),
    Form("when", "just before casting", "Directly before it."),
    Form("when", "during casting", "While it goes on."),
    Form("when", "once the glue is dry", "As soon as that has happened. `once` alone is asked for its moment."),
    Form("when", "new wheel", "After every change of it."),
    Form("when", "ask", "Not known: a question."),
    Form("tighten", "{after: 1 failed piece, when: full}",
         "The whole plan of looking, after a result; `1/3 of full` is a share of it."),
    Form("tighten", "{after: 1 failed piece, when: 4 more}", "So many more than planned."),
    Form("windows", "{open time: {after: mixing, is: max 20 min}}", "At the latest so long after the moment."),
    Form("windows", "{open time: {after: mixing, before: pressing, is: min 5 min; max 20 min}}",
         "Not before and not after, counted between two moments."),
    Form("windows", "{open time: {after: mixing, opens: no longer sticky, closes: hard to the nail}}",
         "By a sign at either end; a figure may stand beside."),
    Form("wait", "min 4 h", "At the soonest after so long."),
    Form("wait", "max 2 d", "At the latest after so long: it need not wait."),
    Form("wait", "max same day", "Before the day is over."),
    Form("wait", "until dry", "By a sign alone."),
    Form("wait", "{is: min 4 h, opens: dry to the touch}", "By the clock and by a sign."),
    Form("wait", "ask", "It must stand; how long is asked."),
    Form("until", "The grey skin is gone.", "By what is seen, heard or smelt."),
    Form("until", "{clock: about 6 min}", "By the clock."),
    Form("until", "{count: 3 passes}", "By a count."),
    Form("until", "{feel: {good: it runs over like a worn coin}}", "By hand."),
    Form("until", "{check: {good: it does not rock on the plate}}", "By a test."),
    Form("until", "{state: {heat of the piece: min 40 °C}}", "By something measured."),
    Form("until", "{clock: about 6 min, sign: it stops hissing, wins: sign}", "By several, and which of them decides."),
    Form("follows", "falls 1 min per 4 °C of room temperature", "So much less for so much more of the other."),
    Form("follows", "rises with humidity", "More with more; how much is not told."),
    Form("follows", "halves per 10 °C of room temperature", "Half for each so much more; `doubles` likewise."),
    Form("decided", "start of one-step", "When that step begins: an id, or an event in your words."),
    Form("decided", "end of one-step", "When it is over; the id alone is the same."),
    Form("decided", "at the order", "When that happens."),
)
