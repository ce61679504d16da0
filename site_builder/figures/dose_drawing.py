"""A working day with its noise, and how much of a day's dose it makes, as a plain drawing."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import NamedTuple

from site_builder.figures.amounts import about, between
from site_builder.figures.batch_words import NO_BREAK
from site_builder.formulas.interval import Interval

_WIDTH, _SIDE, _TOP, _ROW = 340, 8, 36, 58
_WIDEST = 440
"""Pixels; on a phone it is as wide as the page, with its words still large enough to read."""
_LABELLED = 24
"""So many points wide a stretch must be to have its level written under it."""
_GAP = 2.0


class Stretch(NamedTuple):
    """So many hours beside one noise, in dB(A)."""

    hours: float
    level: float


def dose_drawing(hours: float, noise: Sequence[Stretch], doses: Sequence[tuple[str, Interval]], rough: bool) -> str:
    """An SVG that needs no colour, with what it shows in words.

    First the day of so many hours, thick where there is noise, the longest stretch first. Then a bar for each rule:
    thick up to the least the dose may be, thinner up to the most, with a mark at a full dose (1).
    """
    stretches = _alike_together(noise)
    if not stretches or hours <= 0:
        return ""
    end = _WIDTH - _SIDE
    all_hours = max(hours, sum(one.hours for one in stretches))
    rows = [_line(_SIDE, end, _TOP), _text(_SIDE, _TOP - 13, f"{hours:g}{NO_BREAK}h, noise in dB(A)")]
    x = float(_SIDE)
    for one in stretches:
        width = one.hours / all_hours * (end - _SIDE)
        rows.append(_bar(x, max(x + width - _GAP, x + 0.5), _TOP, 7))
        if width >= _LABELLED:
            rows.append(_text(x + width / 2, _TOP + 18, f"{one.level:.0f}", "middle"))
        x += width
    scale = (end - _SIDE) / max(1.0, *(dose.high for _, dose in doses))
    told = []
    for number, (rule, dose) in enumerate(doses, 1):
        y, full = _TOP + number * _ROW, _SIDE + scale
        share = about(f"{between(dose.low * 100, dose.high * 100, 2)}{NO_BREAK}%", rough)
        rows += [_line(_SIDE, end, y), _bar(_SIDE, _SIDE + dose.low * scale, y, 7),
                 _bar(_SIDE + dose.low * scale, _SIDE + dose.high * scale, y, 4),
                 f'<path d="M{full:.1f} {y - 10} v20"/>',
                 _text(full, y + 22, "a full dose", "end" if full > end - 40 else "middle"),
                 _text(_SIDE, y - 13, f"{rule}: {share}")]
        told.append(f"by the {rule} {share}")
    words = ", ".join(f"{one.level:.0f} dB(A) for {between(one.hours, one.hours, 2)} h" for one in stretches)
    label = f"A day of {hours:g} h: {words}, the rest quiet. Of a full dose {' and '.join(told)}."
    height = _TOP + len(doses) * _ROW + 30
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bl-day" viewBox="0 0 {_WIDTH} {height}" role="img" '
        f'aria-label="{escape(label, quote=True)}" style="max-width:{_WIDEST}px;width:100%;height:auto">'
        f'<g fill="none" stroke="currentColor" stroke-width="1.5" font-size="13">{"".join(rows)}</g></svg>'
    )


def _alike_together(noise: Sequence[Stretch]) -> list[Stretch]:
    """Of each level all its hours, the longest first."""
    hours: dict[int, float] = {}
    for one in noise:
        if one.hours > 0:
            hours[round(one.level)] = hours.get(round(one.level), 0.0) + one.hours
    return sorted((Stretch(spent, level) for level, spent in hours.items()), key=lambda one: -one.hours)


def _line(start: float, end: float, y: float) -> str:
    return (f'<path d="M{start:.1f} {y} H{end:.1f} M{start:.1f} {y - 6} v12 '
            f'M{end:.1f} {y - 6} v12"/>')


def _bar(start: float, end: float, y: float, width: int) -> str:
    return f'<path stroke-width="{width}" d="M{start:.1f} {y} H{end:.1f}"/>' if end > start else ""


def _text(x: float, y: float, words: str, anchor: str = "start") -> str:
    return (f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="currentColor" stroke="none">'
            f"{escape(words)}</text>")
