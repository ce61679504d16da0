"""With what: machines, hand tools, gauges, tooling, protection, reference pieces, materials."""

from __future__ import annotations

from typing import ClassVar

from pydantic import Field

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hazard, Never
from site_builder.notebook.model.judging import Check, End
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import NOTHING, Amount, Count, DateText, Id, Named, Ref, Several, Words
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.model.small import Calibration, Sheet
from site_builder.notebook.tree import Text


class Upkeep(Step):
    """What a thing needs every so often, and when it last had it."""

    date: DateText | None = None
    """The last time."""
    who: Ref | None = None
    """Who did it."""


class Thing(Entry):
    """What every tool and material has in common."""

    RINGS = (
        ("title", "maker", "hazards", "wear", "properties"),
        ("never", "age", "upkeep", "checks", "calibration", "life", "supplier", "where", "sheet", "pictures"),
    )
    KIND: ClassVar[str] = ""
    title: Words
    """Its name."""
    maker: Words | None = None
    """Who built it, model, year."""
    members: Several[Ref] = ()
    """This is a group; what it says holds for all of them."""
    properties: Named[Several[Limit]] = NOTHING
    """What it is and bears: rated speed, noise, mass, density …"""
    conditions: Named[Several[Limit]] = NOTHING
    """How it is stored or must stand."""
    hazards: Several[Hazard] = ()
    """Go along to every step that uses it."""
    never: Several[Never] = ()
    """Forbidden, each with its reason."""
    wear: Several[Ref] = ()
    """Protection that goes along to every step that uses it."""
    skill: Ref | None = None
    """What one must hold to use it."""
    age: Several[Limit] = ()
    """From which age."""
    upkeep: Several[Upkeep] = ()
    """What it needs, each with `when`."""
    checks: Several[Check] = ()
    """Looked at before use."""
    calibration: Calibration | None = None
    """How one knows that it reads true."""
    life: Several[End] = ()
    """When it is worn, exhausted or stale, and what then."""
    supplier: Words | None = None
    """Where to get another."""
    where: Words | None = None
    """Its place in the shop."""
    pictures: Several[Picture] = ()
    """Pictures of it."""
    questions: Several[Words] = ()
    """What we still want to ask."""
    former: Several[Id] = ()
    """Earlier ids, by which the entries of the books still find it."""

    @property
    def id(self) -> Text:
        own: Text = getattr(self, self.KIND.replace("-", "_"))
        return own


class Tool(Thing):
    """Anything under `tools/` that is not a material."""

    count: Count | None = None
    """How many there are of it; of a machine one if not written."""


class Machine(Tool):
    """A machine."""

    KIND = "machine"
    machine: Id
    """The id; the same as the file's name."""


class HandTool(Tool):
    """A hand tool."""

    KIND = "hand-tool"
    hand_tool: Id = Field(alias="hand-tool")
    """The id; the same as the file's name."""


class Gauge(Tool):
    """What is measured with."""

    KIND = "gauge"
    gauge: Id
    """The id; the same as the file's name."""


class Tooling(Tool):
    """Moulds, chucks, belts, mops: what is put on a machine or wears away."""

    KIND = "tooling"
    tooling: Id
    """The id; the same as the file's name."""


class Protection(Tool):
    """What is worn, or shields."""

    KIND = "protection"
    protection: Id
    """The id; the same as the file's name."""


class Sample(Tool):
    """A reference piece that is itself the gauge."""

    KIND = "sample"
    sample: Id
    """The id; the same as the file's name."""
    legend: Named[Words] = NOTHING
    """What the marks on it say."""


class Material(Thing):
    """What it is made of or done with."""

    KIND = "material"
    material: Id
    """The id; the same as the file's name."""
    composition: Named[Amount] = NOTHING
    """What it consists of, in per cent or parts."""
    apart: Several[Ref] = ()
    """Never to meet or mix with."""
    lead_time: Amount | None = Field(default=None, alias="lead time")
    """How long it takes from ordering until it is here: `3 wk`."""
    stock: Amount | None = None
    """How much is there and not yet promised: `120 kg`."""
    opened: DateText | None = None
    """The day on which what is in use was opened."""
    sheet: Sheet | None = None
    """Its safety data sheet, which outranks this notebook."""


TOOL_KINDS: tuple[type[Tool], ...] = (Machine, HandTool, Gauge, Tooling, Protection, Sample)
