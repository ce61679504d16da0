"""An entry in words: what it says itself and what hangs on it. Ids become names, values are said as one says them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.amend import Plain
from site_builder.bench.forms.daily import HEADS
from site_builder.bench.forms.fields import Field, Fill, fields_of
from site_builder.bench.names import Names
from site_builder.bench.spoken_values import value_words
from site_builder.notebook.answered import read_answer
from site_builder.notebook.kinds import models
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.references import LINK

OPEN = ("", "ask")
ROUTES = {"next": "go on", "again": "do it again", "aside": "put it aside for somebody", "stop": "stop the work",
          "scrap": "scrap it", "none": "nothing can be done"}
_MOMENTS = frozenset({"done", "after", "before", "decided"})
"""Keys whose words may name work: `after: cast-bell`."""
_SILENT = frozenset({"source", "asked", "told", "id", "former", "for", "guide", "format", "trouble", "title", "name"})
_WORD = {
    "because": "because", "per": "by the", "when": "when", "write": "written down", "with": "with", "then": "then",
    "means": "it means", "times": "at most", "bad": "bad is", "good": "good is", "sense": "by", "who": "by",
    "tighten": "stricter", "relax": "easier", "after": "after", "do": "do", "cause": "why", "harm": "it does",
    "avoid": "kept away by", "wear": "wear", "word": "it is a", "part": "part", "skill": "skill", "makes": "it makes",
    "use": "as in", "where": "where", "amount": "how much", "or": "or", "not": "never", "doubt": "doubted because",
    "tool": "set on", "from": "from", "until": "until", "note": "note", "share": "share", "keep": "kept",
    "brief": "in short", "family": "of the kind", "age": "from the age of", "check": "looked at", "said": "said was",
    "below": "too little", "above": "too much", "unless": "unless", "count": "how many", "clock": "by the clock",
    "state": "by its state", "feel": "by feel", "wins": "what decides", "setup": "getting ready", "each": "a piece",
    "load": "a load", "lot": "the whole lot", "date": "on", "scrap": "lost", "rework": "done again",
    "role": "in the shop", "born": "born", "joined": "since", "hours": "hours", "maker": "built by",
    "supplier": "from", "material": "of", "also": "also called", "founding": "teaches from the start",
    "product": "what", "pieces": "pieces", "due": "due", "customer": "for", "covers": "it is for", "what": "what",
}
"""How a key is read out between an entry and what it says of it."""


@dataclass(frozen=True, slots=True)
class Said:
    """What an entry says: its own words, and lines below them, each with what it is."""

    main: str
    more: tuple[tuple[str, str], ...] = ()

    @property
    def whole(self) -> str:
        """All of it in one line."""
        return in_one_line(self.main, *(f"{label[:1].lower()}{label[1:]}: {text}" for label, text in self.more))


def in_one_line(*told: str) -> str:
    """What was told, one after the other; a full stop stands only at the end."""
    said = [one for one in told if one]
    return "; ".join([*(one.rstrip(".") for one in said[:-1]), *said[-1:]])


def said(names: Names, model: type[Entry], tree: Plain | None) -> Said:
    """An entry that stands in the notebook."""
    known = {one.key: one for one in fields_of(model)}
    if isinstance(tree, str):
        main = known.get(model.MAIN)
        return Said(_value(names, main, tree) if main is not None else words(names, tree))
    if isinstance(tree, list):
        return Said(in_one_line(*(said(names, model, one).whole for one in tree)))
    if not isinstance(tree, dict):
        return Said("")
    lead = next((key for key in (model.MAIN, "title", "name", "do") if isinstance(tree.get(key), str)), "")
    table = model.MAIN if not lead and isinstance(tree.get(model.MAIN), dict) else ""
    own = next((kind for kind, one in models().items() if one is model), "")
    lines = [(_called(key, known.get(key)), text) for key, value in tree.items()
             if key not in (lead, table, own) and key not in _SILENT and (text := _said(names, known.get(key), value))]
    if table:
        told = _said(names, known[table], tree[table])
    else:
        told = _value(names, known.get(lead), str(tree[lead])) if lead else ""
    return Said(told, (*lines, *answers(names, tree)))


def answers(names: Names, tree: Plain) -> Iterator[tuple[str, str]]:
    """What was answered without words of its own: not known, ask somebody, does not matter."""
    held = tree.get("asked") if isinstance(tree, dict) else None
    for key, text in held.items() if isinstance(held, dict) else ():
        told = read_answer(str(text))
        if told is not None:
            whom = f" {names.person(told.whom)}" if told.whom else ""
            yield HEADS.get(key, key[:1].upper() + key[1:]), f"{told.kind}{whom}"


def words(names: Names, text: str) -> str:
    """A text with names for the ids it links to."""
    return " ".join(LINK.sub(lambda found: found[2] or names.thing(found[1].strip()), text).split())


def _called(key: str, field: Field | None) -> str:
    return _WORD.get(key) or HEADS.get(key) or (field.label if field is not None else key[:1].upper() + key[1:])


def _said(names: Names, field: Field | None, tree: Plain) -> str:
    if isinstance(tree, str):
        if tree.strip() in OPEN:
            return ""
        if field is not None and field.model is not None and field.fill is not Fill.NAMED:
            return said(names, field.model, tree).whole
        return _value(names, field, tree)
    if isinstance(tree, list):
        return in_one_line(*(_said(names, field, one) for one in tree))
    if field is not None and field.model is not None and field.fill is not Fill.NAMED:
        return said(names, field.model, tree).whole
    inner = field.model if field is not None else None
    parts = field is not None and field.key in ("of", "made")
    told = ((names.spoken(name) if parts else name, one) for name, one in tree.items())
    rows = field if field is not None and field.fill is Fill.VALUE else None
    return in_one_line(*(f"{name} {said(names, inner, one).whole if inner is not None else _said(names, rows, one)}"
                         for name, one in told))


def _value(names: Names, field: Field | None, text: str) -> str:
    if text.strip() in OPEN:
        return ""
    if field is not None and field.fill in (Fill.VALUE, Fill.COUNT):
        return value_words(text)
    if field is not None and field.fill in (Fill.THING, Fill.THINGS):
        return ROUTES.get(text) or names.spoken(text)
    if field is not None and field.key in _MOMENTS:
        return " ".join(names.spoken(one) if "-" in one else one for one in text.split())
    return words(names, text)
