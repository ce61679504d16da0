"""The named values of a thing: limits, settings, conditions, properties, sizes, times, windows."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.shop import Part
from site_builder.notebook.model.things import Thing

KNOWN_DIMENSIONS = (
    "material", "part", "product", "customer", "machine", "size", "season", "level", "place",
)
"""Dimensions every shop has without declaring them."""


@dataclass(frozen=True, slots=True)
class NamedValue:
    """A value that other values may refer to by its name."""

    name: str
    key: str
    """The list it stands in: limits, settings, conditions, windows, properties, sizes, time, wait."""
    limits: tuple[Limit, ...]
    kind: str
    owner_id: str
    entry: Entry
    step: Step | None = None
    written: Written | None = None
    """For a plain value that is no limit (a time)."""


def values_of(entry: Entry, kind: str) -> list[NamedValue]:
    """Everything in a thing that has a name others can use."""
    out: list[NamedValue] = []
    if isinstance(entry, Procedure):
        owner_id = str(entry.procedure)
        _work(out, entry, entry, owner_id, None)
        for step in entry.steps:
            for inner in (step, *step.also):
                _work(out, inner, entry, owner_id, inner)
    elif isinstance(entry, Thing):
        for key in ("properties", "conditions"):
            for name, limits in getattr(entry, key).items():
                out.append(NamedValue(str(name), key, limits, kind, str(entry.id), entry))
    elif isinstance(entry, Part):
        for name, limits in entry.sizes.items():
            out.append(NamedValue(str(name), "sizes", limits, kind, "", entry))
    return out


def _work(out: list[NamedValue], work: Work, entry: Procedure, owner_id: str, step: Step | None) -> None:
    for key in ("limits", "settings", "conditions", "windows"):
        for name, limits in getattr(work, key).items():
            out.append(NamedValue(str(name), key, limits, "procedure", owner_id, entry, step))
    for check in (*work.ready, *work.checks, *work.feel):
        for name, limits in check.settings.items():
            out.append(NamedValue(str(name), "settings", limits, "procedure", owner_id, entry, step))
    rows = [(time, written) for time in work.time if (written := time.each or time.load or time.lot) is not None]
    if len(rows) == 1:
        out.append(NamedValue("time", "time", (), "procedure", owner_id, entry, step, rows[0][1]))
    elif rows:  # each way has its own: none of them stands for all
        limits = tuple(Limit.model_construct(is_=written, for_=time.for_, at=written.at) for time, written in rows)
        out.append(NamedValue("time", "time", limits, "procedure", owner_id, entry, step))
    if work.wait:
        out.append(NamedValue("wait", "wait", work.wait, "procedure", owner_id, entry, step))
