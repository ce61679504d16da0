"""What is worn, in words: for a hazard, and for a piece of work all the way through, with what and at which steps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import joined_sentences, listed, lowered
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.wearing import Worn, worn_for

THROUGHOUT = Markup("all the way through")


def gear(context: PageContext, ids: Iterable[str]) -> Markup:
    """Links to pieces of protection in one line, apart by semicolons: many a name has a comma in it."""
    return Markup("; ").join(worn_links(context, ids))


def worn_links(context: PageContext, ids: Iterable[str]) -> tuple[Markup, ...]:
    """A link to each piece of protection, to go on from a word of ours."""
    return tuple(context.link("tool", id_, lowered(context.title("tool", id_))) for id_ in ids)


def worn_cases(context: PageContext, own: Procedure) -> Iterator[tuple[Markup, Markup]]:
    """(when, what) for each case: ``all the way through``, ``with white spirit, and at step 3``."""
    for worn in worn_for(context.book.notebook, own):
        yield _case(context, own, worn), gear(context, worn.protection)


def worn_in_words(context: PageContext, own: Procedure) -> Markup:
    """``Face shield; cap. With white spirit: nitrile gloves.``; empty where nothing is worn."""
    said = (what if when == THROUGHOUT else filled("{}: {}", when, what) for when, what in worn_cases(context, own))
    return joined_sentences([*said])


def worn_by_work(context: PageContext, works: Iterable[Procedure]) -> list[tuple[Markup, Markup]]:
    """(work, what is worn for it); work for which the same is worn stands together."""
    found: dict[Markup, list[str]] = {}
    for own in works:
        said = worn_in_words(context, own)
        if said:
            found.setdefault(said, []).append(str(own.procedure))
    return [(Markup(", ").join(context.link("procedure", id_) for id_ in ids), said) for said, ids in found.items()]


def _case(context: PageContext, own: Procedure, worn: Worn) -> Markup:
    said: list[Markup] = []
    if worn.things:
        things = (lowered(context.any_link(id_, ("tool", "material"))) for id_ in worn.things)
        said.append(filled("with {}", listed(things, "or")))
    if worn.steps:
        said.append(filled("at {}", listed(
            context.link("procedure", str(own.procedure), context.book.step_name(own, step), context.book.anchor(step))
            for step in worn.steps)))
    return Markup(", and ").join(said) or THROUGHOUT
