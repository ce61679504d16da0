"""From the tree of a file to the tree that is wanted: the fewest letters that have to be written otherwise.

What stands line below line is handled here, what stands between braces and brackets in ``flowing``. Whatever comes out
is read again by ``plan``, so that a fault here can refuse an amendment, but cannot write a wrong one.
"""

from __future__ import annotations

from site_builder.amend import quoting
from site_builder.amend.aligning import aligned, moved
from site_builder.amend.amendment import Plain
from site_builder.amend.flowing import in_flow
from site_builder.amend.habits import habits_of
from site_builder.amend.laying import Laying
from site_builder.amend.placed import Leaf, Listed, Mapped, Pair, Placed, Unspliceable, plain_of
from site_builder.amend.splices import Splice, joined


def splices_for(text: str, top: Placed, new: Plain, *, broken: bool = True) -> list[Splice]:
    """The splices that make of ``text``, whose tree is ``top``, one whose tree is ``new``. Raises Unspliceable.

    Without ``broken`` every text that is written stands on one line, whatever is around it.
    """
    if not isinstance(top, Mapped) or not isinstance(new, dict) or top.flow or not new:
        raise Unspliceable(top.start, "This file does not begin with a key.")
    work = Splicing(text, Laying(habits_of(text, top), broken))
    work.mapping(top, new)
    try:
        return joined(work.made, text)
    except ValueError as problem:
        raise Unspliceable(int(problem.args[0]), "Two changes meet in this line.") from None


