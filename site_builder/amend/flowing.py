"""Changes between braces and brackets: ``{material: salt, amount: 2 kg}``, ``[belt, plate]``."""

from __future__ import annotations

from site_builder.amend import quoting
from site_builder.amend.aligning import aligned
from site_builder.amend.amendment import Plain
from site_builder.amend.laying import Laying
from site_builder.amend.placed import Leaf, Listed, Mapped, Pair, Placed, Unspliceable, plain_of
from site_builder.amend.splices import Splice


def in_flow(
    text: str, node: Mapped | Listed, new: dict[str, Plain] | list[Plain], laying: Laying,
) -> list[Splice] | None:
    """The splices within one outermost pair of braces; None if it had better be written line below line.

    That is where the line would grow too long, or where a text between braces would need quotes that it does not
    need on a line of its own. Where comments stand within, it stays between braces.
    """
    flow = Flowing(text, laying)
    flow.change(node, new)
    if "#" in text[node.start : node.end]:
        return flow.made
    start, end = text.rfind("\n", 0, node.start) + 1, text.find("\n", node.end)
    one_line = "\n" not in text[node.start : node.end]
    grown = sum(len(one.after) - len(one.before) for one in flow.made)
    length = (len(text) if end < 0 else end) - start + grown
    if one_line and grown > 0 and length > laying.habits.width:
        return None
    return None if flow.quoted and isinstance(node, Mapped) else flow.made


class Flowing:
    """One pair of braces or brackets being changed, with all within it."""

    def __init__(self, text: str, laying: Laying) -> None:
        self.text = text
        self.laying = laying
        self.made: list[Splice] = []
        self.quoted = False
        """Whether a text had to be quoted that would need no quotes on a line of its own."""

    def change(self, node: Placed, new: Plain, *, colon: int | None = None) -> None:
        """Make ``node`` read ``new``."""
        if plain_of(node) == new:
            return
        if isinstance(node, Mapped) and isinstance(new, dict) and any(p.key.value in new for p in node.pairs):
            self._mapping(node, new)
        elif isinstance(node, Listed) and isinstance(new, list) and self._list(node, new):
            pass
        elif isinstance(node, Leaf):
            self._leaf(node, new, colon)
        else:
            self._replace(node.start, node.end, self._inline(new))

    def _leaf(self, node: Leaf, new: Plain, colon: int | None) -> None:
        if node.start == node.end:  # `{a: }`
            if colon is None:
                raise Unspliceable(node.start, "Nothing stands here between two commas.")
            self._replace(colon, colon, " " + self._inline(new))
        elif isinstance(new, dict) and new and next(iter(new.values())) == node.value and "\n" not in \
                self.text[node.start : node.end]:  # short form to long form
            key, rest = next(iter(new)), dict(list(new.items())[1:])
            tail = "".join(f", {quoting.key(k, flow=True)}: {self._inline(v)}" for k, v in rest.items())
            pad = self.laying.habits.inside
            self._replace(node.start, node.start, f"{{{pad}{quoting.key(key, flow=True)}: ")
            self._replace(node.end, node.end, f"{tail}{pad}}}")
        else:
            self._replace(node.start, node.end, self._inline(new, like=node.style))

    def _inline(self, new: Plain, *, like: str = "") -> str:
        self.quoted = self.quoted or _needs_quotes(new)
        return self.laying.inline(new, like=like)

    def _replace(self, start: int, end: int, after: str) -> None:
        self.made.append(Splice(start, self.text[start:end], after))

    def _mapping(self, node: Mapped, new: dict[str, Plain]) -> None:
        if self.text[node.start : node.start + 1] != "{":
            raise Unspliceable(node.start, "A key and its value stand between brackets here, without braces.")
        pairs = {pair.key.value: pair for pair in node.pairs}
        if len(pairs) != len(node.pairs):
            raise Unspliceable(node.start, "A key stands twice here.")
        for key, pair in pairs.items():
            if key in new:
                self.change(pair.value, new[key], colon=self._colon(pair))
        fresh: list[tuple[str | None, str]] = []
        last: str | None = None
        for key, value in new.items():
            if key in pairs:
                last = key
            else:
                fresh.append((last, f"{quoting.key(key, flow=True)}: {self._inline(value)}"))
        spans = [(pair.key.start, max(pair.value.end, pair.key.end)) for pair in node.pairs]
        names = list(pairs)
        self._items(spans, {n for n, key in enumerate(names) if key in new},
                    [(None if before is None else names.index(before), written) for before, written in fresh])

    def _colon(self, pair: Pair) -> int | None:
        at = pair.key.end
        while self.text[at : at + 1] == " ":
            at += 1
        return at + 1 if self.text[at : at + 1] == ":" else None

    def _list(self, node: Listed, new: list[Plain]) -> bool:
        old = [plain_of(one) for one in node.items]
        pairs = aligned(old, new)
        kept = {a for a, b in pairs if a is not None and b is not None}
        if not kept:
            return False
        fresh: list[tuple[int | None, str]] = []
        last: int | None = None
        for a, b in pairs:
            if a is not None and b is not None:
                self.change(node.items[a], new[b])
                last = a
            elif b is not None:
                fresh.append((last, self._inline(new[b])))
        self._items([(one.start, one.end) for one in node.items], kept, fresh)
        return True

    def _items(self, spans: list[tuple[int, int]], kept: set[int], fresh: list[tuple[int | None, str]]) -> None:
        """Take away the items that are not kept, and write fresh ones, each behind the item that it follows."""
        first = min(kept)
        for number, (start, end) in enumerate(spans):
            if number in kept:
                continue
            if number < first:
                start, end = start, spans[number + 1][0]
            else:
                start = spans[number - 1][1]
            if _comment(self.text[start:end]):
                raise Unspliceable(start, "A comment stands between braces here.")
            self._replace(start, end, "")
        for before, written in fresh:
            if before is None:
                self._replace(spans[first][0], spans[first][0], written + ", ")
            else:
                self._replace(spans[before][1], spans[before][1], ", " + written)


def _comment(piece: str) -> bool:
    """Whether a comment may stand in what lies between two items."""
    return any(line.lstrip().startswith("#") or " #" in line for line in piece.split("\n"))


def _needs_quotes(node: Plain) -> bool:
    if isinstance(node, str):
        return quoting.is_plain(node) and not quoting.is_plain(node, flow=True)
    return any(_needs_quotes(one) for one in (node.values() if isinstance(node, dict) else node))
