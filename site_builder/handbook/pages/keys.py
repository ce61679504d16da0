"""The keys of the notebook for writers, read off the model itself: what each is for and when one meets it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from inspect import getdoc
from typing import Any, get_args

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import WRITERS, Page, Site
from site_builder.notebook.kinds import RECORD_KINDS, Family, by_key, models
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.schema import ring_of
from site_builder.views.anchors import token
from site_builder.views.prose import NO_WORDS, Prose, Ref, capital, joined, linked, say, toned

RINGS = ("On the first day", "In the first month", "Rarely")
_COMMON = frozenset({"because", "for", "source", "told", "asked", "note"})
_HIDDEN = frozenset({"at", "asked"})

Row = tuple[Prose, Prose]


@dataclass(frozen=True, slots=True)
class KeyPage:
    """Kinds whose keys stand on one page."""

    family: Family
    src_uri: str
    title: str
    besides: tuple[type[Entry], ...] = ()
    """What has no file of its own."""

    @property
    def roots(self) -> tuple[type[Entry], ...]:
        return (*(kind.model for kind in by_key().values() if kind.family == self.family), *self.besides)


@dataclass(frozen=True, slots=True)
class Keys:
    """The keys of one kind of mapping: tables by ring, each (caption, rows)."""

    anchor: str
    title: str
    says: Prose
    tables: tuple[tuple[str, list[Row]], ...]


FAMILIES = (
    KeyPage("work", "for-writers/keys-of-the-work.md", "Keys of a procedure", (Step,)),
    KeyPage("things", "for-writers/keys-of-things.md", "Keys of tools and materials"),
    KeyPage("people", "for-writers/keys-of-people.md", "Keys of people, skills and records",
            tuple(RECORD_KINDS.values())),
    KeyPage("shop", "for-writers/keys-of-the-shop.md", "Keys of the shop, changes and orders"),
    KeyPage("tellings", "for-writers/keys-of-tellings.md", "Keys of tellings"),
)


def key_pages(site: Site) -> Iterator[Page]:
    """A page for each family of kinds."""
    where = places()
    for family in FAMILIES:
        context = PageContext(site, family.src_uri)
        kinds = [keys_of(context, model, where) for model, src_uri in where.items() if src_uri == family.src_uri]
        lede = say("What may stand in these files, in the order in which one meets it. Six keys may stand in every "
                      "mapping and are not repeated: `because`, `for`, `source`, `told`, `asked` and "
                      "`note`.")
        html = pressed("keys.html.j2", context, title=family.title, lede=lede, kinds=kinds,
                       kicker=say("{}", linked("For writers", Ref("chapter", WRITERS))))
        parts = tuple(Part(kind.anchor, f"Keys: {kind.title}", kind.says.plain) for kind in kinds)
        yield Page(family.src_uri, family.title, html, lede.plain, parts)


def keys_of(context: PageContext, model: type[Entry], where: Mapping[type[Entry], str], rings: int = 3) -> Keys:
    """The keys of one kind, the first so many rings of them."""
    by_ring: dict[int | None, list[Row]] = {}
    met = [key for ring in model.RINGS for key in ring]
    for name, field in sorted(model.model_fields.items(), key=lambda pair: _turn(met, pair[1].alias or pair[0])):
        key = field.alias or name
        if name in _HIDDEN or key in _COMMON:
            continue
        ring = ring_of(model, key)
        if ring is None or ring < rings:
            by_ring.setdefault(ring, []).append(_row(context, model, key, field, where))
    in_turn = sorted(by_ring.items(), key=lambda pair: pair[0] or 0)
    tables = tuple(("Keys" if ring is None else RINGS[ring], rows) for ring, rows in in_turn)
    doc = (getdoc(model) or "").split("\n\n")[0].replace("\n", " ")
    return Keys(anchor_of(model), str(capital(name_of(model))), context.words(doc, glossary=False), tables)


def _turn(met: list[str], key: str) -> int:
    """Keys in the order in which the rings name them, the others after them as they come."""
    return met.index(key) if key in met else len(met)


def name_of(model: type[Entry]) -> str:
    """``tool use`` for ToolUse; a kind of file by its first key."""
    kinds = {kind: key for key, kind in (*models().items(), *RECORD_KINDS.items())}
    return kinds.get(model) or re.sub(r"(?<=[a-z])(?=[A-Z])", " ", model.__name__).lower()


def anchor_of(model: type[Entry]) -> str:
    """The anchor of a kind on its page."""
    return f"key-{token(name_of(model))}"


def places() -> Mapping[type[Entry], str]:
    """Each kind of mapping with the page on which its keys stand: that of the first family that leads to it."""
    found: dict[type[Entry], str] = {}
    for family in FAMILIES:
        todo = [*family.roots]
        while todo:
            model = todo.pop(0)
            if model not in found:
                found[model] = family.src_uri
                todo += [inner for field in model.model_fields.values() for inner in _models(field.annotation)]
    return found


def _row(context: PageContext, model: type[Entry], key: str, field: Any, where: Mapping[type[Entry], str]) -> Row:
    told = context.words(field.description or "", glossary=False)
    needed = say(" **Needed.**") if field.is_required() else NO_WORDS
    short = say(" {}", toned("because", "The short form.")) if key == model.MAIN else NO_WORDS
    inner = joined((linked(name_of(one), Ref("chapter", where[one], anchor_of(one)))
        for one in _models(field.annotation) if one in where), ", ")
    see = say(" See {}.", inner) if inner else NO_WORDS
    return say("`{}`", key), say("{}{}{}{}", told, needed, short, see)


def _models(annotation: object) -> Iterable[type[Entry]]:
    """The kinds of mapping that may stand under a key."""
    if isinstance(annotation, type) and issubclass(annotation, Entry):
        return [annotation]
    return list(dict.fromkeys(model for part in get_args(annotation) for model in _models(part)))
