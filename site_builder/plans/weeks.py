"""A kept plan by week and by day: hours of each person, what each does, when each procedure begins at the latest."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from datetime import date, timedelta

from site_builder.batch.span import written_span
from site_builder.notebook.model.season import PlannedStint, Season


def monday(day: date) -> date:
    """The Monday of a week."""
    return day - timedelta(days=day.weekday())


def day_of(stint: PlannedStint) -> date:
    """The day of a stint."""
    return stint.date.value.first


def hours_of(stint: PlannedStint) -> float:
    """Hours of a stint; none where it is nobody's time."""
    span = written_span(stint.time, "time") if stint.time is not None else None
    return float(span.most) / 3_600 if span is not None else 0.0


def pieces_of(stint: PlannedStint) -> int:
    """Pieces of a stint; none for the second pair of hands."""
    span = written_span(stint.pieces, "count") if stint.pieces is not None else None
    return int(span.most) if span is not None else 0


def weeks_of(season: Season) -> tuple[date, ...]:
    """The Mondays of all weeks of a plan, without a gap."""
    days = [day_of(stint) for stint in season.work]
    if not days:
        return ()
    first, last = monday(min(days)), monday(max(days))
    return tuple(first + timedelta(days=7 * n) for n in range((last - first).days // 7 + 1))


def loads(season: Season) -> Mapping[str, Mapping[date, float]]:
    """Hours of each person in each week."""
    found: dict[str, dict[date, float]] = defaultdict(lambda: defaultdict(float))
    for stint in season.work:
        if stint.who is not None:
            found[str(stint.who)][monday(day_of(stint))] += hours_of(stint)
    return found


def amounts(season: Season) -> Mapping[str, Mapping[date, int]]:
    """Pieces of each procedure in each week, in the order in which they begin."""
    found: dict[str, dict[date, int]] = defaultdict(lambda: defaultdict(int))
    for stint in sorted(season.work, key=day_of):
        if pieces_of(stint):
            found[str(stint.does)][monday(day_of(stint))] += pieces_of(stint)
    return found


def week_of(season: Season, day: date) -> date | None:
    """The Monday of the week that matters on a day: its own, or else the first of the plan that is still to come."""
    weeks = weeks_of(season)
    return next((week for week in weeks if week >= monday(day)), None)


def stints_of(season: Season, week: date, person: str) -> tuple[PlannedStint, ...]:
    """What a person does in a week, day by day."""
    own = [stint for stint in season.work if stint.who == person and monday(day_of(stint)) == week]
    return tuple(sorted(own, key=lambda stint: (day_of(stint), str(stint.does))))
