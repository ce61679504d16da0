"""The same notebook file as other hands would have written it: comments, line ends, quotes, broken lines."""

from __future__ import annotations

from random import Random

from site_builder.amend import Plain, plain
from site_builder.amend.placed import Leaf, Placed, place
from site_builder.notebook.reader import decode, read_text

BOM = b"\xef\xbb\xbf"
_COMMENTS = ("# so said the old one", "# à vérifier: naïve", "#", "# - not: a list", "# 12 °C – höchstens", "# 'quote")


def tree_of(data: bytes) -> Plain | None:
    """What the reader of the notebook makes of it; None if it is not read whole."""
    text, found = decode(data, "x.yml")
    reading = read_text(text, "x.yml")
    return plain(reading.trees[0]) if not found and reading.whole and len(reading.trees) == 1 else None


def disturbed(text: str, chance: Random) -> bytes:
    """Bytes with the same tree, disturbed in a way that ``chance`` chooses; every way keeps the tree, or is dropped."""
    wanted = tree_of(text.encode())
    ways = (_quoted, _broken, _folded, _commented, _behind, _blank_lines, _flush_lists)
    for way in chance.sample(ways, chance.randint(0, 3)):
        other = way(text, chance)
        if tree_of(other.encode()) == wanted:
            text = other
    if chance.random() < 0.2:
        text = text.rstrip("\n")
    if chance.random() < 0.25:
        text = text.replace("\n", "\r\n")
    data = (BOM if chance.random() < 0.15 else b"") + text.encode()
    return data if tree_of(data) == wanted else text.encode()


def leaves(node: Placed | None) -> list[Leaf]:
    """All values of a tree that are texts, none of its keys."""
    if node is None:
        return []
    if isinstance(node, Leaf):
        return [node]
    inner = [pair.value for pair in node.pairs] if hasattr(node, "pairs") else node.items
    return [leaf for one in inner for leaf in leaves(one)]


def _rewritten(text: str, chance: Random, wanted: int, form: str) -> str:
    plain_ones = [leaf for leaf in leaves(place(text)) if not leaf.style and len(leaf.value.split(" ")) > wanted
                  and "\n" not in text[leaf.start : leaf.end]]
    for leaf in sorted(chance.sample(plain_ones, min(3, len(plain_ones))), key=lambda one: -one.start):
        indent = " " * (len(text[: leaf.start].rpartition("\n")[2].partition("- ")[0]) + 6)
        words = leaf.value.split(" ")
        half = len(words) // 2
        if form == "quoted":
            sign = chance.choice("'\"")
            doubled = leaf.value.replace("\\", "\\\\").replace('"', '\\"')
            written = sign + (leaf.value.replace("'", "''") if sign == "'" else doubled) + sign
        else:
            start = ">-\n" + indent if form == "folded" else ""
            written = start + " ".join(words[:half]) + "\n" + indent + " ".join(words[half:])
        other = text[: leaf.start] + written + text[leaf.end :]
        if tree_of(other.encode()) == tree_of(text.encode()):
            text = other
    return text


def _quoted(text: str, chance: Random) -> str:
    return _rewritten(text, chance, 0, "quoted")


def _broken(text: str, chance: Random) -> str:
    return _rewritten(text, chance, 4, "broken")


def _folded(text: str, chance: Random) -> str:
    return _rewritten(text, chance, 4, "folded")


def _commented(text: str, chance: Random) -> str:
    lines = text.split("\n")
    for _ in range(chance.randint(1, 5)):
        at = chance.randint(0, len(lines) - 1)
        indent = len(lines[at]) - len(lines[at].lstrip())
        lines.insert(at, " " * chance.choice((indent, 0, indent + 2)) + chance.choice(_COMMENTS))
    return "\n".join(lines)


def _behind(text: str, chance: Random) -> str:
    lines = text.split("\n")
    for _ in range(chance.randint(1, 4)):
        at = chance.randint(0, len(lines) - 1)
        lines[at] += chance.choice((" ", "   ")) + chance.choice(_COMMENTS)
    return "\n".join(lines)


def _blank_lines(text: str, chance: Random) -> str:
    lines = text.split("\n")
    for _ in range(chance.randint(1, 4)):
        lines.insert(chance.randint(0, len(lines) - 1), chance.choice(("", "  ")))
    return "\n".join(lines)


def _flush_lists(text: str, _chance: Random) -> str:
    """Lists at the very column of their key."""
    lines = text.split("\n")
    for at in range(len(lines) - 1):
        if lines[at].endswith(":") and not lines[at].startswith(" ") and lines[at + 1].startswith("  - "):
            for below in range(at + 1, len(lines)):
                if lines[below].strip() and not lines[below].startswith("  "):
                    break
                lines[below] = lines[below][2:]
    return "\n".join(lines)
