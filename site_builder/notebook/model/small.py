"""Small entries used in many places."""

from __future__ import annotations

from typing import ClassVar

from pydantic import Field

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import (
    Amount,
    CadenceText,
    DateText,
    LevelWord,
    MomentText,
    Ref,
    Several,
    TabledAmount,
    Words,
)

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class ToolUse(Entry):
    """A tool that is used, with what may stand in for it."""

    MAIN: ClassVar[str] = "tool"
    tool: Ref
    """Id of the tool."""
    or_: Several[Ref] = Field(default=(), alias="or")
    """Others that will do, in order of preference."""
    not_: Several[Ref] = Field(default=(), alias="not")
    """Refused."""
    amount: TabledAmount | None = None
    """How many."""
    by: Several[Ref] = ()
    """What a table of amounts is read by: a variant or a measured name."""


class MaterialUse(Entry):
    """A material that is used, and how much."""

    MAIN: ClassVar[str] = "material"
    material: Ref
    """Id of the material."""
    or_: Several[Ref] = Field(default=(), alias="or")
    """Others that will do, in order of preference."""
    not_: Several[Ref] = Field(default=(), alias="not")
    """Refused."""
    amount: TabledAmount | None = None
    """How much: `9 g per piece`; a table of it where `by` says what it is read by."""
    by: Several[Ref] = ()
    """What a table of amounts is read by: a variant or a measured name."""


class Time(Entry):
    """Work time; waiting is nobody's work and stands under `wait`."""

    MAIN: ClassVar[str] = "each"
    setup: TabledAmount | None = None
    """Getting ready, once a batch."""
    each: TabledAmount | None = None
    """For one piece."""
    load: TabledAmount | None = None
    """For one load."""
    lot: TabledAmount | None = None
    """For the whole lot."""
    date: DateText | None = None
    """When it was timed."""
    by: Several[Ref] = ()
    """What a table of amounts is read by: a variant or a measured name."""


class Yield(Entry):
    """Losses, and metal that goes back."""

    MAIN: ClassVar[str] = "scrap"
    scrap: TabledAmount | None = None
    """The share that is lost."""
    rework: TabledAmount | None = None
    """The share that is done again."""
    returns: TabledAmount | None = None
    """The share that goes back into this work and is used again, as gates into the pot; not what is sold."""
    date: DateText | None = None
    """When it was counted."""
    by: Several[Ref] = ()
    """What a table of amounts is read by: a variant or a measured name."""


class After(Entry):
    """What must be done before, with the reason for the order."""

    MAIN: ClassVar[str] = "done"
    done: MomentText
    """The procedure, step or event that must be past."""


class Variant(Entry):
    """A dimension: its values and the moment it is decided."""

    MAIN: ClassVar[str] = "values"
    values: Several[Words] = ()
    """Its values."""
    decided: Several[MomentText] = ()
    """When it is decided."""


class Calibration(Entry):
    """How one knows that a gauge reads true."""

    MAIN: ClassVar[str] = "when"
    when: CadenceText | None = None
    """How often."""
    date: DateText | None = None
    """The last time."""
    who: Ref | None = None
    """Who does it."""


class Revision(Entry):
    """A change of the page, newest last."""

    MAIN: ClassVar[str] = "what"
    what: Words
    """What changed."""
    date: DateText | None = None
    """When."""
    who: Ref | None = None
    """Who changed it."""
    change: Ref | None = None
    """The change to the way of working behind it."""


class Paper(Entry):
    """A licence or certificate one must hold besides."""

    MAIN: ClassVar[str] = "paper"
    paper: Words
    """What it is called."""
    valid: Amount | None = None
    """How long it is good for."""
    date: DateText | None = None
    """When it was issued (on a person)."""


class Sheet(Entry):
    """A substance's safety data sheet, which outranks the notebook."""

    MAIN: ClassVar[str] = "title"
    title: Words
    """Its title."""
    file: Words | None = None
    """The file, if the shop has it."""
    date: DateText | None = None
    """Its date."""


class SourceNote(Entry):
    """A book, a standard, a maker's sheet that values come from."""

    MAIN: ClassVar[str] = "title"
    title: Words
    """Its title."""
    author: Words | None = None
    """Who wrote it."""
    date: DateText | None = None
    """Its date."""
    address: Words | None = None
    """Where it can be found."""


class Need(Entry):
    """A skill that must be held first."""

    MAIN: ClassVar[str] = "skill"
    skill: Ref
    """Id of the skill."""
    level: LevelWord | None = None
    """At least so far; `alone` if not written."""


