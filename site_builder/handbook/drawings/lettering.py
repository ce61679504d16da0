"""How wide words will stand, and where to break them.

A drawing is laid out before any browser has seen it, on machines whose fonts we do not know, so
widths are estimated a little large: classes of letters, times a factor set by measuring thirteen labels
in a browser. The estimate came out 7 to 12 % over Liberation Serif, 4 to 34 % over two sans faces, and
from 6 % under to 5 % over DejaVu Serif, the broadest face tried.
"""

from __future__ import annotations

from functools import lru_cache

# Width in parts of the type size.
_NARROW, _SMALL, _MIDDLE, _CAPITAL, _BROAD = 0.27, 0.36, 0.51, 0.72, 0.88
_WIDTHS = (
    dict.fromkeys(" ilj.,:;'’|!", _NARROW)
    | dict.fromkeys("frtsIJ()[]-–/", _SMALL)
    | dict.fromkeys("ABCDEFGHKLNOPQRSTUVXYZÄÖÜ&", _CAPITAL)
    | dict.fromkeys("mwMW@%—", _BROAD)
)
_SAFETY = 1.08


@lru_cache(maxsize=4096)
def text_width(words: str, size: float) -> float:
    """Estimated width in px of `words` set in one line at `size` px."""
    return size * _SAFETY * sum(_WIDTHS.get(c, _MIDDLE if c.islower() or c.isdigit() else 0.6) for c in words)


def wrap(words: str, size: float, room: float, cut: bool = False) -> tuple[str, ...]:
    """`words` in lines of at most `room` px, lines evenly filled.

    A word longer than `room` stands out, or is cut with a hyphen if `cut` says so."""
    # Only plain spaces part words: a no-break space keeps number and unit together.
    parts = [part for part in words.split(" ") if part]
    if cut:
        parts = [piece for part in parts for piece in _cut(part, size, room)]
    if not parts:
        return ()
    lines = _fill(parts, size, room)
    narrow = room
    # The same number of lines in less room gives lines of more even length.
    while len(lines) > 1 and narrow > room / 2:
        narrow -= size / 2
        tighter = _fill(parts, size, narrow)
        if len(tighter) > len(lines) or widest(tighter, size) > narrow:
            break
        lines = tighter
    return tuple(lines)


def widest(lines: tuple[str, ...] | list[str], size: float) -> float:
    """Width in px of the longest of `lines`; 0 for none."""
    return max((text_width(line, size) for line in lines), default=0.0)


def _fill(parts: list[str], size: float, room: float) -> list[str]:
    lines = [parts[0]]
    for part in parts[1:]:
        longer = f"{lines[-1]} {part}"
        if text_width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(part)
    return lines


def _cut(word: str, size: float, room: float) -> list[str]:
    pieces = []
    while text_width(word, size) > room and len(word) > 2:
        end = next((i for i in range(len(word) - 1, 2, -1) if text_width(word[:i] + "-", size) <= room), 2)
        pieces.append(word[:end] + "-")
        word = word[end:]
    return [*pieces, word]
