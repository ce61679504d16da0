"""Everything that a procedure tells, section by section, in the order in which every face tells it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from site_builder.notebook.model.procedure import Procedure
from site_builder.views.after import came_about, use_places, used_by
from site_builder.views.blocks import Block, Grid, Row, StepView
from site_builder.views.choice import VariantChoice, choices
from site_builder.views.danger_cards import Cards, cards
from site_builder.views.docket import Batch, docket
from site_builder.views.glance import glance
from site_builder.views.good import good
from site_builder.views.hazard import Whole, stay_whole
from site_builder.views.keep import in_the_book, written
from site_builder.views.prose import NO_WORDS, Prose, capital, capital_text, joined, listed, prose, sentence
from site_builder.views.ready import Ready, lay_ready
from site_builder.views.scope import ProcedureScope
from site_builder.views.step import asked, at_the_end, judged, steps, whole
from site_builder.views.trouble import Wrong, goes_wrong


@dataclass(frozen=True, slots=True)
class ProcedureView:
    """The sections, those with nothing to say empty or None."""

    title: str
    parts: Prose
    """What it works at; "Shared work" where other work uses it."""
    lede: Prose
    notes: tuple[Prose, ...]
    before: tuple[Prose, ...]
    after: tuple[Prose, ...]
    used_in: tuple[Prose, ...]
    rows: tuple[tuple[str, Prose], ...]
    glance: tuple[str, ...]
    whole: Whole | None
    cards: Cards
    ready: Ready | None
    choices: tuple[VariantChoice, ...]
    all_through: tuple[Block, ...]
    steps: tuple[StepView, ...]
    at_end: tuple[Prose, ...]
    """What shared work leaves to be done when all is over."""
    judged_title: str
    good: tuple[Row, ...]
    judged: tuple[Block, ...]
    wrong: Wrong | None
    book: Grid | None
    last: tuple[Block, ...]
    used_by: tuple[Prose, ...]
    questions: tuple[Block, ...]
    revisions: tuple[tuple[str, Prose, Prose], ...]


def procedure_view(scope: ProcedureScope, batch: Batch | None) -> ProcedureView:
    """``batch`` is the order for which times are told."""
    own, route = scope.own, scope.view.analysis.route
    used_in = use_places(scope)
    only = scope.only(own)
    return ProcedureView(
        title=scope.view.plain(own.title), parts=_parts(scope, bool(used_in)),
        lede=joined(sentence(scope.words(reason)) for reason in own.because),
        notes=(*((sentence(only.words),) if only.words else ()), *scope.tail(own, told=("because", "hazards"))),
        before=_links(scope, route.before), after=_links(scope, route.after), used_in=used_in,
        rows=tuple(docket(scope, batch)), glance=glance(scope), whole=stay_whole(scope), cards=cards(scope),
        ready=lay_ready(scope), choices=choices(scope),
        all_through=tuple(whole(scope)), steps=steps(scope), at_end=at_the_end(scope),
        judged_title=_judged_title(own), good=good(scope),
        judged=tuple(judged(scope, own, None)), wrong=goes_wrong(scope), book=in_the_book(scope),
        last=tuple(written(scope, own)), used_by=used_by(scope), questions=tuple(asked(scope, own)),
        revisions=came_about(scope),
    )


def _parts(scope: ProcedureScope, is_used: bool) -> Prose:
    parts = [scope.view.link("part", part) for part in scope.nb.parts_of(scope.own)]
    return capital(listed(parts)) if parts else prose("Shared work") if is_used else NO_WORDS


def _judged_title(own: Procedure) -> str:
    tells = own.limits or own.feel or own.checks or own.finds or own.until
    if tells:
        return "How you know it is good"
    waits = "how long it may stand" if own.wait or own.windows else ""
    return capital_text(", and ".join(filter(None, ("again" if own.repeat is not None else "", waits))))


def _links(scope: ProcedureScope, side: Mapping[str, Iterable[str]]) -> tuple[Prose, ...]:
    """The work on one side of this one."""
    return tuple(scope.view.link("procedure", one) for one in side.get(scope.id, ()))
