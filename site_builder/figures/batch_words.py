"""Hours, days, amounts and counts of a batch in words, with no more digits than can be meant."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import ceil, floor, log10

from site_builder.batch.span import Span
from site_builder.formulas.batch_hours import weeks_of_work
from site_builder.formulas.batch_time import working_days
from site_builder.notebook.model.shop import Calendar
from site_builder.quantity import Unit, bounds, find_unit

NO_BREAK = "\u00a0"
_DAY = 86_400
USUAL_HOURS, USUAL_DAYS = Fraction(8), 5
"""Of the working day and week where the calendar does not tell them."""
_LARGER = {"g": "kg", "mg": "g", "mL": "L", "mm": "m", "cm": "m", "kg": "t"}
_FROM = {"g": 1000, "mg": 1000, "mL": 1000, "mm": 1000, "cm": 100, "kg": 10_000}
"""From how many on the larger unit reads better."""


def working_week(calendar: Calendar | None) -> tuple[Fraction, int, bool]:
    """Hours a day, days a week, and whether the calendar tells them both. ``7 h`` are meant a day, as ``7 h/day``."""
    hours = bounds(calendar.hours.value) if calendar is not None and calendar.hours is not None else None
    share = hours.aim_low if hours is not None else None
    if hours is not None and share is not None and hours.kind == "time":
        share /= _DAY
    told = share is not None and 0 < share <= 1
    a_day = share * 24 if share is not None and told else USUAL_HOURS
    days = len(calendar.days) if calendar is not None else 0
    return a_day, days or USUAL_DAYS, told and days > 0


def hours(span: Span) -> str:
    """``about 62 to 68 h``, ``20 min``, ``no time``."""
    low, high = _time(span.least), _time(span.most)
    if not span.most:
        return "no time"
    if low == high:
        return f"about {low}" if span.rough else low
    return f"about {_shared(low, high)}" if span.rough else _shared(low, high)


def days_of(span: Span, a_day: Fraction, week: int) -> str:
    """``21 to 22 working days``, ``about 26 weeks``: for one pair of hands."""
    ends = [working_days(one, a_day) for one in (span.least, span.most)]
    if ends[1] < 1:
        return "less than a working day"
    if ends[1] < 3 * week:
        low, high = (_half(one) for one in ends)
        unit = "working day" if high == "1" else "working days"
        return f"{low if low == high else f'{low} to {high}'}{NO_BREAK}{unit}"
    weeks = [weeks_of_work(one, float(a_day * week)) for one in (span.least, span.most)]
    low, high = (_half(Fraction(one)) for one in weeks)
    return f"{low if low == high else f'{low} to {high}'}{NO_BREAK}working weeks"


def standing(span: Span) -> str:
    """``3 weeks``, ``14 h to 9 days``: nobody's time, so day and night count."""
    low, high = _lapse(span.least), _lapse(span.most)
    return low if low == high else f"{low} to {high}" if span.least else f"up to {high}"


def amount(span: Span, unit: Unit) -> str:
    """``about 420 kg``, ``1.7 kg`` from an amount in base units, in the unit the shop writes or a larger one."""
    shown = unit
    if unit.symbol in _FROM and Fraction(figure(span.most / unit.factor).replace(",", "")) >= _FROM[unit.symbol]:
        shown = find_unit(_LARGER[unit.symbol]) or unit
    ends = Span(span.least / shown.factor, span.most / shown.factor)
    words = f"{between(ends)}{NO_BREAK}{shown.named(figure(ends.most) == '1')}"
    return f"about {words}" if span.rough else words


def figure(value: Fraction | float) -> str:
    """Two digits that matter: 7995 is 8000, 1730.5 is 1700, 29.6 is 30, 2.58 is 2.6."""
    if not value:
        return "0"
    exact = float(value) * (1 + 1e-12)  # a hair up, so that half a step still rounds up
    places = floor(log10(exact)) - 1
    if places >= 0:
        step = 10 ** places
        rounded = floor(exact / step + 0.5) * step
        return f"{rounded:,}" if rounded >= 10_000 else str(rounded)
    return f"{floor(exact * 10 ** -places + 0.5) / 10 ** -places:.{-places}f}".rstrip("0").rstrip(".")


