"""What to know of one piece of work before one does it: steps in short, good and bad, figures, troubles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.references import all_steps
from site_builder.views.blocks import Block, Grid, Row
from site_builder.views.check import feel
from site_builder.views.prose import NO_WORDS, Only, Prose, capital, joined, meant, prose, say, sentence, toned
from site_builder.views.standing import standing_in_words
from site_builder.views.step import meanwhile, points
from site_builder.views.stop import until
from site_builder.views.study.figures import is_told, measured_with
from site_builder.views.study.question import StudyScope
from site_builder.views.trouble import goes_wrong


@dataclass(frozen=True, slots=True)
class ShortStep:
    """A step in short."""

    do: Prose
    for_whom: Prose
    points: tuple[Block, ...]
    until: Prose


@dataclass(frozen=True, slots=True)
class Judged:
    """Good beside bad, and at which step."""

    where: Prose
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Lesson:
    """One piece of work."""

    anchor: str
    title: str
    link: Prose
    why: Prose
    through: tuple[Block, ...]
    """Key points of the whole work."""
    steps: tuple[ShortStep, ...]
    judged: tuple[Judged, ...]
    figures: Grid | None
    troubles: Grid | None


def lesson(scope: StudyScope) -> Lesson:
    """Everything of it that an apprentice learns by heart."""
    own = scope.own
    wrong = goes_wrong(scope)
    troubles = replace(wrong.ledger, rows=tuple(replace(row, anchor="") for row in wrong.ledger.rows)) \
        if wrong is not None else None
    return Lesson(
        f"work-{scope.id}", scope.title,
        scope.view.link("procedure", scope.id, prose("The whole page")),
        joined(sentence(scope.words(reason)) for reason in own.because),
        tuple(points(scope, own.points)), tuple(_step(scope, step) for step in own.steps),
        tuple(_judged(scope)), _figures(scope), troubles,
    )


def _step(scope: StudyScope, step: Step) -> ShortStep:
    if step.do is not None:
        do = scope.words(step.do)
    elif step.use is not None:
        do = scope.view.link("procedure", str(step.use))
    else:
        do = capital(scope.untold("what to do is not told yet", step.at))
    below = (*points(scope, step.points), *meanwhile(scope, step.also))
    return ShortStep(do, scope.only(step).words, below, until(scope, step.until, step))


def _judged(scope: StudyScope) -> Iterator[Judged]:
    for work in (scope.own, *all_steps(scope.own)):
        here = work if isinstance(work, Step) else None
        for checks, lead in ((work.feel, ""), (work.checks, "Look.")):
            blocks = tuple(block for check in checks for block in feel(scope, check, here, lead=lead))
            if blocks:
                yield Judged(capital(scope.step_link(here)) if here is not None else NO_WORDS, blocks)


# --- figures ------------------------------------------------------------------------------------------------


def _figures(scope: StudyScope) -> Grid | None:
    rows = [row for work in (scope.own, *all_steps(scope.own)) for row in _rows(scope, work)]
    if not rows:
        return None
    columns = ("What", "Right is", "Measured with", "Why")
    used = [n for n in range(len(columns)) if n < 2 or any(row.cells[n] for row in rows)]
    return Grid(caption=prose("Figures to know"), columns=tuple(columns[n] for n in used),
                rows=tuple(Row(tuple(row.cells[n] for n in used), row.only) for row in rows))


def _rows(scope: StudyScope, work: Work) -> Iterator[Row]:
    for group in (work.conditions, work.settings, work.limits, work.windows):
        for name, limits in group.items():
            for limit in limits:
                yield from _row(scope, capital(scope.words(name)), limit, work)
    for wait in work.wait:
        yield from _row(scope, prose("Let it stand"), wait, work)


def _row(scope: StudyScope, name: Prose, limit: Limit, work: Work) -> Iterator[Row]:
    if not is_told(limit):
        return
    only = scope.only(limit)
    what = meant(Only(only.words), name)
    if isinstance(work, Step):
        what = say("{} {}", what, toned("at step", say("({})", scope.step_link(work))))
    why = joined(scope.because(reasons=map(scope.words, limit.because)))
    yield Row((what, capital(standing_in_words(scope, limit)), capital(measured_with(scope, limit)), why),
              only)