class Splicing:
    """One file being changed."""

    def __init__(self, text: str, laying: Laying) -> None:
        self.text = text
        self.laying = laying
        self.made: list[Splice] = []

    # ------------------------------------------------------------------ places in the text

    def line_end(self, at: int) -> int:
        """The end of the line on which ``at`` stands, before its line end."""
        found = self.text.find("\n", at)
        return len(self.text) if found < 0 else found

    def line_start(self, at: int) -> int:
        return self.text.rfind("\n", 0, at) + 1

    def column(self, at: int) -> int:
        return at - self.line_start(at)

    def is_first(self, at: int) -> bool:
        """Whether nothing but blanks stands before ``at`` on its line."""
        return not self.text[self.line_start(at) : at].strip(" ")

    def replace(self, start: int, end: int, after: str) -> None:
        self.made.append(Splice(start, self.text[start:end], after))

    def insert(self, at: int, after: str) -> None:
        self.made.append(Splice(at, "", after))

    def drop_lines(self, start: int, end: int) -> None:
        """Take away the lines from that of ``start`` to that of ``end``, with what else is on them."""
        first, last = self.line_start(start), self.line_end(end)
        if first > 0:
            self.replace(first - 1, last, "")
        else:
            self.replace(0, min(last + 1, len(self.text)), "")

    # ------------------------------------------------------------------ mappings

    def mapping(self, node: Mapped, new: dict[str, Plain]) -> None:
        """Change a block mapping so that it reads ``new``; at least one key stays."""
        pairs = {pair.key.value: pair for pair in node.pairs}
        kept = [key for key in pairs if key in new]
        if len(pairs) != len(node.pairs):
            raise Unspliceable(node.start, "A key stands twice here.")
        if not kept:
            raise Unspliceable(node.start, "Nothing of what stands here would stay.")
        if new == plain_of(node):
            return
        column = self.column(node.pairs[0].key.start)
        for key in kept:
            if plain_of(pairs[key].value) != new[key]:
                self.value(pairs[key], new[key])
        self._remove_pairs(node.pairs, set(kept))
        last: Pair | None = None
        ahead: list[str] = []
        for key, value in new.items():
            if key in pairs:
                last = pairs[key]
                continue
            lines = self.laying.pair(key, value, column)
            if last is None:
                ahead += lines if not ahead else [" " * column + lines[0], *lines[1:]]
            else:
                self.insert_below(last.value.end, [" " * column + lines[0], *lines[1:]])
        if ahead:
            self.insert(pairs[kept[0]].key.start, "\n".join(ahead) + "\n" + " " * column)

    def insert_below(self, end: int, lines: list[str]) -> None:
        """Write lines below the line on which something ends."""
        self.insert(self.line_end(end), "".join("\n" + line for line in lines))

    def _remove_pairs(self, pairs: list[Pair], kept: set[str]) -> None:
        first_kept = next(n for n, pair in enumerate(pairs) if pair.key.value in kept)
        for number, pair in enumerate(pairs):
            if pair.key.value in kept:
                continue
            if number > first_kept or self.is_first(pairs[0].key.start):
                self.drop_lines(pair.key.start, pair.value.end)
            elif number == 0:  # behind a dash: the next key moves up beside it
                self._pull_up(pair.key.start, pairs[first_kept].key.start)

    def _pull_up(self, start: int, next_start: int) -> None:
        """What stands first behind a dash goes; comments between it and the next stay."""
        between = self.text[start:next_start]
        lines = between.split("\n")[1:-1]
        comments = [line for line in lines if line.lstrip().startswith("#")]
        if not comments:
            self.replace(start, next_start, "")
            return
        blank = start - (start - len(self.text[:start].rstrip(" ")))
        self.replace(blank, next_start, "\n" + "\n".join(comments) + "\n" + " " * self.column(next_start))

    # ------------------------------------------------------------------ values

    def colon(self, pair: Pair) -> int:
        """The place behind the colon of a key. Raises Unspliceable for a key written with ``?``."""
        at = pair.key.end
        while self.text[at : at + 1] == " ":
            at += 1
        if self.text[at : at + 1] != ":":
            raise Unspliceable(pair.key.start, "This key is written with a question mark before it.")
        return at + 1

    def value(self, pair: Pair, new: Plain) -> None:
        """Change what stands behind a key."""
        old = pair.value
        if self._in_place(old, new):
            return
        column = self.column(pair.key.start)
        colon = self.colon(pair)
        if isinstance(new, str):
            self._text_behind(old, new, colon, column + self.laying.habits.step)
            return
        if isinstance(new, dict) and not self.laying.is_brief(new) and self._lengthen(old, new, column, colon):
            return
        braces = isinstance(old, Mapped) and old.flow
        if self.laying.is_brief(new, braces=braces):
            self._inline_behind(old, self.laying.inline(new), colon)
            return
        lines = self.laying.below(new, column)
        if isinstance(old, Leaf) or old.flow:
            self.replace(colon, old.end, "")
            self.insert_below(old.end, lines)
        else:
            self.drop_lines(old.start, old.end)
            self.insert(self.line_end(old.end), "".join("\n" + line for line in lines))

    def _in_place(self, old: Placed, new: Plain) -> bool:
        """Whether the change is one within a list or a mapping that stays one; if so, it is made."""
        if isinstance(old, Mapped) and isinstance(new, dict) and new:
            if old.flow:
                made = in_flow(self.text, old, new, self.laying)
                self.made += made or ()
                return made is not None
            if any(pair.key.value in new for pair in old.pairs):
                self.mapping(old, new)
                return True
        if isinstance(old, Listed) and isinstance(new, list) and new:
            if old.flow:
                made = in_flow(self.text, old, new, self.laying)
                self.made += made or ()
                return made is not None
            return self.listed(old, new)
        return False

    def _text_behind(self, old: Placed, new: str, colon: int, column: int) -> None:
        """A text behind a key: in place of another text, or of a list or mapping."""
        if not isinstance(old, Leaf):
            self._inline_behind(old, quoting.in_one_line(new), colon)
            return
        width = None
        piece = self.text[old.start : old.end]
        if "\n" in piece:
            lines = piece.split("\n")
            inner = [line for line in lines[1:] if line.strip()]
            column = min((len(line) - len(line.lstrip(" ")) for line in inner), default=column)
            width = max(map(len, inner), default=self.laying.habits.fold_at)
            if not old.style:
                width = max(width, self.column(old.start) + len(lines[0]))
        written = self.laying.text(new, column, used=self.column(colon) + 1, old=old, width=width)
        behind = self.text[old.end : self.line_end(old.end)]
        if len(written) > 1 and "#" in behind and written[0][0] not in "|>":
            written = [quoting.in_one_line(new, like=old.style)]  # a comment ends a broken text
        first = " " + written[0] if written[0] else ""
        start = colon if old.start == old.end or not written[0] else old.start
        self.replace(start, old.end, first if start == colon else written[0])
        if written[1:]:
            self.insert_below(old.end, written[1:])

    def _inline_behind(self, old: Placed, written: str, colon: int) -> None:
        """Something on the key's own line, in place of whatever stood there or below."""
        if isinstance(old, Leaf) and old.start == old.end:
            self.insert(colon, " " + written)
        elif isinstance(old, Leaf) or old.flow:
            self.replace(old.start, old.end, written)
        else:
            self.insert(colon, " " + written)
            self.drop_lines(old.start, old.end)

    def _lengthen(self, old: Placed, new: dict[str, Plain], column: int, colon: int) -> bool:
        """Short form to long form: the old text stays as it is written and gets a key, the others come below it."""
        key = next(iter(new))
        if not isinstance(old, Leaf) or old.start == old.end or new[key] != old.value or \
                "\n" in self.text[colon : old.end]:
            return False
        indent = " " * (column + self.laying.habits.step)
        self.replace(colon, old.start, f"\n{indent}{quoting.key(key)}: ")
        for name, value in list(new.items())[1:]:
            first, *rest = self.laying.pair(name, value, len(indent))
            self.insert_below(old.end, [indent + first, *rest])
        return True

    # ------------------------------------------------------------------ lists

    def dash(self, node: Listed, item: Placed) -> int:
        """Where the dash of an item stands. Raises Unspliceable."""
        column = self.column(node.start)
        start = self.line_start(item.start)
        while True:
            at = start + column
            if self.text[at : at + 1] == "-" and at < max(item.start, 1) and \
                    (at == node.start or not self.text[start:at].strip(" ")):
                return at
            if start <= self.line_start(node.start):
                raise Unspliceable(item.start, "The dash of this line is not found.")
            start = self.line_start(start - 1)

    def listed(self, node: Listed, new: list[Plain]) -> bool:
        """Change a block list so that it reads ``new``; False, and nothing done, if nothing of it stays."""
        old = [plain_of(one) for one in node.items]
        pairs = aligned(old, new)
        stay = [(a, b) for a, b in pairs if a is not None and b is not None]
        if not stay:
            return False
        elsewhere = moved(old, new, pairs)
        column = self.column(node.start)
        braces = sum(isinstance(one, Mapped) and one.flow for one in node.items) * 2 > len(node.items)
        dashes = [self.dash(node, one) for one in node.items]
        for a, b in stay:
            if old[a] != new[b]:
                self.item(node.items[a], dashes[a], new[b])
        first = stay[0][0]
        for number in (a for a, b in pairs if a is not None and b is None):
            if self.is_first(dashes[0]) or number > first:
                self.drop_lines(dashes[number], node.items[number].end)
            elif number == 0:
                self.replace(dashes[0], dashes[first], "")
        ahead: list[str] = []
        last: Placed | None = None
        for before, after in pairs:
            if before is not None and after is not None:
                last = node.items[before]
            if before is not None or after is None:
                continue
            lines = self._moved_lines(node, dashes, elsewhere[after]) if after in elsewhere else None
            if lines is None:
                lines = self.laying.item(new[after], column, braces=braces)
                lines = [" " * column + lines[0], *lines[1:]]
            if last is None:
                ahead += lines
            else:
                self.insert_below(last.end, lines)
        if ahead:
            at = dashes[first]
            if not self.is_first(at):
                ahead[0] = ahead[0].lstrip(" ")
                self.insert(at, "\n".join(ahead) + "\n" + " " * column)
            else:
                self.insert(self.line_start(at), "\n".join(ahead) + "\n")
        return True

    def _moved_lines(self, node: Listed, dashes: list[int], number: int) -> list[str] | None:
        """The lines of an item as they stand, for another place in the same list."""
        if not self.is_first(dashes[number]):
            return None
        piece = self.text[self.line_start(dashes[number]) : self.line_end(node.items[number].end)]
        return piece.split("\n")

    def item(self, old: Placed, dash: int, new: Plain) -> None:
        """Change what stands behind a dash."""
        if self._in_place(old, new):
            return
        column = self.column(old.start) if old.start > dash + 1 and self.line_start(old.start) <= dash else \
            self.column(dash) + 2
        if isinstance(old, Leaf) and isinstance(new, str) and old.start < old.end:
            self._text_behind(old, new, dash + 1, column)
            return
        if isinstance(old, Leaf) and isinstance(new, dict) and not self.laying.is_brief(new) \
                and old.start < old.end and new and next(iter(new.values())) == old.value \
                and "\n" not in self.text[dash : old.end]:
            self.insert(old.start, f"{quoting.key(next(iter(new)))}: ")
            for name, value in list(new.items())[1:]:
                first, *rest = self.laying.pair(name, value, column)
                self.insert_below(old.end, [" " * column + first, *rest])
            return
        braces = isinstance(old, Mapped) and old.flow
        first, *rest = self.laying.behind(new, column, braces=braces)
        if old.start == old.end:
            self.insert(dash + 1, " " + first)
        else:
            self.replace(old.start, old.end, first)
        if rest:
            self.insert_below(old.end, rest)