def figure_up(value: Fraction | float, *, whole_ones: bool = False) -> str:
    """What to have ready, never less than is needed: two digits that matter, the last rounded up."""
    if not value:
        return "0"
    exact = float(value) * (1 - 1e-12)  # a hair down, so that floating-point dust buys nothing
    places = floor(log10(exact)) - 1
    if whole_ones:
        places = max(places, 0)
    step = Fraction(10) ** places
    up = ceil(Fraction(exact) / step) * step
    return f"{int(up):,}" if up >= 10_000 else f"{float(up):.{max(-places, 0)}f}".rstrip("0").rstrip(".") \
        if places < 0 else str(int(up))


def amount_up(span: Span, unit: Unit) -> str:
    """``about 430 kg``, ``17 sheets``: an amount to have ready, rounded up."""
    shown = unit
    if unit.symbol in _FROM and Fraction(figure(span.most / unit.factor).replace(",", "")) >= _FROM[unit.symbol]:
        shown = find_unit(_LARGER[unit.symbol]) or unit
    counted = unit.kind == "count"
    low, high = (figure_up(end / shown.factor, whole_ones=counted) for end in (span.least, span.most))
    words = f"{low if low == high else f'{low} to {high}'}{NO_BREAK}{shown.named(high == '1')}"
    return f"about {words}" if span.rough else words


def between(span: Span) -> str:
    """``1.2 to 1.3``, in two digits that matter."""
    low, high = figure(span.least), figure(span.most)
    return low if low == high else f"{low} to {high}"


def count(low: int, high: int, one: str, many: str) -> str:
    """``1 or 2 new ones``, ``3 to 7 strips``, ``none``."""
    if low == high:
        return f"{low}{NO_BREAK}{one if low == 1 else many}"
    return f"{low} {'or' if high == low + 1 else 'to'} {high}{NO_BREAK}{many}"


def whole(pieces: Fraction) -> int:
    """A count of pieces that is only known on average, to the next whole one."""
    return ceil(pieces)


def percent(share: float) -> str:
    """``77 %``; ``98.9 %`` where whole ones would say 100."""
    whole_ones = round(share * 100)
    if share < 1 and whole_ones >= 99:
        return f"{floor(share * 1000) / 10:g}{NO_BREAK}%"
    return f"{whole_ones}{NO_BREAK}%"


def capital(words: str) -> str:
    """The first letter a capital."""
    return words[:1].upper() + words[1:]


def listed(items: Iterable[str], last: str = "and") -> str:
    """``a, b and c``."""
    parts = list(items)
    return f" {last} ".join([", ".join(parts[:-1]), parts[-1]]) if len(parts) > 1 else "".join(parts)


def _time(seconds: Fraction) -> str:
    minutes = float(seconds) / 60
    if minutes < 90:
        return f"{round(minutes)}{NO_BREAK}min"
    if minutes < 600:
        step = 5 if minutes < 300 else 30
        whole_hours, rest = divmod(round(minutes / step) * step, 60)
        return f"{whole_hours}{NO_BREAK}h" + (f" {rest}{NO_BREAK}min" if rest else "")
    return f"{figure(minutes / 60)}{NO_BREAK}h"


def _lapse(seconds: Fraction) -> str:
    length = seconds / 3600
    if length < 48:
        return _time(seconds)
    days = length / 24
    if days < 15 or (days < 28 and round(days) % 7):
        return f"{round(days)}{NO_BREAK}days"
    return f"{round(days / 7)}{NO_BREAK}weeks"


def _shared(low: str, high: str) -> str:
    """``62 to 68 h``: the unit once where both have the same."""
    number, _, unit = low.partition(NO_BREAK)
    return f"{number} to {high}" if high.endswith(NO_BREAK + unit) and high.count(NO_BREAK) == 1 else f"{low} to {high}"


def _half(value: Fraction) -> str:
    """To the nearest half, from ten on to the nearest whole one."""
    if value >= 10:
        return str(round(value))
    doubled = max(round(value * 2), 1)
    return str(doubled // 2) if doubled % 2 == 0 else f"{doubled // 2}½" if doubled > 1 else "½"
