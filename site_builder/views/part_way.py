"""The way of a part through the shop, one procedure after another."""

from __future__ import annotations

from collections.abc import Iterable

from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import Time
from site_builder.notebook.way import stands_after
from site_builder.quantity import Ask
from site_builder.views.limit_in_words import value_in_words
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, joined, listed, say, sentences
from site_builder.views.scope import ProcedureScope, Scope
from site_builder.views.value import amount
from site_builder.views.window import stands

Stop = tuple[str, Prose, Prose]


def steps_of_way(view: NotebookView, way: Iterable[str]) -> list[Stop]:
    """(anchor, title, a few words) for the part `way` of the theme."""
    return [(f"way-{id_}", view.link("procedure", id_), _told(view, view.notebook.procedures[id_])) for id_ in way]


def _told(view: NotebookView, procedure: Procedure) -> Prose:
    """Who may do it alone, where, how long it takes, how often, how long it stands then."""
    scope = ProcedureScope(view, procedure, apart=True)
    able = view.analysis.holders.able_to_do(procedure)
    said: list[Prose] = []
    if procedure.where is not None:
        said.append(say("Done outside: {}", scope.words(procedure.where)))
    if able:
        said.append(say("Alone: {}", listed(map(view.person, able), "or")))
    said += [_time(scope, time) for time in procedure.time]
    if procedure.when is not None:
        said.append(say("Done: {}", scope.cadence(procedure.when)))
    said += [_wait(scope, limit) for limit in stands_after(procedure)]
    return sentences(said)


def _time(scope: Scope, time: Time) -> Prose:
    parts = [(time.each, "each"), (time.load, "a load"), (time.lot, "for the whole lot"), (time.setup, "to set up")]
    return scope.meant(time, joined((say("{} {}", amount(scope, leaf), words) for leaf, words in parts
                                     if leaf is not None and not isinstance(leaf.value.what, Ask)), ", "))


def _wait(scope: Scope, limit: Limit) -> Prose:
    if limit.written is not None and isinstance(limit.written.value.what, Ask):
        return say("Then it stands: {}", scope.untold("not yet told how long", limit.at))
    verb = {"let it": "it stands", "it must": "it must stand", "it may": "it may stand"}[stands(scope, limit)]
    return say("Then {} {}", verb, value_in_words(scope, limit))
