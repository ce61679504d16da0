"""Values on the page of a procedure: written for people, their names linked, their two sides in words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_view import ProcedureView, parts
from site_builder.handbook.theme import token
from site_builder.notebook.index import Place
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.limit import Limit, Saying
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.names import NamedValue
from site_builder.notebook.tree import Text
from site_builder.quantity import (
    Ask,
    Limits,
    Some,
    Word,
    for_people,
    references,
)

_UNTOLD = "not told yet"


@dataclass(frozen=True, slots=True)
class Worth:
    """A value for people, with the other system of units, and lines on where its figure comes from."""

    main: Markup
    other: str = ""
    lines: tuple[Markup, ...] = ()

    @property
    def inline(self) -> Markup:
        """In one piece, the other system in brackets."""
        return filled("{} {}", self.main, parts().also(self.other)) if self.other else self.main


def worth(view: ProcedureView, leaf: Written, place: Place) -> Worth:
    """A written value."""
    what = leaf.value.what
    if isinstance(what, Ask):
        return Worth(view.untold("not told yet", leaf.at))
    if isinstance(what, Word):
        found = named_value(view, what.text, place)
        if found is None:
            return _doubted(view, leaf, Worth(in_words.lowered(view.words(what.text))))
        return _taken_over(view, leaf, what.text, found)
    shown = for_people(leaf.value, view.book.system)
    if isinstance(what, Some):
        return Worth(filled("{} {}", shown.main, view.untold("how much is not told yet", leaf.at)))
    names = [r.name for r in references(leaf.value)]
    main = linked(view, in_words.spelt(shown.main), names, place)
    if isinstance(what, Limits) and any(isinstance(clause.what, Ask) for clause in what.clauses):
        main = Markup(main.replace(_UNTOLD, view.untold(_UNTOLD, leaf.at), 1))
    return _doubted(view, leaf, Worth(main, in_words.spelt(shown.other) if not names else ""))


def _doubted(view: ProcedureView, leaf: Written, told: Worth) -> Worth:
    if not leaf.value.perhaps:
        return told
    return Worth(filled("{} {}", told.main, view.untold("not sure", leaf.at)), told.other, told.lines)


def _taken_over(view: ProcedureView, leaf: Written, name: str, found: NamedValue) -> Worth:
    """A name alone takes that other value over whole: its figure stands here, its home is linked."""
    link = value_link(view, name, found)
    written = found.limits[0].written if found.limits else found.written
    if written is None or isinstance(written.value.what, Word | Ask):
        return _doubted(view, leaf, Worth(link))
    shown = for_people(written.value, view.book.system)
    line = filled("The same as {}.", link)
    main = escape(in_words.spelt(shown.main))
    return _doubted(view, leaf, Worth(main, in_words.spelt(shown.other), (line,)))


def named_value(view: ProcedureView, name: str, place: Place) -> NamedValue | None:
    found = view.references.values(name, place)
    return found[0] if found else None


def linked(view: ProcedureView, text: str, names: list[str], place: Place) -> Markup:
    """The names in a value become links."""
    safe = escape(text)
    if not names:
        return safe
    links: dict[str, Markup] = {}
    for name in names:
        found = named_value(view, name, place)
        if found is not None:
            links[str(escape(name))] = value_link(view, name, found)
    if not links:
        return safe
    pattern = "|".join(re.escape(name) for name in sorted(links, key=len, reverse=True))
    return Markup(re.sub(pattern, lambda hit: str(links[hit[0]]), str(safe)))


def value_link(view: ProcedureView, name: str, found: NamedValue) -> Markup:
    """``flatness of the sole``, ``pot life (Grey primer)``: a value by name, linked to where it is written."""
    last = name.rpartition("/")[2] if "/" in name else name
    href = _value_href(view, found)
    link = filled('<a href="{}">{}</a>', href, last) if href else escape(last)
    if found.entry is view.own:
        return link
    owner = _owner(view, found)
    return filled("{} ({})", link, owner) if owner else link


def _owner(view: ProcedureView, found: NamedValue) -> Markup | None:
    if found.kind == "procedure":
        title = view.context.title("procedure", found.owner_id)
        step = f", {view.book.step_name(view.nb.procedures[found.owner_id], found.step)}" if found.step else ""
        return escape(f"{title}{step}")
    named = getattr(found.entry, "title", None)
    return escape(view.context.plain(str(named))) if named else None


def _value_href(view: ProcedureView, found: NamedValue) -> str | None:
    if found.kind == "procedure":
        if found.entry is view.own:
            return view.here(value_anchor(view, found))
        anchor = view.book.anchor(found.step) if found.step is not None else ""
        return view.context.href("procedure", found.owner_id, anchor)
    if found.kind == "part":
        id_ = next((id_ for id_, part in view.nb.parts.items() if part is found.entry), "")
        return view.context.href("part", id_)
    return view.context.href(found.kind, found.owner_id)


def value_anchor(view: ProcedureView, found: NamedValue) -> str:
    """The place on this page of one of its own values; of a time or a wait, its step."""
    step = view.book.anchor(found.step) if found.step is not None else "whole"
    if found.key in ("time", "wait") or any(found.name in c.settings for c in _checks(found)):
        return step if found.step is not None else "steps"
    return f"{step}-{token(found.name)}"


def _checks(found: NamedValue) -> list[Check]:
    work = found.step or found.entry
    if found.key != "settings":
        return []
    return [check for key in ("ready", "checks", "feel") for check in getattr(work, key, ())]


def limit_worth(view: ProcedureView, limit: Limit) -> Worth:
    """The value of a limit that is no table: told, asked for, or disputed."""
    written = limit.written
    if written is not None:
        return worth(view, written, view.place(limit))
    if limit.said:
        sides = [(limit_worth(view, said).inline, _teller(view, said)) for said in limit.said]
        return Worth(Markup(parts().disputed(sides, view.question(limit.at))))
    return Worth(view.untold("not told yet", limit.at))


def _teller(view: ProcedureView, said: Saying) -> Markup:
    who = view.context.person(str(said.who)) if said.who is not None else Markup("somebody")
    return filled("{}, {}", who, view.context.date(said.date)) if said.date is not None else who


def amount(view: ProcedureView, leaf: Written) -> Markup:
    """A value that is no limit of its own: an amount, a share, a time."""
    return worth(view, leaf, view.place(view.own)).inline


def named_amounts(view: ProcedureView, given: Mapping[Text, Written]) -> Markup:
    """``room temperature 20 °C``, several with commas."""
    return in_words.listed(filled("{} {}", name, amount(view, leaf)) for name, leaf in given.items())
