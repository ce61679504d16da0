"""The weeks of a season as a drawing that prints in black: a row a person or machine, a column a week, filled as it is
full. It is drawn for one width, so that its words keep their size on a phone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import NamedTuple

from site_builder.handbook.drawings.pen import number, path, picture, rect, text
from site_builder.views.dates import short_day

WIDE, NARROW = 600.0, 328.0
_HEAD, _NAME, _BAR, _BETWEEN = 22.0, 18.0, 20.0, 6.0
_DATE = 54.0
"""So much room the date of a week takes."""


class Row(NamedTuple):
    """Hours by week of one person or machine; a bar is as high as its hours beside ``most``."""

    name: str
    hours: Mapping[date, float]
    most: float


def weeks_drawing(rows: Sequence[Row], weeks: Sequence[date], width: float = WIDE) -> str:
    """The rows one under the other. The same stands in tables beside it, to which the drawing is only a picture."""
    pitch = width / max(len(weeks), 1)
    every = max(int(_DATE // pitch) + 1, 1)
    height = _HEAD + len(rows) * (_NAME + _BAR + _BETWEEN)
    body = [text(n * pitch, 14, [short_day(week)], "sub", 14) for n, week in enumerate(weeks)
            if n % every == 0 and n * pitch + _DATE <= width + pitch]
    top = _HEAD
    for row in rows:
        foot = top + _NAME + _BAR
        body.append(text(0, top + _NAME - 4, [row.name], "sub", 14))
        body.append(path(f"M0 {number(foot)}H{number(width)}", "l thin"))
        for n, week in enumerate(weeks):
            tall = _BAR * row.hours.get(week, 0.0) / row.most if row.most else 0
            if tall:
                body.append(rect(n * pitch + pitch * 0.12, foot - tall, pitch * 0.76, tall, "dot"))
        top += _NAME + _BAR + _BETWEEN
    return picture(width, height, body, "bl-weeks",
                   "Hours of each person and machine by week; the tables beside it say the same")
