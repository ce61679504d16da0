"""What a setting is held against: the machine, the tooling on it and the material in hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from weakref import WeakKeyDictionary

from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import CELL
from site_builder.checks.rules.values.sums import shown
from site_builder.checks.rules.values.wording import name_of
from site_builder.checks.survey import Survey
from site_builder.notebook.index import Place
from site_builder.notebook.model.leaves import Written
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.things import Thing
from site_builder.notebook.tree import Text
from site_builder.quantity import Bounds, same_dimensions

RATED = "rated "
SPEEDS = ("speed", "rotation speed")


@dataclass(frozen=True, slots=True)
class Setting:
    """A value that is set, with its figures; ``rows`` are the rows of its table that lead to it."""

    name: str
    written: Written
    found: Bounds
    place: Place
    outer: Limit
    rows: tuple[Text, ...]

    @property
    def works(self) -> tuple[Work, ...]:
        """The step it is set in and the procedure around it, the nearer first."""
        step, own = self.place.step, self.place.procedure
        return tuple(work for work in (step, own) if work is not None)

    @property
    def tool(self) -> Text | None:
        """What it is set on."""
        return self.outer.tool if self.outer.tool is not None else _tool_of(self.place)


def _tool_of(place: Place) -> Text | None:
    return place.entry.tool if isinstance(place.entry, Limit) else None


class _Settings:
    """All settings whose name, or kind, something bears a limit for; worked out once for a survey."""

    def __init__(self, survey: Survey) -> None:
        self.survey = survey

    @cached_property
    def all(self) -> tuple[Setting, ...]:
        return tuple(self._settings())

    def _settings(self) -> Iterator[Setting]:
        things = self.survey.notebook.things.values()
        borne = {str(name) for thing in things for name in thing.properties}
        rated = any(name.startswith(RATED) for name in borne)
        held = reckoning(self.survey)
        for limit, place in self.survey.index.of(Limit):
            outer = place
            while outer.key == CELL and outer.parent is not None:
                outer = outer.parent
            if outer.key != "settings" or limit.written is None:
                continue
            name = name_of(place)
            if name not in borne and not (rated and name.endswith("speed")) and name not in PAIRED:
                continue
            found = held.bounds(limit.written)
            if found is not None and isinstance(outer.entry, Limit):
                yield Setting(name, limit.written, found, place, outer.entry, place.rows)


PAIRED = ("casting temperature", "pouring temperature")
"""Settings that a material bears upon under another name."""

_HELD: WeakKeyDictionary[Survey, _Settings] = WeakKeyDictionary()


def settings_of(survey: Survey) -> tuple[Setting, ...]:
    """Every setting that a tool or a material may bear upon."""
    found = _HELD.get(survey)
    if found is None:
        found = _HELD[survey] = _Settings(survey)
    return found.all


def properties_of(survey: Survey, id_: str) -> Mapping[Text, tuple[Limit, ...]]:
    """The properties of a thing; what its groups say holds for it too."""
    nb = survey.notebook
    found: dict[Text, tuple[Limit, ...]] = {}
    for one in (*nb.groups.get(id_, ()), id_):
        thing: Thing | None = nb.things.get(one)
        if thing is not None:
            found.update(thing.properties)
    return found


def borne(survey: Survey, id_: str, name: str) -> list[Bounds]:
    """The figures of a property in all its variants; none where one of them cannot be told."""
    limits = properties_of(survey, id_).get(Text(name), ())
    held = reckoning(survey)
    found = [one for limit in limits for one in held.bounds_of(limit)]
    told = [one for one in found if one is not None]
    return told if len(told) == len(found) else []


def past(setting: Bounds, allowed: Iterable[Bounds], *, rated: bool = False) -> Bounds | None:
    """The limits that a setting does not keep; None where it keeps those of one variant at least.

    ``rated``: a bare figure is the most that is borne.
    """
    comparable = [one for one in allowed if same_dimensions(one.unit, setting.unit)]
    if not comparable or any(_keeps(setting, one, rated) for one in comparable):
        return None
    return comparable[0]


def _keeps(setting: Bounds, allowed: Bounds, rated: bool) -> bool:
    high = allowed.high
    if high is None and not allowed.limited:
        if not rated:
            return True  # a bare figure says what it is, not what it bears
        high = allowed.aim_high
    figures = [one for one in (setting.aim_low, setting.aim_high, setting.low, setting.high) if one is not None]
    over = high is not None and any(one > high for one in figures)
    under = allowed.low is not None and any(one < allowed.low for one in figures)
    return not (over or under)


def told(found: Bounds) -> str:
    """The limits of a property in short: `18..30 m/s`, `at most 30 m/s`."""
    low, high = (found.low, found.high) if found.limited else (None, found.aim_high)
    if low is not None and high is not None:
        return f"{shown(found, low)} to {shown(found, high)}"
    if low is not None:
        return f"at least {shown(found, low)}"
    return f"at most {shown(found, high)}" if high is not None else ""


def tools_in(work: Work) -> tuple[str, ...]:
    """The tools that a step or a procedure names as used."""
    return tuple(str(use.tool) for use in work.tools)


def materials_in(work: Work) -> tuple[str, ...]:
    """The materials that a step or a procedure names as used."""
    return tuple(str(use.material) for use in work.materials)


__all__ = [
    "PAIRED", "RATED", "SPEEDS", "Procedure", "Setting", "Step", "borne", "materials_in", "past", "properties_of",
    "settings_of", "told", "tools_in",
]
