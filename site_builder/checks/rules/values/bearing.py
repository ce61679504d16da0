"""What a setting is held against: the machine, the tooling on it and the material in hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.held import once, reckoning
from site_builder.checks.rules.values.limits import CELL
from site_builder.checks.rules.values.sums import shown
from site_builder.checks.rules.values.wording import name_of
from site_builder.figures.running import RUNNING
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Work
from site_builder.notebook.tree import Text
from site_builder.notebook.ways import around, can_hold_together, row_of
from site_builder.quantity import Bounds, same_dimensions

RATED = "rated "


class Setting(NamedTuple):
    """A value that is set, with its figures, and the limit whose table it may stand in."""

    name: str
    written: Written
    found: Bounds
    place: Place
    outer: Limit

    @property
    def tool(self) -> Text | None:
        """What it is set on, where that is told."""
        own = self.place.entry
        return own.tool if isinstance(own, Limit) and own.tool is not None else self.outer.tool

    @property
    def holds(self) -> Condition:
        """When it is set so: its row, and the `for` of all that it stands in."""
        return around(self.place)

    @property
    def works(self) -> tuple[Work, ...]:
        """The step it is set in and the procedure around it, the nearer first."""
        return tuple(work for work in (self.place.step, self.place.procedure) if work is not None)


@once
def settings_of(analysis: Analysis) -> tuple[Setting, ...]:
    """Every setting that a tool or a material may bear upon; the others are left out."""
    return tuple(_settings(analysis))


def _settings(analysis: Analysis) -> Iterator[Setting]:
    known = {str(name) for thing in analysis.notebook.things.values() for name in thing.properties}
    rated = f"{RATED}speed" in known
    for limit, place in analysis.index.of(Limit):
        outer = place
        while outer.key == CELL and outer.parent is not None:
            outer = outer.parent
        name = name_of(outer)
        if (
            outer.key == "settings" and limit.written is not None and isinstance(outer.entry, Limit)
            and (name in known or (rated and name in RUNNING))
        ):
            found = reckoning(analysis).bounds(limit.written)
            if found is not None:
                yield Setting(name, limit.written, found, place, outer.entry)


def borne(analysis: Analysis, id_: str, name: str, holds: Condition = ()) -> list[Bounds]:
    """The figures of a thing's property in all the variants that can hold with these; none where one is untold.

    What the groups of the thing say holds for it too.
    """
    nb, held = analysis.notebook, reckoning(analysis)
    for one in (id_, *nb.groups.get(id_, ())):
        limits = nb.things[one].properties.get(Text(name), ()) if one in nb.things else ()
        cells = [cell for limit in limits for rows, cell in limit.cells()
                 if can_hold_together(row_of(limit, rows, cell), holds)]
        found = [figures for cell in cells for figures in held.bounds_of(cell)]
        if found:
            told = [figures for figures in found if figures is not None]
            return told if len(told) == len(found) else []
    return []


def past(setting: Bounds, allowed: Iterable[Bounds], *, is_rated: bool = False) -> Bounds | None:
    """The limits that a setting does not keep; None where it keeps those of one variant at least.

    ``is_rated``: a bare figure is the most that is borne. Otherwise it is the one thing that can be set.
    """
    comparable = [one for one in allowed if same_dimensions(one.unit, setting.unit)]
    if not comparable or any(_keeps(setting, one, is_rated) for one in comparable):
        return None
    return comparable[0]


def _keeps(setting: Bounds, allowed: Bounds, is_rated: bool) -> bool:
    figures = [one for one in (setting.aim_low, setting.aim_high, setting.low, setting.high) if one is not None]
    low, high = allowed.low, allowed.high
    if not allowed.limited:
        if is_rated:
            high = allowed.aim_high
        elif allowed.aim_low is None or allowed.rough or setting.rough:
            return True
        else:
            return not figures or min(figures) <= allowed.aim_low <= max(figures) or _is_open(setting)
    return not (
        (high is not None and any(one > high for one in figures))
        or (low is not None and any(one < low for one in figures))
    )


def _is_open(setting: Bounds) -> bool:
    """Whether it has a limit on one side only, so that its figures do not span what is accepted."""
    return setting.limited and (setting.low is None or setting.high is None)


def told(found: Bounds) -> str:
    """What is borne, in words: `18 m/s to 30 m/s`, `at most 30 m/s`."""
    low, high = found.low, found.high
    if not found.limited:
        return shown(found, found.aim_high) if found.aim_high is not None else ""
    if low is not None and high is not None:
        return f"{shown(found, low)} to {shown(found, high)}"
    if low is not None:
        return f"at least {shown(found, low)}"
    return f"at most {shown(found, high)}" if high is not None else ""
