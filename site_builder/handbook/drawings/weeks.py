"""The weeks of a season as a drawing that prints in black: a row a person, a column a week, filled as it is full."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from html import escape

from site_builder.views.dates import short_day

_LEFT, _ROW, _CELL, _TOP = 120, 30, 30, 26


def weeks_drawing(
    names: Sequence[tuple[str, str]], weeks: Sequence[date], loads: Mapping[str, Mapping[date, float]], most: float
) -> str:
    """``names`` are (id, name); a cell is as high as its hours beside ``most``, the fullest week of anybody.

    The same stands in a table beside it, to which the drawing is only a picture.
    """
    width, height = _LEFT + _CELL * len(weeks) + 2, _TOP + _ROW * len(names) + 2
    out = [f'<svg class="bl-weeks" viewBox="0 0 {width} {height}" role="img" '
           'aria-label="Hours of each person by week; the table beside it says the same" '
           'fill="currentColor" stroke="none" font-size="11">']
    for n, week in enumerate(weeks):
        if n % 4 == 0:
            out.append(f'<text x="{_LEFT + n * _CELL}" y="16">{short_day(week)}</text>')
    for row, (id_, name) in enumerate(names):
        foot = _TOP + (row + 1) * _ROW - 4
        out.append(f'<text x="0" y="{foot - 6}">{escape(name)}</text>')
        out.append(f'<path d="M{_LEFT} {foot}H{width - 2}" stroke="currentColor" stroke-width="0.6" fill="none"/>')
        for n, week in enumerate(weeks):
            hours = loads.get(id_, {}).get(week, 0.0)
            tall = round((_ROW - 8) * hours / most, 1) if most else 0
            if tall:
                out.append(f'<rect x="{_LEFT + n * _CELL + 4}" y="{round(foot - tall, 1)}" width="{_CELL - 8}" '
                           f'height="{tall}"/>')
    return "".join([*out, "</svg>"])
