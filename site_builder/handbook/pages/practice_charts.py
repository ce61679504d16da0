"""Charts of somebody's practice: pieces, time and verdicts, each with what it shows in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import accumulate
from math import ceil

from markupsafe import Markup

from site_builder.handbook.drawings.chart import (
    NARROW,
    WIDE,
    Pieces,
    Times,
    Verdict,
    pieces_chart,
    times_chart,
    verdicts_chart,
)
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.proof_so_far import SPREAD, piece_name, pieces_told, trial_told
from site_builder.handbook.trusted import trusted
from site_builder.skills.feel_told import Compared, compared
from site_builder.skills.ledger import rank
from site_builder.skills.progress import LOTS, Pace, Progress, paces
from site_builder.skills.proof.curve_fit import Fitted
from site_builder.skills.proof.until_able import FURTHER
from site_builder.skills.proof.wording import tell_curve
from site_builder.views.prose import Prose, lowered, prose, say
from site_builder.views.typeset import typeset

SKILLS = 6
"""Of so many skills the practice is drawn; of more nobody would look at it."""
_ALONE = rank("alone")
_POINTS = 40
"""So many points draw a curve."""


@dataclass(frozen=True, slots=True)
class Chart:
    """A drawing for wide and narrow pages, and the same in words."""

    wide: Markup
    narrow: Markup
    title: Prose
    words: tuple[Prose, ...]


@dataclass(frozen=True, slots=True)
class SkillCharts:
    """The charts of one skill."""

    id: str
    title: Prose
    charts: tuple[Chart, ...]


def practice_charts(people_index: PeopleIndex, context: PageContext, person: str) -> Iterator[SkillCharts]:
    """The skills of which enough stands in the books to be drawn: those on the way first, and then the newest."""
    for skill in drawn_skills(people_index, person):
        charts = tuple(_charts(people_index, context, person, skill))
        if charts:
            yield SkillCharts(f"practice-of-{skill}", context.link("skill", skill), charts)


def drawn_skills(people_index: PeopleIndex, person: str) -> list[str]:
    """The skills whose practice is shown: those on the way first, and then the newest."""
    return sorted(people_index.practised(person), key=lambda one: _turn(people_index, person, one))[:SKILLS]


def _turn(people_index: PeopleIndex, person: str, skill: str) -> tuple[bool, int]:
    held = people_index.held(person, skill)
    last = people_index.book.analysis.holders.fresh.last_practice(person, skill, people_index.today) or date.min
    return held is not None and held.rank >= _ALONE, -last.toordinal()


def _charts(people_index: PeopleIndex, context: PageContext, person: str, skill: str) -> Iterator[Chart]:
    progress = people_index.progress(person, skill)
    if len(progress.batches) >= LOTS:
        yield _pieces(progress)
    for pace in paces(progress.batches, people_index.evidence_book):
        if pace.fitted is not None:
            yield _times(context, pace, pace.fitted)
    trials = [
        *compared(
            people_index.evidence_book, person, skill, people_index.today, lambda piece: piece_name(context, piece)
        )
    ]
    if trials:
        yield _trials(context, trials)


def _pieces(progress: Progress) -> Chart:
    ends = [*accumulate(batch.made for batch in progress.batches)]
    steady = progress.steadiness.since if progress.steadiness is not None else None
    drawn = Pieces(progress.order, ends, steady)
    told = tuple(pieces_told(progress))
    bad = [str(i) for i, good in enumerate(progress.order, 1) if not good]
    label = f"{progress.made} pieces in {len(ends)} entries, {len(bad)} of them not good at the first go."
    return Chart(trusted(pieces_chart(drawn, label)), trusted(pieces_chart(drawn, label, NARROW)),
                 prose("Pieces, in the order they were made"),
                 (say("A tall stroke is a piece that was lost or done again; the numbers beneath count the pieces "
                         "at the end of each entry. {}", SPREAD), *told))


def _times(context: PageContext, pace: Pace, fitted: Fitted) -> Chart:
    lots = [(end - (lot.pieces - 1) / 2, lot.took / lot.pieces)
            for end, lot in zip(fitted.ends, pace.lots, strict=True)]
    reach = fitted.reaches(pace.target).piece if pace.target is not None else None
    last = max(fitted.made, min(ceil(reach), fitted.made * FURTHER) if reach is not None else 0)
    curve = [(p, fitted.mean_time(p)[0]) for p in _places(fitted.made, last)]
    drawn = Times(lots, curve, fitted.made, pace.target, pace.unit)
    told = tell_curve(fitted, pace.target, pace.unit)
    label = f"Time a piece over {fitted.made} pieces. {told}"
    return Chart(trusted(times_chart(drawn, label)), trusted(times_chart(drawn, label, NARROW)),
                 say("Time a piece: {}", lowered(context.link("procedure", pace.procedure))),
                 (say("Each ring is an entry; the line is the learning curve that fits best, dashed where it is "
                         "only expected."), prose(typeset(told))))


def _places(made: int, last: int) -> list[float]:
    """Places along the curve, one of them where the pieces made end."""
    first = [1 + (made - 1) * i / _POINTS for i in range(_POINTS + 1)]
    return first + [made + (last - made) * i / _POINTS for i in range(1, _POINTS + 1)] if last > made else first


def _trials(context: PageContext, trials: list[Compared]) -> Chart:
    rows = [(f"{context.date(one.trial.date)}: {one.agreed.alike} of {one.agreed.pieces} alike", _marks(one))
            for one in trials]
    label = "; ".join(name for name, _ in rows)
    return Chart(trusted(verdicts_chart(rows, label, WIDE)), trusted(verdicts_chart(rows, label, NARROW)),
                 prose("Verdicts by feel beside the teacher’s"),
                 (say("A ring is a piece that both judged alike, a cross one let pass, or graded better, that the "
                         "teacher would not, a filled square one thrown away, or graded worse, that the teacher "
                         "would keep."),
                  *(trial_told(context, one) for one in trials)))


def _marks(one: Compared) -> list[Verdict]:
    place = one.scale.index
    return ["alike" if teachers == own else "passed" if place(own) > place(teachers) else "thrown"
            for teachers, own in one.grades.values()]
