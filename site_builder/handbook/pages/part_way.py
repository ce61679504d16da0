"""The way of a part through the shop, one procedure after another."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import joined_sentences, listed
from site_builder.handbook.pages.sayings import how_often, value_words, valued
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import Time
from site_builder.notebook.way import stands_after
from site_builder.quantity import Ask

Stop = tuple[str, tuple[str, str | None], Markup]


def steps_of_way(context: PageContext, way: Iterable[str]) -> list[Stop]:
    """(anchor, title as link, a few words) for the part `way` of the theme."""
    return [
        (f"way-{id_}", context.pair("procedure", id_), _told(context, context.book.notebook.procedures[id_]))
        for id_ in way
    ]


def _told(context: PageContext, procedure: Procedure) -> Markup:
    """Who may do it alone, where, how long it takes, how often, how long it stands then."""
    able = context.book.analysis.holders.able_to_do(procedure)
    said: list[Markup | str] = []
    if procedure.where is not None:
        said.append(Markup("Done outside: {}").format(context.words(procedure.where)))
    if able:
        said.append(Markup("Alone: {}").format(listed((context.link("person", one) for one in able), "or")))
    said += [_time(context, time) for time in procedure.time]
    often = how_often(context, procedure.when)
    if often:
        said.append(Markup("Done: {}").format(often))
    said += [_wait(context, limit) for limit in stands_after(procedure)]
    return joined_sentences(said)


def _time(context: PageContext, time: Time) -> Markup:
    parts = [(time.each, "each"), (time.load, "a load"), (time.lot, "for the whole lot"), (time.setup, "to set up")]
    return Markup(", ").join(
        Markup("{} {}").format(valued(context, leaf), words) for leaf, words in parts
        if leaf is not None and not isinstance(leaf.value.what, Ask)
    )


def _wait(context: PageContext, limit: Limit) -> Markup:
    words = value_words(context, limit)
    asked = limit.written is not None and isinstance(limit.written.value.what, Ask)
    if asked or not words:
        return Markup('Then it stands: <a class="bl-untold" href="{}">not yet told how long</a>').format(
            context.question_href(limit.at))
    return Markup("Then it stands {}").format(words)
