"""What a reference that leads to nothing may have meant."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.model.parsed_values import id_from
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.nearest import did_you_mean as told
from site_builder.notebook.references import Target, all_steps
from site_builder.notebook.vocabulary import Titled, Vocabulary

_NOUNS: Mapping[str, str] = {
    "procedure": "a procedure", "part": "a part", "tool": "a tool", "material": "a material",
    "skill": "a skill", "person": "a person", "change": "a change", "order": "an order",
    "customer": "a customer", "word": "a word of the glossary", "path": "a procedure or one of its steps",
}
_WAYS: Mapping[str, str] = {
    "procedure": "begin its page with `benchlore new procedure {}`",
    "tool": "begin its page with `benchlore new tool {}`",
    "material": "begin its page with `benchlore new material {}`",
    "skill": "begin its page with `benchlore new skill {}`",
    "person": "add the person with `benchlore new person {}`",
    "part": "add `{}` under `parts` of procedures/shop.yml",
    "customer": "add `{}` under `customers` of procedures/shop.yml",
}
_NOTHING = ("none", "nothing", "no", "-", "keine", "n/a", "nil")
_HOMES: Mapping[str, str] = {"part": "shop", "customer": "shop", "word": "shop", "person": "people"}
"""Kinds that stand together in one file, and the name of that file."""


def kinds_in_words(kinds: Iterable[str]) -> str:
    """The kinds that are wanted: `a material or a part`."""
    return " or ".join(_NOUNS[kind] for kind in kinds)


def written_anew(text: str, kinds: tuple[str, ...]) -> str:
    """How the thing comes into the notebook, if the id is right: ``Write the id of a tool, or ...``."""
    wanted = kinds_in_words(kinds)
    if text.lower() in _NOTHING:
        return "Where there is none, write `[]`."
    pieces = [piece.strip() for piece in text.split(",")]
    if len(pieces) > 1 and all(pieces):
        return f"Several stand between brackets: `[{', '.join(id_from(piece) for piece in pieces)}]`."
    id_ = id_from(text)
    head, *_ = kinds
    way = _WAYS.get(head, "")
    return f"Write the id of {wanted}, or {way.format(id_)}." if way and id_ else f"Write the id of {wanted}."


def may_be_unread(analysis: Analysis, text: str, kinds: Iterable[str]) -> bool:
    """True where what is meant may stand in a file that could not be read."""
    unread = analysis.notebook.unread
    return bool(unread) and (
        any(piece in unread for piece in text.split("/")) or any(_HOMES.get(kind) in unread for kind in kinds)
    )


def did_you_mean(analysis: Analysis, text: str, kinds: tuple[str, ...]) -> str:
    """`Did you mean ...? ` with the nearest id of these kinds, or nothing where none comes near."""
    head, slash, rest = text.partition("/")
    target = analysis.references.find(head, kinds) if slash else None
    if target is not None:
        names = inner_names(analysis, target)
        near = analysis.once(("words within", id(target.entry)), lambda: Vocabulary(names)).nearest(rest)
        return told(near and f"{head}/{near}")
    near = analysis.once(("titles of", kinds), lambda: Titled(_titles(analysis, kinds))).nearest(head)
    return told(near and f"{near}{slash}{rest}")


def inner_names(analysis: Analysis, target: Target) -> Set[str]:
    """What may stand behind the stroke of a path: steps and named values of the thing."""
    return analysis.once(("names within", id(target.entry)), lambda: dict.fromkeys(_inner(analysis, target)).keys())


def words_of_steps(own: Procedure | None) -> Vocabulary:
    """The ids of the steps of a procedure."""
    return Vocabulary(str(step.id) for step in (all_steps(own) if own is not None else ()) if step.id is not None)


def _inner(analysis: Analysis, target: Target) -> Iterable[str]:
    if target.entry is None:
        return
    if isinstance(target.entry, Procedure):
        yield from (str(step.id) for step in all_steps(target.entry) if step.id is not None)
    for value in analysis.references.values_in(target.entry, target.kind):
        yield value.name
        if value.step is not None and value.step.id is not None:
            yield f"{value.step.id}/{value.name}"


def _titles(analysis: Analysis, kinds: Iterable[str]) -> Mapping[str, str]:
    """Of each id of these kinds what the thing or the person is called."""
    nb = analysis.notebook
    customers: Mapping[str, object] = {str(k): v for k, v in nb.shop.customers.items()} if nb.shop is not None else {}
    shelves: Mapping[str, Mapping[str, object]] = {
        "procedure": nb.procedures, "part": nb.parts, "tool": nb.tools, "material": nb.materials,
        "skill": nb.skills, "person": nb.people, "change": nb.changes, "order": nb.orders, "word": nb.words,
        "customer": customers, "path": nb.procedures,
    }
    return {
        str(id_): str(getattr(thing, "title", None) or getattr(thing, "name", ""))
        for kind in kinds for id_, thing in shelves.get(kind, {}).items()
    }
