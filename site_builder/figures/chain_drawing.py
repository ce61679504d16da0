"""A chain of sizes as a plain drawing: the arrows end to end, and below, larger, the gap against what is allowed."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from math import inf

from site_builder.figures.amounts import amount
from site_builder.formulas.chain import Size
from site_builder.formulas.interval import Interval

_WIDTH, _SIDE = 340, 8
_ROW, _TOP, _BAR = 36, 26, 40
_WIDEST = 440
"""Pixels; on a phone it is as wide as the page, with its words still large enough to read."""


def chain_drawing(
    name: str, sizes: Sequence[Size], worst: Interval, likely: Interval, allowed: Interval, is_inch: bool
) -> str:
    """An SVG that needs no colour, with what it shows in words. Sizes and spans in metres."""
    unit = "in" if is_inch else "mm"
    rows = [*_arrows(sizes, unit)]
    gap_top = _TOP + len(sizes) * _ROW + 32
    spans = [("worst case", worst), ("all but 3 in 1000", likely)]
    if allowed.low > -inf or allowed.high < inf:
        spans.insert(0, ("allowed", allowed))
    rows += _gap(name, spans, gap_top, unit)
    words = f"Chain of sizes: {', '.join(_words(size, unit) for size in sizes)}; what is left is “{name}”: "
    words += "; ".join(f"{what} {_ends(span, unit)}" for what, span in spans)
    height = gap_top + 30 + len(spans) * _BAR
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bl-chain" viewBox="0 0 {_WIDTH} {height}" role="img" '
        f'aria-label="{escape(words, quote=True)}" style="max-width:{_WIDEST}px;width:100%;height:auto">'
        f'<g fill="none" stroke="currentColor" stroke-width="1.5" font-size="13">{"".join(rows)}</g></svg>'
    )


def _words(size: Size, unit: str) -> str:
    way = "forward" if size.factor > 0 else "back"
    return f"{way} by “{size.name}”, {amount(_span(size), unit, 5)}"


def _ends(span: Interval, unit: str) -> str:
    if span.low == -inf:
        return f"at most {amount(Interval(span.high, span.high), unit)}"
    if span.high == inf:
        return f"at least {amount(Interval(span.low, span.low), unit)}"
    return amount(span, unit)


def _span(size: Size) -> Interval:
    return Interval(size.nominal + size.lower, size.nominal + size.upper)


def _arrows(sizes: Sequence[Size], unit: str) -> list[str]:
    """Each size from where the last one ended: to the right where it opens the gap, to the left where it fills it."""
    steps = [size.factor * size.middle for size in sizes]
    ends = [0.0]
    for step in steps:
        ends.append(ends[-1] + step)
    low, high = min(ends), max(ends)
    at = Along(low, high)
    found = []
    for row, size in enumerate(sizes):
        y = _TOP + row * _ROW
        begin, end = at(ends[row]), at(ends[row + 1])
        point = 6 if end < begin else -6
        found.append(
            f'<path d="M{begin:.1f} {y} H{end:.1f} M{end + point:.1f} {y - 4} L{end:.1f} {y} '
            f'L{end + point:.1f} {y + 4} M{begin:.1f} {y - 6} v12 M{end:.1f} {y - 6} v{_ROW + 2}"/>'
            + _text(_SIDE + 4, y - 10, f"{size.name}: {amount(_span(size), unit, 5)}")
        )
    y = _TOP + len(sizes) * _ROW
    found.append(f'<path stroke-width="4" d="M{at(0.0):.1f} {y} H{at(ends[-1]):.1f}"/>'
                 f'<path stroke-dasharray="3 3" d="M{at(0.0):.1f} {_TOP - 6} V{y + 6}"/>')
    return found


def _gap(name: str, spans: Sequence[tuple[str, Interval]], top: float, unit: str) -> list[str]:
    """What is left, enlarged: a bar for each span, open where there is no limit."""
    ends = [end for _, span in spans for end in (span.low, span.high) if abs(end) < inf]
    low, high = min(ends), max(ends)
    margin = (high - low) * 0.08 or 1e-5
    at = Along(low - margin, high + margin)
    found = [_text(_SIDE, top, f"{name}, enlarged", weight="700")]
    for row, (what, span) in enumerate(spans):
        y = top + 36 + row * _BAR
        begin = at(span.low) if span.low > -inf else _SIDE
        end = at(span.high) if span.high < inf else _WIDTH - _SIDE
        thick = 1.5 if row == 0 and what == "allowed" else 5
        caps = (f"M{begin:.1f} {y - 6} v12 " if span.low > -inf else "") + (
            f"M{end:.1f} {y - 6} v12" if span.high < inf else "")
        found.append(f'<path stroke-width="{thick}" d="M{begin:.1f} {y} H{max(end, begin + 1):.1f}"/>'
                     + (f'<path d="{caps}"/>' if caps else "") + _text(_SIDE, y - 11, what))
    for number, end in enumerate(dict.fromkeys((low, high))):
        anchor = "start" if number == 0 else "end"
        found.append(_text(at(end), top + 16 + len(spans) * _BAR, amount(Interval(end, end), unit), anchor))
    return found


class Along:
    """Metres along the drawing."""

    def __init__(self, low: float, high: float) -> None:
        self.low, self.width = low, (high - low) or 1.0

    def __call__(self, metres: float) -> float:
        return _SIDE + (metres - self.low) / self.width * (_WIDTH - 2 * _SIDE)


def _text(x: float, y: float, words: str, anchor: str = "start", weight: str = "400") -> str:
    return (f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-weight="{weight}" fill="currentColor" '
            f'stroke="none">'
            f"{escape(words)}</text>")
