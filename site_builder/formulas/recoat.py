"""Recoat windows laid on the working day. Times are seconds from the midnight before the first day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval

DAY = 86_400.0
_MOST_DAYS = 3660
"""Ten years; no coat waits longer."""


def working_times(opens: float, closes: float, days: int, closed: Sequence[int] = ()) -> tuple[Interval, ...]:
    """The hours of a row of days, each from ``opens`` to ``closes`` (seconds after midnight), but for ``closed`` days.

    Days are counted from 0. Raises ``Impossible`` for no days, or hours that are none. Source: the calendar.
    """
    guards.not_negative("opens", "s", opens)
    if not opens < guards.finite("closes", "s", closes) <= DAY:
        raise Impossible("closes", "s", closes, f"must lie after opening and not after midnight, {DAY:g}")
    shut = frozenset(guards.whole("closed day", day) for day in closed)
    return tuple(
        Interval(day * DAY + opens, day * DAY + closes)
        for day in range(guards.whole("days", days, 1, _MOST_DAYS))
        if day not in shut
    )


def open_times(
    finished: float, windows: Sequence[Interval], working: Sequence[Interval], takes: float = 0.0
) -> tuple[Interval, ...]:
    """When the next coat may begin, after a coat that was finished at ``finished``; empty when it never may.

    ``windows`` are counted from the finish: one for "1 to 24 h", two for "within 1 h or after 48 h". The coat
    ``takes`` so long and ends before work does. Raises ``Impossible`` for no window, no working time, a window
    before the finish, or a coat of less than no time. Source: the coating maker's data sheet.
    """
    _check(windows, working, takes)
    guards.finite("finished", "s", finished)
    return _joined(
        met
        for window in windows
        for day in working
        if day.high - takes >= day.low
        and (met := Interval(finished + window.low, finished + window.high) & Interval(day.low, day.high - takes))
    )


def good_finishes(windows: Sequence[Interval], working: Sequence[Interval], takes: float = 0.0) -> tuple[Interval, ...]:
    """When on the first day a coat may be finished so that its window is open while somebody works.

    What lies outside is the trap: primed then, the window closes at night or on a closed day. Raises ``Impossible``
    as ``open_times``. Source: as ``open_times``.
    """
    _check(windows, working, takes)
    return _joined(
        met
        for window in windows
        for day in working
        if day.high - takes >= day.low
        and (met := Interval(day.low - window.high, day.high - takes - window.low) & working[0])
    )


def _check(windows: Sequence[Interval], working: Sequence[Interval], takes: float) -> None:
    guards.some("windows", "s", windows)
    guards.some("working times", "s", working)
    for day in working:
        guards.finite("working time", "s", day.low)
        guards.finite("working time", "s", day.high)
    guards.not_negative("time the coat takes", "s", takes)
    for window in windows:
        if window.low < 0:
            raise Impossible("window", "s", window.low, "must open after the coat is finished")


def _joined(found: Iterable[Interval]) -> tuple[Interval, ...]:
    """In order, and those that touch made one."""
    joined: list[Interval] = []
    for each in sorted(found, key=lambda interval: interval.low):
        if joined and each.low <= joined[-1].high:
            joined[-1] = Interval(joined[-1].low, max(joined[-1].high, each.high))
        else:
            joined.append(each)
    return tuple(joined)
