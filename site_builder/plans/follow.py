"""What was really done, from the practice book, beside a plan: ahead or behind, in pieces and days by arithmetic."""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from site_builder.batch.span import written_span
from site_builder.notebook.model.season import Season
from site_builder.notebook.notebook import Notebook


@dataclass(frozen=True, slots=True)
class Followed:
    """One work: pieces planned and done until a day. ``days``: how many calendar days ahead (behind: below nothing)
    the count stands of where the plan has it; None where nothing is planned yet and nothing done."""

    procedure: str
    planned: int
    done: int
    days: int | None
    whole: int


def follow(nb: Notebook, season: Season, until: date) -> Iterator[Followed]:
    """The works of a plan in its order, as they stand at the end of a day."""
    planned: dict[str, dict[date, int]] = defaultdict(lambda: defaultdict(int))
    for line in season.work:
        if line.pieces is not None and (line.order is None or line.order == season.order):
            span = written_span(line.pieces, "count")
            planned[str(line.does)][line.date.value.first] += int(span.most) if span is not None else 0
    first = season.starts.value.first if season.starts is not None else date.min
    for procedure, by_day in planned.items():
        done = _done(nb, season, procedure, first, until)
        plan = sum(count for day, count in by_day.items() if day <= until)
        yield Followed(procedure, plan, done, _days(by_day, done, until), sum(by_day.values()))


def _done(nb: Notebook, season: Season, procedure: str, first: date, until: date) -> int:
    """Good pieces and bad that were worked on for this order since the plan begins, as the practice book has them."""
    total = Fraction(0)
    for entry in nb.practice:
        for_it = entry.order is None or entry.order == season.order
        day = entry.date.value.last if entry.date is not None else None
        span = written_span(entry.pieces, "count") if entry.pieces is not None else None
        if entry.procedure == procedure and for_it and day is not None and first <= day <= until and span is not None:
            total += span.most
    return int(total)


def _days(by_day: dict[date, int], done: int, until: date) -> int | None:
    """How many days before or after ``until`` the plan reaches as many pieces as were done."""
    days = sorted(by_day)
    sums, total = [], 0
    for day in days:
        total += by_day[day]
        sums.append(total)
    due = sum(by_day[day] for day in days if day <= until)
    if due == done:
        return 0
    if done < due:  # behind: since the first planned day that is not yet filled
        late = next((day for day, count in zip(days, sums, strict=True) if count > done), until)
        return -max((until - late).days, 1)
    last = bisect_right(sums, done) - 1
    return max((days[last] - until).days, 0) if last >= 0 else 0
