"""What is worn, in words: for a hazard, and for a piece of work all the way through, with what and at which steps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages.in_words import joined_sentences, listed, lowered
from site_builder.handbook.pen import Pen
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.wearing import Worn, worn_for

THROUGHOUT = Markup("all the way through")


def gear(pen: Pen, ids: Iterable[str]) -> Markup:
    """Links to pieces of protection in one line, apart by semicolons: many a name has a comma in it."""
    return Markup("; ").join(worn_links(pen, ids))


def worn_links(pen: Pen, ids: Iterable[str]) -> tuple[Markup, ...]:
    """A link to each piece of protection, to go on from a word of ours."""
    return tuple(pen.link("tool", id_, lowered(pen.title("tool", id_))) for id_ in ids)


def worn_cases(pen: Pen, own: Procedure) -> Iterator[tuple[Markup, Markup]]:
    """(when, what) for each case: ``all the way through``, ``with white spirit, and at step 3``."""
    for worn in worn_for(pen.book.notebook, own):
        yield _case(pen, own, worn), gear(pen, worn.protection)


def worn_in_words(pen: Pen, own: Procedure) -> Markup:
    """``Face shield; cap. With white spirit: nitrile gloves.``; empty where nothing is worn."""
    said = (what if when == THROUGHOUT else filled("{}: {}", when, what) for when, what in worn_cases(pen, own))
    return joined_sentences([*said])


def worn_by_work(pen: Pen, works: Iterable[Procedure]) -> list[tuple[Markup, Markup]]:
    """(work, what is worn for it); work for which the same is worn stands together."""
    found: dict[Markup, list[str]] = {}
    for own in works:
        said = worn_in_words(pen, own)
        if said:
            found.setdefault(said, []).append(str(own.procedure))
    return [(Markup(", ").join(pen.link("procedure", id_) for id_ in ids), said) for said, ids in found.items()]


def _case(pen: Pen, own: Procedure, worn: Worn) -> Markup:
    said: list[Markup] = []
    if worn.things:
        things = (lowered(pen.any_link(id_, ("tool", "material"))) for id_ in worn.things)
        said.append(filled("with {}", listed(things, "or")))
    if worn.steps:
        said.append(filled("at {}", listed(
            pen.link("procedure", str(own.procedure), pen.book.step_name(own, step), pen.book.anchor(step))
            for step in worn.steps)))
    return Markup(", and ").join(said) or THROUGHOUT
