"""When it goes wrong: every trouble with its cause, its remedy and the way back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.finder import Part
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_remedies import pictures, remedy, way_back
from site_builder.handbook.pages.procedure_view import ProcedureView
from site_builder.handbook.pages.procedure_views import NO_WORDS, Grid, Pictures, Row, Said
from site_builder.notebook.model.judging import Trouble
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.references import all_steps


@dataclass(frozen=True, slots=True)
class Wrong:
    """The section."""

    ledger: Grid
    pictures: Pictures | None
    parts: tuple[Part, ...]


def goes_wrong(view: ProcedureView) -> Wrong | None:
    """All troubles, those of the whole work first, then step by step."""
    rows: list[Row] = []
    shots: list[Picture] = []
    parts: list[Part] = []
    for work in (view.own, *all_steps(view.own)):
        here = work if isinstance(work, Step) else None
        for trouble in work.troubles:
            rows.append(_row(view, trouble, here))
            shots += trouble.pictures
            sign, what = view.context.plain(trouble.sign), view.context.plain(trouble.do)
            parts.append(Part(view.trouble_anchors[id(trouble)], sign, f"{view.context.plain(trouble.cause)} {what}"))
    if not rows:
        return None
    ledger = Grid(caption=Markup("Troubles at this work"), columns=("What you see", "Why", "What to do", "Then"),
                  rows=tuple(rows))
    return Wrong(ledger, pictures(view, shots), tuple(parts))


def _row(view: ProcedureView, trouble: Trouble, here: Step | None) -> Row:
    sign = view.words(trouble.sign)
    if here is not None:
        sign = filled('{} <span class="bl-atstep">({})</span>', sign, view.step_link(here))
    only = view.only(trouble)
    if only.words:
        sign = filled('<i class="bl-for">{}:</i> {}', only.words, sign)
    if trouble.cause is not None:
        cause = view.words(trouble.cause)
    elif "cause" in trouble.asked:
        cause = view.untold("not told yet", trouble.at)
    else:
        cause = NO_WORDS
    what = remedy(view, trouble, here, way=False)
    way = _then(view, trouble, here)
    return Row((sign, cause, what, way), only, view.trouble_anchors[id(trouble)])


def _then(view: ProcedureView, trouble: Trouble, here: Step | None) -> Markup:
    if trouble.then == "none":
        return Markup("Not recoverable")
    if trouble.then == "again" and here is not None and trouble.times is None:
        return filled("{} again", in_words.capital(view.step_link(here)))
    told = way_back(view, trouble, here)
    plain = Markup(told.removeprefix("Then ").removeprefix("go to ").removeprefix("it is "))
    return in_words.capital(plain) if plain else NO_WORDS


def at_step(view: ProcedureView, work: Work) -> list[Said]:
    """What may go wrong at this step, each leading to its row."""
    links = _links(view, work.troubles)
    return [Said(label="Goes wrong", words=links)] if links else []


def _links(view: ProcedureView, troubles: Sequence[Trouble]) -> Markup:
    signs = (filled('<a href="#{}">{}</a>', view.trouble_anchors[id(t)], _bare(view, t)) for t in troubles)
    return Markup("; ").join(signs)


def _bare(view: ProcedureView, trouble: Trouble) -> Markup:
    return escape(view.context.plain(trouble.sign).rstrip("."))
