"""Rules on values on which nobody can rely."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import borne
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import is_guide, is_judged, limits_of, told_in
from site_builder.checks.rules.values.sides import is_rough
from site_builder.checks.rules.values.sums import shown
from site_builder.checks.rules.values.tables import every_rows, measured
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Work
from site_builder.quantity import Bounds, Judged, bounds, difference, same_dimensions


def table_gap(analysis: Analysis) -> Iterator[Found]:
    for rows in every_rows(analysis):
        for before, row in pairwise(measured(analysis, rows)):
            if same_dimensions(before.found.unit, row.found.unit) and _gap(before.found, row.found):
                yield Found(
                    row.text.at, f"Between `{before.text}` and `{row.text}` the table says nothing.",
                    "Let the row begin where the one before it ends.", rows.place.owner_id,
                )


def _gap(before: Bounds, after: Bounds) -> bool:
    if before.high is None or after.low is None:
        return False
    if before.unit.counted:  # 1..10 pieces and 11..20 pieces follow one another
        return after.low - before.high > 1
    return after.low > before.high or (after.low == before.high and not (before.high_in or after.low_in))


TABLE_GAP = Rule(
    "table-gap", Level.WARNING, "A figure between two rows of a table.",
    "Between the rows the stricter one holds, but the reader does not know that somebody thought of it.",
    """\
=== procedures/shared/mix-the-filler.yml
procedure: mix-the-filler
title: Mix the filler
steps: Weigh the hardener in.
conditions: {room temperature: 12..30 °C}
settings:
  hardener:
    by: room temperature
    is:
      12..18 °C: 3 %
✓       18..24 °C: 2 %
✗       ▸20..24 °C: 2 %
""", table_gap,
)


def value_rough(analysis: Analysis) -> Iterator[Found]:
    for limit, place in limits_of(analysis):
        if not limit.check or is_guide(limit) or is_judged(limit):
            continue
        for _, written in told_in(limit):
            if is_rough(written):
                yield Found(
                    written.at, f"`{written}` is checked, but nobody can say at which figure it fails.",
                    "Add `min` or `max`, or `guide: yes` if it only shows where one is heading.", place.owner_id,
                )


VALUE_ROUGH = Rule(
    "value-rough", Level.WARNING, "A checked limit that says only about how much.",
    "A check must be able to fail. With `about 3 g` two people part good from bad at two different figures.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
✓   loss of mass: {is: about 3 g; max 5 g, check: every 10 pieces}
✗   loss of mass: {is: ▸about 3 g, check: every 10 pieces}
""", value_rough,
)


def judged_bare(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, _ in analysis.index.values:
        what = leaf.value.what
        # `judged by a nail, it must take the print` tells the sign itself.
        if type(what) is not Judged or "," in what.words or ";" in what.words or _has_sign(place):
            continue
        yield Found(
            leaf.at, f"`{leaf}` is judged, but no `good` and no `sign` stands near it.",
            "Add a `check` or `feel` with `good` and `bad`: what is seen, heard or felt when it is right.",
            place.owner_id,
        )


def _has_sign(place: Place) -> bool:
    limits = [outer.entry for outer in place.up() if isinstance(outer.entry, Limit)]
    if any(is_judged(limit) or limit.below or limit.above or "check" in limit.asked for limit in limits):
        return True
    works = [work for work in (place.step, place.procedure) if work is not None]
    return any(_work_has_sign(work) for work in works)


def _work_has_sign(work: Work) -> bool:
    return bool(
        work.feel
        or any(judged_bare.good or judged_bare.bad for judged_bare in work.checks)
        or any(end.sign or end.feel for end in work.until)
    )


JUDGED_BARE = Rule(
    "judged-bare", Level.WARNING, "A value that is judged, and no sign to judge it by.",
    "The master’s hand knows the right pressure. The next hand must be told what to see, hear or feel when it is "
    "right.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings: {pressure: ▸lowest that still cuts}
✓     feel: {sense: sound, good: It hisses evenly., bad: It howls.}
""", judged_bare,
)


_READS = ("resolution", "reads to", "reading")
_SHARE = 10
"""Rule of thumb, from memory."""


def gauge_coarse(analysis: Analysis) -> Iterator[Found]:
    gauges = _gauges(analysis)
    if not gauges:
        return
    held = reckoning(analysis)
    for limit, place in limits_of(analysis):
        known = [(gauge, gauges[gauge]) for gauge in limit.with_ if gauge in gauges]
        if limit.note or not known or len(known) < len(limit.with_):
            continue
        for _, written in told_in(limit):
            found = held.bounds(written)
            width = None if found is None else _width(found)
            fitting = [(gauge, one) for gauge, one in known if found is not None and _comparable(one, found)]
            if found is None or not width or len(fitting) < len(known):
                continue
            gauge, finest = min(fitting, key=lambda one: one[1].aim_low or 0)
            if finest.aim_low is not None and finest.aim_low * _SHARE > width:
                yield Found(
                    gauge.at,
                    f"“{analysis.notebook.tools[gauge].title}” reads to {shown(finest, finest.aim_low)}, coarser than "
                    f"a tenth of `{written}`.",
                    "Measure it with a finer gauge, or say in `note` why this one will do.",
                    place.owner_id,
                )
                break


def _gauges(analysis: Analysis) -> dict[str, Bounds]:
    """How finely each tool reads, where it says so with one figure."""
    found = {}
    for id_ in analysis.notebook.tools:
        for name in _READS:
            told = borne(analysis, id_, name)
            if len(told) == 1 and told[0].aim_low is not None:
                found[id_] = told[0]
                break
    return found


def _comparable(reads: Bounds, found: Bounds) -> bool:
    return same_dimensions(difference(reads.unit), difference(found.unit))


def _width(found: Bounds) -> Fraction | None:
    """Between the limits; of a limit on one side the limit itself, except on a scale that begins anywhere."""
    if found.low is not None and found.high is not None:
        return found.high - found.low
    side = found.low if found.low is not None else found.high
    return None if side is None or found.kind == "temperature" else abs(side)


GAUGE_COARSE = Rule(
    "gauge-coarse", Level.WARNING, "A gauge that reads coarser than a tenth of what it must tell apart.",
    "Where the gauge reads as coarsely as the limit is narrow, luck decides which pieces pass. A tenth is a rule "
    "of thumb of the trade, from memory.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits: {flatness of the sole: {is: max 0.1 mm, with: ▸feeler-gauges}}
=== tools/gauges/feeler-gauges.yml
gauge: feeler-gauges
title: Feeler gauges
✓ properties: {resolution: 0.01 mm}
✗ properties: {resolution: 0.05 mm}
""", gauge_coarse,
)


_HOUR = 3600
_DAY = 24 * _HOUR
# Whoever has less than this still to wait stays and waits.
_STAYS = _HOUR


def window_night(analysis: Analysis) -> Iterator[Found]:
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


WINDOW_NIGHT = Rule(
    "window-night", Level.WARNING, "A window that opens after work and closes before morning.",
    "Work begun late in the day comes due at night, when nobody is there, and in the morning it is too late.",
    """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - do: Spray the first coat.
✓     wait: min 4 h; max 40 h
✗     wait: ▸min 4 h; max 12 h
  - do: Spray the second coat.
=== procedures/shop.yml
shop: corvane
title: The Corvane Lantern
calendar: {hours: 7 h/day}
""", window_night,
)
