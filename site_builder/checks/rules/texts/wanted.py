"""What a reference that leads to nothing may have meant."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.kinds import shelves
from site_builder.notebook.model.parsed_values import id_from
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.nearest import did_you_mean as told
from site_builder.notebook.references import Target, all_steps
from site_builder.notebook.vocabulary import Titled, Vocabulary

_ALSO: Mapping[str, str] = {
    "customer": "a customer", "word": "a word of the glossary", "path": "a procedure or one of its steps",
}
"""What can be named besides the things of the table of kinds."""
_NOTHING = ("none", "nothing", "no", "-", "keine", "n/a", "nil")

def kinds_in_words(kinds: Iterable[str]) -> str:
    """The kinds that are wanted: `a material or a part`."""
    return " or ".join(_ALSO.get(kind) or shelves()[kind].a for kind in kinds)


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
    way = "add `{}` under `customers` of procedures/shop.yml" if head == "customer" else \
        shelves()[head].way if head in shelves() else ""
    return f"Write the id of {wanted}, or {way.format(id_)}." if way and id_ else f"Write the id of {wanted}."


def may_be_unread(analysis: Analysis, text: str, kinds: Iterable[str]) -> bool:
    """True where what is meant may stand in a file that could not be read."""
    unread = analysis.notebook.unread
    return bool(unread) and (
        any(piece in unread for piece in text.split("/")) or any(_home(kind) in unread for kind in kinds)
    )


def _home(kind: str) -> str:
    """The name of the file in which all of a kind stand; empty where each has its own."""
    return "shop" if kind in ("customer", "word") else shelves()[kind].home if kind in shelves() else ""


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
    named: Mapping[str, Mapping[str, object]] = {
        **nb.shelves, "word": nb.words, "customer": customers, "path": nb.procedures,
    }
    return {
        str(id_): str(getattr(thing, "title", None) or getattr(thing, "name", ""))
        for kind in kinds for id_, thing in named.get(kind, {}).items()
    }
