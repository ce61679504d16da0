"""One tree into one entry of the model; what does not fit is told and left out, the rest is kept."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import ValidationError

from site_builder.notebook.finding import At, Finding, Level
from site_builder.notebook.meant_keys import meant_key
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.reader import MAX_TOLD
from site_builder.notebook.tree import Map, Node, Seq, Text
from site_builder.notebook.unit_hints import with_unit

E = TypeVar("E", bound=Entry)
_ID = Text("id")
_UNITLESS = ("unit-missing", "range-hyphen", "decimal-comma")
_ROUNDS = 12
"""Each round tells all faults of the deepest layer it reaches; a real file needs one or two."""


def validate(
    model: type[E], tree: Map, nouns: frozenset[str], lost: set[str] | None = None,
) -> tuple[E | None, list[Finding]]:
    """The entry, or None where too little is left of it, and what was found.

    The names and ids of what had to be left out are added to ``lost``: nothing may be concluded from
    their absence.
    """
    findings: list[Finding] = []
    context = {"nouns": nouns}
    pruned: set[str] = set()
    for _ in range(_ROUNDS):
        try:
            return model.model_validate(tree, context=context), findings
        except ValidationError as faults:
            spots = []
            for error in faults.errors(include_url=False):
                missing = error["type"] == "missing"
                told_already = missing and (
                    str(error["loc"][-1]) in pruned or _misspelt(tree, error["loc"]))  # taken out, or told as a slip
                if not told_already and len(findings) <= MAX_TOLD:
                    findings.append(_finding(tree, error))
                spots.append(_spot(tree, error["loc"]))
            if not all(spots):
                return None, findings
            pruned |= {str(spot[1]) for spot in spots if spot}
            _prune([spot for spot in spots if spot], set() if lost is None else lost)
    return None, findings


def _finding(tree: Map, error: Any) -> Finding:
    loc, kind = error["loc"], error["type"]
    parent, key, node = _walk(tree, loc)
    if kind == "notebook":
        context = error["ctx"]
        at = context["at"] or _at(node) or tree.at
        message, fix = context["message"], context["fix"]
        if context["code"] in _UNITLESS and fix.endswith(" mm`."):  # the key knows better than the notation
            message, fix = with_unit(message, loc), with_unit(fix, loc)
        return Finding(At(tree.path, at.line, at.column), context["code"], Level.ERROR, message, fix)
    if kind == "extra_forbidden" and isinstance(parent, Map):
        return _unknown_key(parent, key)
    if kind == "missing":
        name = str(loc[-1])
        at = _at(node) or tree.at
        if isinstance(node, Text) or (isinstance(node, Map) and name in node):
            if len(loc) == 1:
                return Finding(at, "key-missing", Level.ERROR, f"`{name}` stands here, but nothing is written at it.",
                               f"Write it behind `{name}:`; it is one of the few keys that must stand.")
            return Finding(at, "key-missing", Level.ERROR, f"Without its `{name}` this says nothing yet.",
                           "Take it away until it is told, and ask for it under `questions:` of the step or thing.")
        return Finding(at, "key-missing", Level.ERROR, f"`{name}` is missing here.",
                       f"Add a line `{name}: …`; it is one of the few keys that must stand.")
    return Finding(_at(node) or tree.at, "value-broken", Level.ERROR, str(error["msg"]),
                   "Look it up in the guide.")


def _misspelt(tree: Map, loc: tuple[int | str, ...]) -> bool:
    """Whether the key that is missing stands there with a slip in it, and is told so."""
    _, _, node = _walk(tree, loc[:-1])
    known: frozenset[str] = getattr(node, "known", frozenset()) if isinstance(node, Map) else frozenset()
    return any(key not in known and meant_key(str(key), known) == f"Did you mean `{loc[-1]}`?" for key in node or ())


def _unknown_key(parent: Map, key: Any) -> Finding:
    written = parent.key(str(key))
    at = written.at if written is not None else parent.at
    return Finding(at, "key-unknown", Level.ERROR, f"`{key}` is not a key that can stand here.",
                   meant_key(str(key), getattr(parent, "known", frozenset())))


def _walk(tree: Map, loc: tuple[int | str, ...]) -> tuple[Any, Any, Any]:
    """Parent, key and node at a path of the model; short forms stand for their long ones."""
    parent: Any = None
    key: Any = None
    node: Any = tree
    for step in loc:
        if isinstance(node, Seq) and isinstance(step, int) and step < len(node):
            parent, key, node = node, step, node[step]
        elif isinstance(node, Map) and step in node:
            parent, key, node = node, step, node[step]  # type: ignore[index]
        elif isinstance(node, Text):
            break
    return parent, key, node


def _spot(tree: Map, loc: tuple[int | str, ...]) -> tuple[Any, Any] | None:
    parent, key, _ = _walk(tree, loc)
    return None if parent is None else (parent, key)


def _prune(spots: list[tuple[Any, Any]], lost: set[str]) -> None:
    """Take the faulty nodes out, later list items first, so that numbers stay true."""
    done: set[tuple[int, Any]] = set()
    for parent, key in sorted(spots, key=lambda s: s[1] if isinstance(s[1], int) else -1, reverse=True):
        if (id(parent), key) in done:
            continue
        done.add((id(parent), key))
        if isinstance(parent, Seq):
            node = parent.pop(key)
        else:
            lost.add(str(key))
            node = parent.pop(key, None)
        if isinstance(node, Map) and isinstance(node.get(_ID), Text):
            lost.add(str(node[_ID]))


def _at(node: Node | Any) -> At | None:
    return node.at if isinstance(node, (Map, Seq, Text)) else None
