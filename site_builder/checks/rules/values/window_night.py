from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import limits_of, told_in
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import bounds

_HOUR = 3600
_DAY = 24 * _HOUR
# Whoever has less than this still to wait stays and waits.
_STAYS = _HOUR


def check(analysis: Analysis) -> Iterator[Found]:
    day = _working_day(analysis)
    if day is None:
        return
    held = reckoning(analysis)
    for limit, place in limits_of(analysis):
        if place.key not in ("windows", "wait") or limit.note:
            continue
        for cell, written in told_in(limit):
            found = None if cell.note else held.bounds(written)
            if found is None or found.kind != "time" or found.low is None or found.high is None:
                continue
            if found.low >= _STAYS and found.high < _DAY - day:
                left = max(Fraction(0), day - found.low)
                when = f"later than {float(left / _HOUR):.3g} h into the day" if left else "on a working day"
                yield Found(
                    written.at, f"Begun {when}, it opens after work and closes before morning.",
                    "Say in `note` when it is begun, or write `max same day`.", place.owner_id,
                )


def _working_day(analysis: Analysis) -> Fraction | None:
    shop = analysis.notebook.shop
    hours = None if shop is None or shop.calendar is None else shop.calendar.hours
    found = None if hours is None else bounds(hours.value)
    share = None if found is None or found.kind != "time per time" else found.aim_high or found.high
    return None if share is None or not 0 < share < 1 else share * _DAY


RULE = Rule(
    code="window-night",
    level=Level.WARNING,
    summary="A window that opens after work and closes before morning.",
    reason=(
        "Work begun late in the day comes due at night, when nobody is there, and in the morning it is "
        "too late."
    ),
    passes="""\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - do: Spray the first coat.
    wait: min 4 h; max 40 h
  - do: Spray the second coat.
=== procedures/shop.yml
shop: corvane
title: The Corvane Lantern
calendar: {hours: 7 h/day}
""",
    fails="""\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - do: Spray the first coat.
    wait: ▸min 4 h; max 12 h
  - do: Spray the second coat.
=== procedures/shop.yml
shop: corvane
title: The Corvane Lantern
calendar: {hours: 7 h/day}
""",
    check=check,
)
