"""How a text is written so that it is read as the same text: plain where that is safe, else as a careful hand would."""

from __future__ import annotations

import re

_FIRST = re.compile(r"[,\[\]{}#&*!|>'\"%@`]|[-?:](?:\s|$)")
_WITHIN = re.compile(r":(?:\s|$)|\s#|[\n\r\t\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff]")
_FLOW = re.compile(r"[,\[\]{}]")
_ODD = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff\ud800-\udfff]")
_SHORT = {"\n": "\\n", "\t": "\\t", "\r": "\\r"}


def is_plain(text: str, *, flow: bool = False) -> bool:
    """Whether a text may stand without quotes; ``flow`` between braces or brackets."""
    if not text or text != text.strip() or _FIRST.match(text) or _WITHIN.search(text):
        return False
    if text.startswith(("---", "...")):
        return False
    return not (flow and (_FLOW.search(text) or text[0] in "-?:" or text[-1] == ":"))


def in_one_line(text: str, *, flow: bool = False, like: str = "") -> str:
    """The text on one line. ``like`` is the quote that the old text stood in; it is kept where it fits."""
    quoted = any(_ODD.search(c) for c in text) if text else False
    if like == "'" and not quoted:
        return _single(text)
    if like == '"':
        return _double(text)
    if is_plain(text, flow=flow):
        return text
    if text == "":
        return '""'
    if not quoted and ('"' in text or "\\" in text) and "'" not in text:
        return _single(text)
    return _double(text)


def _single(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def _double(text: str) -> str:
    return '"' + "".join(_escaped(letter) for letter in text) + '"'


def _escaped(letter: str) -> str:
    if letter in '"\\':
        return "\\" + letter
    if letter in _SHORT:
        return _SHORT[letter]
    if _ODD.match(letter):
        return f"\\x{ord(letter):02x}" if ord(letter) < 0x100 else f"\\u{ord(letter):04x}"
    return letter


def key(text: str, *, flow: bool = False) -> str:
    """A key as it is written; one that would be read as something else goes between quotes."""
    return text if is_plain(text, flow=flow) and not _FLOW.match(text) else _double(text)


def folded(text: str, width: int) -> list[str] | None:
    """The lines of a text that is broken at blanks, none longer than ``width`` where words allow it.

    None where breaking would change the text: two blanks side by side, line ends, blanks at an end.
    """
    if not text or "  " in text or text != text.strip() or _ODD.search(text):
        return None
    lines: list[str] = []
    for word in text.split(" "):
        if lines and len(lines[-1]) + 1 + len(word) <= width:
            lines[-1] += " " + word
        else:
            lines.append(word)
    return lines


def in_lines(text: str) -> tuple[str, list[str]] | None:
    """Sign and lines with which a text of several lines is written as it stands; None where that cannot be."""
    body = text.rstrip("\n")
    ends = len(text) - len(body)
    lines = body.split("\n")
    if not body or ends > 1 or lines[0][:1] in ("", " ") or any(_ODD.search(one) for one in lines):
        return None
    return ("|" if ends else "|-"), lines
