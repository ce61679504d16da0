"""Settings and plain conditions: a value with its reason on a line; what has more to say is a limit."""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.tree import Text
from site_builder.views.blocks import Block, Item, Settings
from site_builder.views.limit import anchor_of, gauge, tools_of
from site_builder.views.limit_in_words import value_in_words
from site_builder.views.prose import Prose, capital, joined, meant, say, toned
from site_builder.views.scope import Scope
from site_builder.views.side import ends_of
from site_builder.views.table import is_short
from site_builder.views.value import limit_value

_ON_A_LINE = frozenset({"is_", "tool", "with_", "by", "because", "note", "source"})
"""What fits on the line of a setting; a limit that says more gets a gauge line."""


def settings(scope: Scope, group: Mapping[Text, Several[Limit]], here: Step | None) -> list[Block]:
    """Plain settings as a list with their reasons; those with more to say on gauge lines."""
    items: list[Item] = []
    blocks: list[Block] = []
    for name, limits in group.items():
        for nth, limit in enumerate(limits):
            anchor = anchor_of(scope, name, here, nth)
            if is_simple(limit):
                items.append(_item(scope, name, limit, anchor))
            else:
                blocks += gauge(scope, str(name), limit, here, anchor)
    return [Settings(items=tuple(items)), *blocks] if items else blocks


def is_simple(limit: Limit) -> bool:
    """Whether a limit is a value with at most a reason, a tool, a note: nothing is checked, nothing follows."""
    said = {key for key in limit.model_fields_set if getattr(limit, key, None)} - {"at", "asked", "for_"}
    if said - _ON_A_LINE or limit.asked:
        return False
    if isinstance(limit.is_, Table):
        return is_short(limit)
    return limit.written is not None


def _item(scope: Scope, name: Text, limit: Limit, anchor: str) -> Item:
    tail: list[Prose] = []
    ends = None
    if isinstance(limit.is_, Table):
        shown = value_in_words(scope, limit)
    else:
        ends = ends_of(scope, limit.written, scope.place(limit))
        value = limit_value(scope, limit)
        shown, tail = value.inline, list(value.lines)
    tail += tools_of(scope, limit)
    return Item(lead=capital(scope.words(name)), words=shown, reasons=scope.reasons(limit),
                only=scope.only(limit), anchor=anchor, tail=(*tail, *scope.tail(limit)), ends=ends)


def condition(scope: Scope, name: Text, limit: Limit) -> Prose:
    """A plain condition as one entry of the list of what to lay ready."""
    item = _item(scope, name, limit, "")
    extra = [scope.inline_why(limit), *item.tail]
    line = say("{} {}", item.lead, item.words)
    if any(extra):
        line = say("{} {}", line, toned("aside", joined(extra)))
    return meant(item.only, line)


