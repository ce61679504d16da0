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
from site_builder.handbook.pages.study_view import StudyScribe
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


def lesson(view: StudyScribe) -> Lesson:
    """Everything of it that an apprentice learns by heart."""
    own = view.own
    wrong = goes_wrong(view)
    troubles = replace(wrong.ledger, rows=tuple(replace(row, anchor="") for row in wrong.ledger.rows)) \
        if wrong is not None else None
    return Lesson(
        f"work-{view.id}", view.title,
        view.context.link("procedure", view.id, Markup("The whole page")),
        Markup(" ").join(in_words.sentence(view.words(reason)) for reason in own.because),
        tuple(points(view, own.points)), tuple(_step(view, step) for step in own.steps),
        tuple(_judged(view)), _figures(view), troubles,
    )


def _step(view: StudyScribe, step: Step) -> ShortStep:
    if step.do is not None:
        do = view.words(step.do)
    elif step.use is not None:
        do = view.context.link("procedure", str(step.use))
    else:
        do = in_words.capital(view.untold("what to do is not told yet", step.at))
    until = Markup(" Then until ").join(stage_words(view, end, step) for end in step.until if end.told())
    return ShortStep(do, view.only(step).words, tuple(points(view, step.points)), until)


def _judged(view: StudyScribe) -> Iterator[Judged]:
    for work in (view.own, *all_steps(view.own)):
        here = work if isinstance(work, Step) else None
        for checks, lead in ((work.feel, ""), (work.checks, "Look.")):
            blocks = tuple(block for check in checks for block in feel(view, check, here, lead=lead))
            if blocks:
                yield Judged(in_words.capital(view.step_link(here)) if here is not None else Markup(""), blocks)


# --- figures ------------------------------------------------------------------------------------------------


def _figures(view: StudyScribe) -> Grid | None:
    rows = [row for work in (view.own, *all_steps(view.own)) for row in _rows(view, work)]
    if not rows:
        return None
    columns = ("What", "Right is", "Measured with", "Why")
    used = [n for n in range(len(columns)) if n < 2 or any(row.cells[n] for row in rows)]
    return Grid(caption=Markup("Figures to know"), columns=tuple(columns[n] for n in used),
                rows=tuple(Row(tuple(row.cells[n] for n in used), row.only) for row in rows))


def _rows(view: StudyScribe, work: Work) -> Iterator[Row]:
    for group in (work.conditions, work.settings, work.limits, work.windows):
        for name, limits in group.items():
            for limit in limits:
                yield from _row(view, in_words.capital(view.words(name)), limit, work)
    for wait in work.wait:
        yield from _row(view, Markup("Let it stand"), wait, work)


def _row(view: StudyScribe, name: Markup, limit: Limit, work: Work) -> Iterator[Row]:
    if not is_told(limit):
        return
    only = view.only(limit)
    what = Markup('<i class="bl-for">{}:</i> {}').format(only.words, name) if only.words else name
    if isinstance(work, Step):
        what = Markup('{} <span class="bl-atstep">({})</span>').format(what, view.step_link(work))
    why = Markup(" ").join(view.because(reasons=map(view.words, limit.because)))
    yield Row((what, in_words.capital(value_words(view, limit)), in_words.capital(measured_with(view, limit)), why),
              only)


__all__ = ["Lesson", "lesson"]
