"""How work is looked at: plans of inspection in words, good beside bad, grades, what the work itself finds."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_remedies import exemption, remedies, shot
from site_builder.handbook.pages.procedure_signs import kept, stage_words, states
from site_builder.handbook.pages.procedure_values import amount
from site_builder.handbook.pages.procedure_view import ProcedureView
from site_builder.handbook.pages.procedure_views import (
    NO_WORDS,
    Block,
    Feel,
    FeelSide,
    Grid,
    Pictures,
    Row,
    Shot,
)
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.limit import By
from site_builder.notebook.model.procedure import Step, Work

_SENSES = {"touch": "By touch.", "sight": "By eye.", "sound": "By ear.", "smell": "By nose.",
           "weight": "By weight in the hand.", "warmth": "By warmth."}
_FIRST = re.compile(r"([^.!?]{3,46}[.!?])\s+(?=\S)")
_VERDICT = re.compile(r"(good|bad)\b[.:,]?\s*", re.IGNORECASE)


def feel(view: ProcedureView, check: Check, here: Step | None, *, lead: str = "") -> list[Block]:
    """A check at full width: what to do, good beside bad with their pictures, how often, what then."""
    good_shots, bad_shots, rest = _by_side(view, check)
    sides: list[FeelSide] = []
    if check.good is not None:
        sides.append(_side(view, True, check.good, good_shots))
    elif "good" in check.asked:
        sides.append(FeelSide(True, NO_WORDS, view.untold("what good is like is not told yet", check.at)))
    sides += [_side(view, False, bad, bad_shots) for bad in check.bad]
    if "bad" in check.asked:
        sides.append(FeelSide(False, NO_WORDS, view.untold("what bad is like is not told yet", check.at)))
    left = [*good_shots, *bad_shots, *rest]
    below: list[Block] = [Pictures(shots=tuple(left))] if left else []
    below += grades(view, check)
    ask = in_words.joined_sentences([p for p in (_where(view, check), view.words(check.do)) if p])
    sense = _SENSES.get(str(check.sense), "") or lead
    plan = Markup(" ").join(check_lines(view, check, here, told_above=True))
    how = (*([plan] if plan else []), *view.tail(check, told=("because", "good", "bad")))
    return [Feel(sense=sense, ask=ask, sides=tuple(sides), how=how, reasons=view.reasons(check),
                 only=view.only(check), blocks=tuple(below))]


def _by_side(view: ProcedureView, check: Check) -> tuple[list[Shot], list[Shot], list[Shot]]:
    """Pictures whose caption begins with "good" or "bad" stand on that side, which says the word already."""
    by: dict[str, list[Shot]] = {"good": [], "bad": [], "": []}
    for picture in check.pictures:
        shows = str(picture.shows or "")
        verdict = _VERDICT.match(shows)
        side = verdict[1].lower() if verdict is not None else ""
        one = shot(view, picture)
        if verdict is not None and verdict.end() < len(shows):
            one = replace(one, caption=in_words.capital(view.words(shows[verdict.end() :])))
        by[side].append(one)
    return by["good"], by["bad"], by[""]


def _side(view: ProcedureView, good: bool, text: str, shots: list[Shot]) -> FeelSide:
    first = _FIRST.match(text)
    taken = shots.pop(0) if shots else None
    if first is None:
        return FeelSide(good, NO_WORDS, view.words(text), taken)
    return FeelSide(good, view.within(first[1]), view.words(text[first.end() :]), taken)


def _where(view: ProcedureView, check: Check) -> Markup:
    where = view.words(check.where) if check.where is not None else NO_WORDS
    if not check.with_:
        return where
    beside = in_words.listed(view.things(map(str, check.with_)))
    return filled("{} Beside {}", in_words.sentence(where), beside) if where else \
        filled("With {}", beside)


def check_lines(
    view: ProcedureView, check: Check, here: Step | None, *, told_above: bool = False
) -> list[Markup]:
    """The plan in sentences: how, how often, who, stricter, easier, written, kept, and what if it fails.

    ``told_above``: good, bad, the place and the way of testing stand elsewhere already.
    """
    how: list[str | Markup] = []
    if not told_above:
        how += [_where(view, check), view.words(check.do)]
        how += [filled("Good: {}", view.within(check.good))] if check.good is not None else []
        how += [filled("Bad: {}", view.within(bad)) for bad in check.bad]
        how += [filled("<i>{}</i>", _SENSES[check.sense])] if check.sense is not None else []
    how += list(_test(view, check))
    lines = [in_words.joined_sentences(how), in_words.joined_sentences(list(_plan(view, check)))]
    after: list[str | Markup] = []
    if check.write:
        after.append(filled("Write down {}", in_words.listed(map(view.within, check.write))))
    after += [filled("Keep: {}", kept(view, keep)) for keep in check.keep]
    if check.fails:
        after.append(filled("If not: {}", remedies(view, check.fails, here)))
    if check.unless is not None:
        after.append(exemption(view, check.unless))
    lines.append(in_words.joined_sentences(after))
    if not told_above:
        lines += [view.inline_why(check), *view.tail(check)]
    return [line for line in lines if line]


def _test(view: ProcedureView, check: Check) -> Iterator[Markup]:
    if check.settings:
        yield filled("Set {}", in_words.listed(states(view, check.settings)))
    for end in check.until:
        yield filled("Go on until {}", stage_words(view, end, None))


def _plan(view: ProcedureView, check: Check) -> Iterator[Markup]:
    if check.when is not None:
        by = f" by {in_words.listed(by_words(view, one) for one in check.by)}" if check.by else ""
        yield filled("{}{}", view.cadence(check.when), Markup(by))
    elif "when" in check.asked:
        yield view.untold("how often is not told yet", check.at)
    if check.share is not None:
        yield filled("{} of them must be good", amount(view, check.share))
    if check.who is not None:
        yield filled("It is looked at by {}", view.who(str(check.who)))
    for shift, word in (*((s, "stricter") for s in check.tighten), *((s, "easier") for s in check.relax)):
        after = view.moment(shift.after) if shift.after is not None else Markup("a while")
        then = view.cadence(shift.when) if shift.when is not None else view.untold("not told yet", shift.at)
        told = filled("After {} {}: {}", after, word, then)
        more = [view.inline_why(shift), *view.tail(shift)]
        yield view.meant(shift, in_words.joined_sentences([told, *more]))


def by_words(view: ProcedureView, by: By) -> Markup:
    """``the lowest room temperature since the end of step 3``."""
    words = filled("the {} {}", by.take, by.name) if by.take is not None else escape(by.name)
    if by.lasting is not None:
        words = filled("{} held for {}", words, amount(view, by.lasting))
    if by.after is not None:
        words = filled("{} since {}", words, view.moment(by.after))
    more = [view.inline_why(by), *view.tail(by)]
    return filled("{} ({})", words, Markup(" ").join(m for m in more if m)) if any(more) else words


def grades(view: ProcedureView, check: Check) -> list[Block]:
    """Grades of acceptance as a small table."""
    if not check.grades:
        return []
    rows = []
    for name, grade in check.grades.items():
        sign = view.words(grade.sign) if grade.sign is not None else NO_WORDS
        measures = in_words.listed(states(view, grade.limits))
        written = in_words.listed(map(view.words, grade.write))
        known = in_words.joined_sentences([sign, measures, view.inline_why(grade), *view.tail(grade)])
        rows.append(Row((view.words(name), known, written), view.only(grade)))
    columns = ("Grade", "How it is known", "Write down")
    return [Grid(caption=Markup("Grades of acceptance"), columns=columns, rows=tuple(rows))]


def looks(view: ProcedureView, work: Work, here: Step | None) -> list[Block]:
    """Everything of a piece of work that is felt or looked at."""
    blocks = [block for check in work.feel for block in feel(view, check, here)]
    blocks += [block for check in work.checks for block in feel(view, check, here, lead="Look.")]
    return blocks


def finds(view: ProcedureView, work: Work) -> list[Block]:
    """What the work itself decides, by what it shows, and which steps follow from it."""
    blocks: list[Block] = []
    for dimension, values in work.finds.items():
        rows = []
        shots: list[Shot] = []
        for value, check in values.items():
            lines = check_lines(view, check, None)
            known = Markup(Markup(" ").join(lines).removeprefix("Good: "))
            rows.append(Row((view.words(value), in_words.capital(known), _follows(view, dimension, value))))
            shots += [shot(view, picture) for picture in check.pictures]
        caption = filled("What you find decides the {}", dimension)
        name = str(in_words.capital(dimension))
        blocks.append(Grid(caption=caption, columns=(name, "How you know it", "Then"), rows=tuple(rows)))
        blocks += [Pictures(shots=tuple(shots))] if shots else []
    return blocks


def _follows(view: ProcedureView, dimension: str, value: str) -> Markup:
    steps = [s for s in view.own.steps
             if any(value in row.get(name, ()) for row in s.for_ for name in row if name == dimension)]
    return in_words.listed(map(view.step_link, steps)) if steps else Markup("go on")
