"""Figures of the trade's arithmetic as a page shows them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.figures.figure import Figure, Input, Missing
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.site import TRUST
from site_builder.handbook.trusted import trusted
from site_builder.views.prose import NO_WORDS, Prose
from site_builder.views.typeset import typeset

_FIRST_LINES = 2
"""A file of its own begins here, with a line for the editor above it."""


_NO_DRAWING = Markup("")


@dataclass(frozen=True, slots=True)
class FigureView:
    """What the template needs of one figure."""

    missing: bool
    sentence: str
    step: Prose = NO_WORDS
    inputs: tuple[tuple[str, str, Prose], ...] = ()
    formula: str = ""
    source: str = ""
    caution: str = ""
    drawing: Markup = _NO_DRAWING
    write: str = ""
    where: str = ""
    trust: str = ""
    """The address of the page that says how far to trust the numbers."""


def figure_views(context: PageContext, kind: str, id_: str) -> tuple[FigureView, ...]:
    """The figures about a thing, ready for ``figures.j2``."""
    return tuple(_view(context, figure) for figure in context.book.analysis.figures.get((kind, id_), ()))


def views_of(context: PageContext, figures: Iterable[Figure | Missing]) -> tuple[FigureView, ...]:
    """Any figures, ready for ``figures.j2``."""
    return tuple(_view(context, figure) for figure in figures)


def _view(context: PageContext, figure: Figure | Missing) -> FigureView:
    step = NO_WORDS
    if figure.step is not None and figure.kind == "procedure":
        procedure = context.book.notebook.procedures[figure.id]
        name = context.book.step_name(procedure, figure.step)
        step = context.link("procedure", figure.id, name.capitalize(), context.book.anchor(figure.step))
    if isinstance(figure, Missing):
        return FigureView(True, _opened(figure.sentence), step, write=figure.write, where=_where(figure))
    return FigureView(
        False, _opened(figure.sentence), step, tuple(_input(context, i) for i in figure.inputs),
        typeset(figure.formula), typeset(figure.source), typeset(figure.caution), trusted(figure.drawing),
        trust=context.to(TRUST),
    )


def _opened(sentence: str) -> str:
    """Ready for the page; a sentence that begins with the name of a value begins with a capital all the same."""
    return typeset(sentence[:1] + sentence[1:2].upper() + sentence[2:] if sentence[:1] == "“" else sentence)


def _where(missing: Missing) -> str:
    """The file, and the line on which the thing or the step begins that wants the line."""
    return missing.at.path + (f", at line {missing.at.line}" if missing.at.line > _FIRST_LINES else "")


def _input(context: PageContext, given: Input) -> tuple[str, str, Prose]:
    where = NO_WORDS
    if given.kind and given.id:
        anchor = context.book.anchor(given.step) if given.step is not None else ""
        where = context.link(given.kind, given.id, anchor=anchor)
    return given.name, typeset(given.written), where
