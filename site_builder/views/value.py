"""Values: written for people, the names in them linked, in doubt, disputed, or not told yet."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from site_builder.notebook.index import Place
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.limit import Limit, Saying
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.shop import Part
from site_builder.notebook.names import NamedValue
from site_builder.notebook.tree import Text
from site_builder.quantity import Ask, Limits, Some, Word, for_people, references, spelt
from site_builder.views.anchors import token
from site_builder.views.dates import date_words
from site_builder.views.prose import Disputed, Prose, Ref, Untold, joined, linked, listed, merged, prose, say, toned
from site_builder.views.scope import Scope

_UNTOLD = "not told yet"


@dataclass(frozen=True, slots=True)
class ShownValue:
    """A value for people, with the other system of units, and lines on where its figure comes from."""

    main: Prose
    other: str = ""
    lines: tuple[Prose, ...] = ()

    @property
    def inline(self) -> Prose:
        """In one piece, the other system in brackets."""
        return joined((self.main, toned("other units", self.other)))


def shown_value(scope: Scope, leaf: Written, place: Place) -> ShownValue:
    """A written value."""
    what = leaf.value.what
    if isinstance(what, Ask):
        return ShownValue(scope.untold(_UNTOLD, leaf.at))
    if isinstance(what, Word):
        found = named_value(scope, what.text, place)
        if found is None:
            return _doubted(scope, leaf, ShownValue(scope.lowered(scope.words(what.text))))
        return _taken_over(scope, leaf, what.text, found)
    shown = for_people(leaf.value, scope.view.system)
    if isinstance(what, Some):
        return ShownValue(say("{} {}", shown.main, scope.untold("how much is not told yet", leaf.at)))
    names = [r.name for r in references(leaf.value)]
    main = with_links(scope, spelt(shown.main), names, place)
    if isinstance(what, Limits) and any(isinstance(clause.what, Ask | Some) for clause in what.clauses):
        main = _asking(main, leaf)
    return _doubted(scope, leaf, ShownValue(main, spelt(shown.other) if not names else ""))


def _asking(main: Prose, leaf: Written) -> Prose:
    """What is not told yet of a value leads to its question."""
    for nth, piece in enumerate(main):
        if isinstance(piece, str) and _UNTOLD in piece:
            before, _, after = piece.partition(_UNTOLD)
            return merged((*main[:nth], before, Untold(_UNTOLD, leaf.at), after, *main[nth + 1 :]))
    return main


def _doubted(scope: Scope, leaf: Written, told: ShownValue) -> ShownValue:
    if not leaf.value.perhaps:
        return told
    return ShownValue(say("{} {}", told.main, scope.untold("not sure", leaf.at)), told.other, told.lines)


def _taken_over(scope: Scope, leaf: Written, name: str, found: NamedValue) -> ShownValue:
    """A name alone takes that other value over whole: its figure stands here, its home is linked."""
    link = value_link(scope, name, found)
    written = found.limits[0].written if found.limits else found.written
    if written is None or isinstance(written.value.what, Word | Ask):
        return _doubted(scope, leaf, ShownValue(link))
    shown = for_people(written.value, scope.view.system)
    line = say("The same as {}.", link)
    return _doubted(scope, leaf, ShownValue(prose(spelt(shown.main)), spelt(shown.other), (line,)))


def named_value(scope: Scope, name: str, place: Place) -> NamedValue | None:
    """The value of this name that is nearest."""
    found = scope.references.values(name, place)
    return found[0] if found else None


def with_links(scope: Scope, text: str, names: list[str], place: Place) -> Prose:
    """The names in a value become links."""
    links: dict[str, Prose] = {}
    for name in names:
        found = named_value(scope, name, place)
        if found is not None:
            links[name] = value_link(scope, name, found)
    if not links:
        return prose(text)
    pattern = "|".join(re.escape(name) for name in sorted(links, key=len, reverse=True))
    parts = re.split(f"({pattern})", text)
    return merged(piece for nth, part in enumerate(parts) for piece in (links[part] if nth % 2 else (part,)))


def value_link(scope: Scope, name: str, found: NamedValue) -> Prose:
    """``flatness of the sole``, ``pot life (Grey primer)``: a value by name, linked to where it is written."""
    last = name.rpartition("/")[2] if "/" in name else name
    to = _home(scope, found)
    link = linked(last, to) if to is not None else prose(last)
    if found.entry is scope.own:
        return link
    owner = _owner(scope, found)
    return say("{} ({})", link, owner) if owner else link


def _owner(scope: Scope, found: NamedValue) -> str:
    if found.kind == "procedure":
        title = scope.view.title("procedure", found.owner_id)
        step = f", {scope.view.step_name(scope.nb.procedures[found.owner_id], found.step)}" if found.step else ""
        return f"{title}{step}"
    return scope.view.plain(getattr(found.entry, "title", None))


def _home(scope: Scope, found: NamedValue) -> Ref | None:
    if found.kind == "procedure":
        if found.entry is scope.own:
            return scope.here(value_anchor(scope, found))
        anchor = scope.view.anchor(found.step) if found.step is not None else ""
        return Ref("procedure", found.owner_id, anchor)
    if isinstance(found.entry, Part):
        id_ = next((id_ for id_, part in scope.nb.parts.items() if part is found.entry), "")
        return Ref("part", id_)
    return Ref(found.kind, found.owner_id) if (found.kind, found.owner_id) in scope.view.titles else None


def value_anchor(scope: Scope, found: NamedValue) -> str:
    """The place on this page of one of its own values; of a time or a wait, its step."""
    step = scope.view.anchor(found.step) if found.step is not None else "whole"
    if found.key == "amount":
        return "lay-ready"
    if found.key in ("time", "wait") or any(found.name in c.settings for c in _checks(found)):
        return step if found.step is not None else "steps"
    return f"{step}-{token(found.name)}"


def _checks(found: NamedValue) -> list[Check]:
    work = found.step or found.entry
    if found.key != "settings":
        return []
    return [check for key in ("ready", "checks", "feel") for check in getattr(work, key, ())]


def limit_value(scope: Scope, limit: Limit) -> ShownValue:
    """The value of a limit that is no table: told, asked for, or disputed."""
    written = limit.written
    if written is not None and (limit.is_settled or not limit.said):
        return shown_value(scope, written, scope.place(limit))
    if limit.said:
        sides = tuple((limit_value(scope, said).inline, teller(scope, said)) for said in limit.said)
        return ShownValue(Prose((Disputed(sides, limit.at),)))
    return ShownValue(scope.untold(_UNTOLD, limit.at))


def teller(scope: Scope, said: Saying, *, dated: bool = True) -> Prose:
    """Who says so, and when."""
    who = scope.view.person(str(said.who)) if said.who is not None else prose("somebody")
    return say("{}, {}", who, date_words(said.date)) if dated and said.date is not None else who


def amount(scope: Scope, leaf: Written) -> Prose:
    """A value that is no limit of its own: an amount, a share, a time."""
    return shown_value(scope, leaf, scope.place(scope.own)).inline


def named_amounts(scope: Scope, given: Mapping[Text, Written]) -> Prose:
    """``room temperature 20 °C``, several with commas."""
    return listed(_named_amount(name, amount(scope, leaf)) for name, leaf in given.items())


def _named_amount(name: str, value: Prose) -> Prose:
    """``room temperature 20 °C``; a count says its own name (``1 coat``)."""
    return value if name.removesuffix("s") in value.plain.split() else say("{} {}", name, value)
