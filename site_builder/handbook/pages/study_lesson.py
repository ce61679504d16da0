"""What to know of one piece of work before one does it: steps in short, good and bad, figures, troubles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_checks import feel
from site_builder.handbook.pages.procedure_signs import stage_words
from site_builder.handbook.pages.procedure_steps import points
from site_builder.handbook.pages.procedure_troubles import goes_wrong
from site_builder.handbook.pages.procedure_views import Block, Grid, Row
from site_builder.handbook.pages.study_figures import is_told, measured_with, value_words
from site_builder.handbook.pages.study_scribe import StudyScribe
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.references import all_steps


@dataclass(frozen=True, slots=True)
class ShortStep:
    """A step in short."""

    do: Markup
    for_whom: Markup
    points: tuple[Block, ...]
    until: Markup


@dataclass(frozen=True, slots=True)
class Judged:
    """Good beside bad, and at which step."""

    where: Markup
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Lesson:
    """One piece of work."""

    anchor: str
    title: str
    link: Markup
    why: Markup
    through: tuple[Block, ...]
    """Key points of the whole work."""
    steps: tuple[ShortStep, ...]
    judged: tuple[Judged, ...]
    figures: Grid | None
    troubles: Grid | None


def lesson(scribe: StudyScribe) -> Lesson:
    """Everything of it that an apprentice learns by heart."""
    own = scribe.own
    wrong = goes_wrong(scribe)
    troubles = replace(wrong.ledger, rows=tuple(replace(row, anchor="") for row in wrong.ledger.rows)) \
        if wrong is not None else None
    return Lesson(
        f"work-{scribe.id}", scribe.title,
        scribe.pen.link("procedure", scribe.id, Markup("The whole page")),
        Markup(" ").join(in_words.sentence(scribe.words(reason)) for reason in own.because),
        tuple(points(scribe, own.points)), tuple(_step(scribe, step) for step in own.steps),
        tuple(_judged(scribe)), _figures(scribe), troubles,
    )


def _step(scribe: StudyScribe, step: Step) -> ShortStep:
    if step.do is not None:
        do = scribe.words(step.do)
    elif step.use is not None:
        do = scribe.pen.link("procedure", str(step.use))
    else:
        do = in_words.capital(scribe.untold("what to do is not told yet", step.at))
    until = Markup(" Then until ").join(stage_words(scribe, end, step) for end in step.until if end.told())
    return ShortStep(do, scribe.only(step).words, tuple(points(scribe, step.points)), until)


def _judged(scribe: StudyScribe) -> Iterator[Judged]:
    for work in (scribe.own, *all_steps(scribe.own)):
        here = work if isinstance(work, Step) else None
        for checks, lead in ((work.feel, ""), (work.checks, "Look.")):
            blocks = tuple(block for check in checks for block in feel(scribe, check, here, lead=lead))
            if blocks:
                yield Judged(in_words.capital(scribe.step_link(here)) if here is not None else Markup(""), blocks)


# --- figures ------------------------------------------------------------------------------------------------


def _figures(scribe: StudyScribe) -> Grid | None:
    rows = [row for work in (scribe.own, *all_steps(scribe.own)) for row in _rows(scribe, work)]
    if not rows:
        return None
    columns = ("What", "Right is", "Measured with", "Why")
    used = [n for n in range(len(columns)) if n < 2 or any(row.cells[n] for row in rows)]
    return Grid(caption=Markup("Figures to know"), columns=tuple(columns[n] for n in used),
                rows=tuple(Row(tuple(row.cells[n] for n in used), row.only) for row in rows))


def _rows(scribe: StudyScribe, work: Work) -> Iterator[Row]:
    for group in (work.conditions, work.settings, work.limits, work.windows):
        for name, limits in group.items():
            for limit in limits:
                yield from _row(scribe, in_words.capital(scribe.words(name)), limit, work)
    for wait in work.wait:
        yield from _row(scribe, Markup("Let it stand"), wait, work)


def _row(scribe: StudyScribe, name: Markup, limit: Limit, work: Work) -> Iterator[Row]:
    if not is_told(limit):
        return
    only = scribe.only(limit)
    what = Markup('<i class="bl-for">{}:</i> {}').format(only.words, name) if only.words else name
    if isinstance(work, Step):
        what = Markup('{} <span class="bl-atstep">({})</span>').format(what, scribe.step_link(work))
    why = Markup(" ").join(scribe.because(reasons=map(scribe.words, limit.because)))
    yield Row((what, in_words.capital(value_words(scribe, limit)), in_words.capital(measured_with(scribe, limit)), why),
              only)


__all__ = ["Lesson", "lesson"]
