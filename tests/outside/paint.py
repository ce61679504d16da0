"""Paint and mixes, against paint makers' tables, worked examples and directions on cans."""

from __future__ import annotations

from site_builder.formulas.coating import dry_film, paint_needed, spreading_rate, wet_film
from site_builder.formulas.interval import Interval
from site_builder.formulas.pot_life import mixes_for, parts_of, pot_life_at
from site_builder.formulas.recoat import good_finishes, open_times, working_times
from site_builder.formulas.temperature import celsius
from tests.outside.registry import Topic
from tests.outside.units import FOOT, GALLON, HOUR, LITRE, MICRON, MIL, MINUTE

TOPIC = Topic("paint", "Paint and mixes")


@TOPIC.check(dry_film, "dry-9.2", "dry-12", "dry-thinned")
def dry_micrometres(wet_um: float, solids: float, thinner: float = 0.0) -> float:
    return dry_film(wet_um * MICRON, solids, thinner) / MICRON


@TOPIC.check(wet_film, "wet-6", "wet-125")
def wet_micrometres(dry_um: float, solids: float) -> float:
    return wet_film(dry_um * MICRON, solids) / MICRON


@TOPIC.check(spreading_rate, "rate-us", "rate-gei")
def square_feet_a_gallon(dry_mil: float, solids: float) -> float:
    return spreading_rate(dry_mil * MIL, solids) * GALLON / FOOT**2


@TOPIC.check(spreading_rate, "rate-125", "rate-71", "rate-t50", "rate-t85", "rate-loss")
def square_metres_a_litre(dry_um: float, solids: float, loss: float) -> float:
    return spreading_rate(dry_um * MICRON, solids, loss) * LITRE


@TOPIC.check(paint_needed, "litres-loss", "litres-5.2", "litres-two-coats")
def litres(m2: float, dry_um: float, solids: float, loss: float, coats: int) -> float:
    return paint_needed(m2, dry_um * MICRON, solids, loss, coats) / LITRE


@TOPIC.check(paint_needed, "gallons-70")
def gallons(ft2: float, rate_ft2: float, loss: float) -> float:
    """All solids, so thick that a gallon covers what the sheet says."""
    return paint_needed(ft2 * FOOT**2, GALLON / (rate_ft2 * FOOT**2), 1.0, loss) / GALLON


@TOPIC.check(pot_life_at, "pot-colder", "pot-warmer", "pot-35")
def minutes_of_pot_life(pot_min: float, told_f: float, room_f: float) -> float:
    return pot_life_at(pot_min * MINUTE, celsius(told_f), celsius(room_f)) / MINUTE


@TOPIC.check(mixes_for, "mixes-joints", "mixes-filler")
def pieces_and_mixes(pieces: int, each_min: float, pot_min: float) -> list[int]:
    found = mixes_for(pieces, 1.0, each_min * MINUTE, pot_min * MINUTE)
    return [found.pieces, found.mixes]


@TOPIC.check(parts_of, "parts-18k", "parts-brass")
def grams(total: float, parts: list[float]) -> tuple[float, ...]:
    return parts_of(total, parts)


@TOPIC.check(working_times, "hours-ilo", "hours-flsa")
def hours_a_week(opens: float, closes: float, days: int, closed: list[int]) -> float:
    return sum(day.high - day.low for day in working_times(opens * HOUR, closes * HOUR, days, closed)) / HOUR


def _ends(found: tuple[Interval, ...]) -> list[float]:
    return [end / HOUR for each in found for end in (each.low, each.high)]


@TOPIC.check(open_times, "recoat-48", "recoat-24")
def next_coat(finished: float, windows: list[list[float]], opens: float, closes: float, days: int) -> list[float]:
    working = working_times(opens * HOUR, closes * HOUR, days)
    return _ends(open_times(finished * HOUR, [Interval(a * HOUR, b * HOUR) for a, b in windows], working))


@TOPIC.check(good_finishes, "finishes-48", "finishes-24")
def first_coat(
    windows: list[list[float]], opens: float, closes: float, days: int, closed: list[int] | None = None
) -> list[float]:
    working = working_times(opens * HOUR, closes * HOUR, days, closed or ())
    return _ends(good_finishes([Interval(a * HOUR, b * HOUR) for a, b in windows], working))
