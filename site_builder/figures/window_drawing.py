"""A working day with the times at which a coat may be finished, as a plain drawing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape

from site_builder.formulas.interval import Interval

_WIDTH, _SIDE, _TOP, _ROW = 340, 8, 34, 58
_NEAR = 0.2
"""Of the width: a time so near an end is written away from it."""
_WIDEST = 440
"""Pixels; on a phone it is as wide as the page, with its words still large enough to read."""


def window_drawing(
    days: Sequence[tuple[str, Sequence[Interval], Interval]], clock: Callable[[float], str]
) -> str:
    """An SVG that needs no colour, with what it shows in words.

    Each day with its name, the good times and the time of work, in seconds from its midnight.
    """
    if not days:
        return ""
    begins, ends = min(work.low for _, _, work in days), max(work.high for _, _, work in days)

    def at(seconds: float) -> float:
        return _SIDE + (seconds - begins) / ((ends - begins) or 1) * (_WIDTH - 2 * _SIDE)

    rows: list[str] = []
    words: list[str] = []
    for number, (name, good, work) in enumerate(days):
        y = _TOP + number * _ROW
        rows.append(f'<path d="M{at(work.low):.1f} {y} H{at(work.high):.1f} M{at(work.low):.1f} {y - 6} v12 '
                    f'M{at(work.high):.1f} {y - 6} v12"/>' + _text(_SIDE, y - 13, name))
        for span in good:
            end = max(at(span.high), at(span.low) + 1)
            rows.append(f'<path stroke-width="7" d="M{at(span.low):.1f} {y} H{end:.1f}"/>')
        marks = dict.fromkeys((work.low, *(end for span in good for end in (span.low, span.high)), work.high))
        near = (ends - begins) * _NEAR
        rows += [_text(at(mark), y + 18, clock(mark), "start" if mark - work.low < near else
                       "end" if work.high - mark < near else "middle") for mark in _apart(list(marks), ends - begins)]
        told = ", ".join(f"{clock(span.low)} to {clock(span.high)}" for span in good) or "at no time"
        words.append(f"{name}: {told}")
    height = _TOP + len(days) * _ROW - 32
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bl-day" viewBox="0 0 {_WIDTH} {height}" role="img" '
        f'aria-label="{escape("When a coat may be finished. " + "; ".join(words), quote=True)}" '
        f'style="max-width:{_WIDEST}px;width:100%;height:auto">'
        f'<g fill="none" stroke="currentColor" stroke-width="1.5" font-size="13">{"".join(rows)}</g></svg>'
    )


def _apart(marks: list[float], width: float) -> list[float]:
    """Marks that do not run into one another, both ends kept."""
    kept = [marks[0]]
    for mark in sorted(marks[1:]):
        if mark - kept[-1] >= width * 0.12:
            kept.append(mark)
        elif mark == max(marks):
            kept[-1:] = [mark] if len(kept) > 1 else [kept[0], mark]
    return kept


def _text(x: float, y: float, words: str, anchor: str = "start") -> str:
    return (f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="currentColor" stroke="none">'
            f"{escape(words)}</text>")
