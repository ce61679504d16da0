"""What is worn, in words: for a hazard, and for a piece of work all the way through, with what and at which steps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.wearing import Worn, worn_for
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, joined, listed, lowered, prose, say, sentences

THROUGHOUT = prose("all the way through")


def gear(view: NotebookView, ids: Iterable[str]) -> Prose:
    """Links to pieces of protection in one line, apart by semicolons: many a name has a comma in it."""
    return joined(worn_links(view, ids), "; ")


def worn_links(view: NotebookView, ids: Iterable[str]) -> tuple[Prose, ...]:
    """A link to each piece of protection, to go on from a word of ours."""
    return tuple(view.link("tool", id_, lowered(view.title("tool", id_))) for id_ in ids)


def worn_cases(view: NotebookView, own: Procedure) -> Iterator[tuple[Prose, Prose]]:
    """(when, what) for each case: ``all the way through``, ``with white spirit, and at step 3``."""
    for worn in worn_for(view.notebook, own):
        yield _case(view, own, worn), gear(view, worn.protection)


def worn_in_words(view: NotebookView, own: Procedure) -> Prose:
    """``Face shield; cap. With white spirit: nitrile gloves.``; empty where nothing is worn."""
    said = (what if when == THROUGHOUT else say("{}: {}", when, what) for when, what in worn_cases(view, own))
    return sentences([*said])


def worn_by_work(view: NotebookView, works: Iterable[Procedure]) -> list[tuple[Prose, Prose]]:
    """(work, what is worn for it); work for which the same is worn stands together."""
    found: dict[Prose, list[str]] = {}
    for own in works:
        said = worn_in_words(view, own)
        if said:
            found.setdefault(said, []).append(str(own.procedure))
    return [(joined((view.link("procedure", id_) for id_ in ids), ", "), said) for said, ids in found.items()]


def _case(view: NotebookView, own: Procedure, worn: Worn) -> Prose:
    said: list[Prose] = []
    if worn.things:
        things = (lowered(view.any_link(id_, ("tool", "material"))) for id_ in worn.things)
        said.append(say("with {}", listed(things, "or")))
    if worn.steps:
        said.append(say("at {}", listed(
            view.link("procedure", str(own.procedure), view.step_name(own, step), view.anchor(step))
            for step in worn.steps)))
    return joined(said, ", and ") or THROUGHOUT
