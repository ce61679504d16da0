"""How work is looked at: plans of inspection in words, good beside bad, grades, what the work itself finds."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.limit import By
from site_builder.notebook.model.procedure import Step, Work
from site_builder.views.blocks import Block, Feel, FeelSide, Grid, Pictures, Row, Shot
from site_builder.views.end import stage_words
from site_builder.views.keep import kept
from site_builder.views.limit_in_words import states
from site_builder.views.picture import shot
from site_builder.views.prose import (
    NO_WORDS,
    Prose,
    capital,
    capital_text,
    joined,
    listed,
    prose,
    say,
    sentence,
    sentences,
    toned,
    without_start,
)
from site_builder.views.remedy import exemption, remedies
from site_builder.views.rest import in_line
from site_builder.views.rest import whole as entry_in_full
from site_builder.views.scope import ProcedureScope, Scope
from site_builder.views.shift import shifts
from site_builder.views.value import amount

SENSES = {"touch": "By touch.", "sight": "By eye.", "sound": "By ear.", "smell": "By nose.", "taste": "By tongue.",
           "weight": "By weight in the hand.", "warmth": "By warmth."}
_FIRST = re.compile(r"([^.!?]{3,46}[.!?])\s+(?=\S)")
_VERDICT = re.compile(r"(good|bad)\b[.:,]?\s*", re.IGNORECASE)


def feel(scope: Scope, check: Check, here: Step | None, *, lead: str = "") -> list[Block]:
    """A check at full width: what to do, good beside bad with their pictures, how often, what then."""
    good_shots, bad_shots, rest = _by_side(scope, check)
    sides: list[FeelSide] = []
    if check.good is not None:
        sides.append(_side(scope, True, check.good, good_shots))
    elif "good" in check.asked:
        sides.append(FeelSide(True, NO_WORDS, scope.untold("what good is like is not told yet", check.at)))
    sides += [_side(scope, False, bad, bad_shots) for bad in check.bad]
    if "bad" in check.asked:
        sides.append(FeelSide(False, NO_WORDS, scope.untold("what bad is like is not told yet", check.at)))
    left = [*good_shots, *bad_shots, *rest]
    below: list[Block] = [Pictures(shots=tuple(left))] if left else []
    below += grades(scope, check)
    ask = sentences([p for p in (_where(scope, check), scope.words(check.do)) if p])
    sense = SENSES.get(str(check.sense), "") or lead
    plan = joined(check_lines(scope, check, here, told_above=True))
    how = (*([plan] if plan else []), *scope.tail(check, told=("because", "good", "bad")))
    return [Feel(sense=sense, ask=ask, sides=tuple(sides), how=how, reasons=scope.reasons(check),
                 only=scope.only(check), blocks=tuple(below))]


def _by_side(scope: Scope, check: Check) -> tuple[list[Shot], list[Shot], list[Shot]]:
    """Pictures whose caption begins with "good" or "bad" stand on that side, which says the word already."""
    by: dict[str, list[Shot]] = {"good": [], "bad": [], "": []}
    for picture in check.pictures:
        shows = str(picture.shows or "")
        verdict = _VERDICT.match(shows)
        side = verdict[1].lower() if verdict is not None else ""
        one = shot(scope, picture)
        if verdict is not None and verdict.end() < len(shows):
            one = replace(one, caption=capital(scope.words(shows[verdict.end() :])))
        by[side].append(one)
    return by["good"], by["bad"], by[""]


def _side(scope: Scope, good: bool, text: str, shots: list[Shot]) -> FeelSide:
    first = _FIRST.match(text)
    taken = shots.pop(0) if shots else None
    if first is None:
        return FeelSide(good, NO_WORDS, scope.words(text), taken)
    return FeelSide(good, scope.within(first[1]), scope.words(text[first.end() :]), taken)


def first_words(scope: Scope, text: str) -> Prose:
    """The first sentence of what good is like, where it is short; else all of it."""
    first = _FIRST.match(text)
    return scope.words(text) if first is None else scope.words(first[1])


def _where(scope: Scope, check: Check) -> Prose:
    where = scope.words(check.where) if check.where is not None else NO_WORDS
    if not check.with_:
        return where
    beside = listed(scope.things(map(str, check.with_)))
    return say("{} Beside {}", sentence(where), beside) if where else say("With {}", beside)


def check_lines(
    scope: Scope, check: Check, here: Step | None, *, told_above: bool = False
) -> list[Prose]:
    """The plan in sentences: how, how often, who, when more often, written, kept, and what if it fails.

    ``told_above``: good, bad, the place and the way of testing stand elsewhere already.
    """
    how: list[str | Prose] = []
    if not told_above:
        how += [_where(scope, check), scope.words(check.do)]
        how += [say("Good: {}", scope.within(check.good))] if check.good is not None else []
        how += [say("Bad: {}", scope.within(bad)) for bad in check.bad]
        how += [toned("because", SENSES[check.sense])] if check.sense is not None else []
    how += list(_test(scope, check))
    lines = [sentences(how), sentences(list(_plan(scope, check)))]
    fails = [say("If not: {}", remedies(scope, check.fails, here))] if check.fails else []
    lines.append(sentences([*_noted(scope, check), *fails, *_unless(scope, check)]))
    if not told_above:
        lines += [scope.inline_why(check), *scope.tail(check)]
    return [line for line in lines if line]


CHECK_COLUMNS = ("Good when", "When to look", "Bad when", "If it is not good", "Besides")


def check_row(scope: Scope, check: Check) -> tuple[Prose, ...]:
    """A check as the cells of a row under `CHECK_COLUMNS`."""
    good = sentences((_where(scope, check), scope.words(check.do), scope.words(check.good)))
    besides = (*_test(scope, check), *_noted(scope, check), *_unless(scope, check), grades_in_line(scope, check),
               scope.inline_why(check), *scope.tail(check))
    return (scope.meant(check, good), sentences(_plan(scope, check)), sentences(map(scope.words, check.bad)),
            remedies(scope, check.fails, None), sentences(besides))


def _noted(scope: Scope, check: Check) -> list[Prose]:
    write = [say("Write down {}", listed(map(scope.within, check.write)))] if check.write else []
    return [*write, *(say("Keep: {}", kept(scope, keep)) for keep in check.keep)]


def _unless(scope: Scope, check: Check) -> list[Prose]:
    return [exemption(scope, check.unless)] if check.unless is not None else []


def _test(scope: Scope, check: Check) -> Iterator[Prose]:
    if check.settings:
        yield say("Set {}", listed(states(scope, check.settings)))
    for end in check.until:
        yield scope.meant(end, say("Go on until {}", stage_words(scope, end, None)))
        yield in_line(scope, end)


def _plan(scope: Scope, check: Check) -> Iterator[Prose]:
    if check.when is not None:
        by = listed(by_words(scope, one) for one in check.by)
        yield say("{} by {}", scope.cadence(check.when), by) if by else scope.cadence(check.when)
    elif "when" in check.asked:
        yield scope.untold("how often is not told yet", check.at)
    if check.share is not None:
        yield say("{} of them must be good", amount(scope, check.share))
    if check.who is not None:
        yield say("It is looked at by {}", scope.who(str(check.who)))
    yield from shifts(scope, check)


def by_words(scope: Scope, by: By) -> Prose:
    """``the lowest room temperature since the end of step 3``."""
    words = say("the {} {}", by.take, by.name) if by.take is not None else prose(by.name)
    if by.lasting is not None:
        words = say("{} held for {}", words, amount(scope, by.lasting))
    if by.after is not None:
        words = say("{} since {}", words, scope.moment(by.after))
    more = [scope.inline_why(by), *scope.tail(by)]
    return scope.meant(by, say("{} ({})", words, joined(m for m in more if m)) if any(more) else words)


def grades(scope: Scope, check: Check) -> list[Block]:
    """Grades of acceptance as a small table."""
    if not check.grades:
        return []
    rows = []
    for name, grade in check.grades.items():
        sign = scope.words(grade.sign) if grade.sign is not None else NO_WORDS
        measures = listed(states(scope, grade.limits))
        written = listed(map(scope.words, grade.write))
        known = sentences([sign, measures, scope.inline_why(grade), *scope.tail(grade)])
        rows.append(Row((scope.meant(grade, scope.words(name)), known, written), scope.only(grade)))
    columns = ("Grade", "How it is known", "Write down")
    return [Grid(caption=prose("Grades of acceptance"), columns=columns, rows=tuple(rows))]


def grades_in_line(scope: Scope, check: Check) -> Prose:
    """Grades of acceptance where a table has no room."""
    return joined((say("Grade {}: {}", name, sentence(entry_in_full(scope, grade)))
                   for name, grade in check.grades.items()))


def looks(scope: Scope, work: Work, here: Step | None) -> list[Block]:
    """Everything of a piece of work that is felt or looked at."""
    blocks = [block for check in work.feel for block in feel(scope, check, here)]
    blocks += [block for check in work.checks for block in feel(scope, check, here, lead="Look.")]
    return blocks


def finds(scope: ProcedureScope, work: Work) -> list[Block]:
    """What the work itself decides, by what it shows, and which steps follow from it."""
    blocks: list[Block] = []
    for dimension, values in work.finds.items():
        rows = []
        shots: list[Shot] = []
        for value, check in values.items():
            lines = [*check_lines(scope, check, None), grades_in_line(scope, check)]
            known = without_start(joined(lines), "Good: ")
            named = scope.meant(check, scope.words(value))
            rows.append(Row((named, capital(known), _follows(scope, dimension, value))))
            shots += [shot(scope, picture) for picture in check.pictures]
        caption = say("What you find decides the {}", dimension)
        name = capital_text(dimension)
        blocks.append(Grid(caption=caption, columns=(name, "How you know it", "Then"), rows=tuple(rows)))
        blocks += [Pictures(shots=tuple(shots))] if shots else []
    return blocks


def _follows(scope: ProcedureScope, dimension: str, value: str) -> Prose:
    steps = [s for s in scope.own.steps
             if any(value in row.get(name, ()) for row in s.for_ for name in row if name == dimension)]
    return listed(map(scope.step_link, steps)) if steps else prose("go on")
