"""A plan of a season as it was made: kept, never reckoned anew by itself."""

from __future__ import annotations

from typing import ClassVar

from pydantic import Field

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import (
    NOTHING,
    Amount,
    Count,
    DateText,
    Id,
    Named,
    Ref,
    Several,
    Words,
    Yes,
)
from site_builder.notebook.tree import Text


class PlannedStint(Entry):
    """What one person does of one work on one day."""

    MAIN: ClassVar[str] = "does"
    date: DateText
    """The day."""
    who: Ref | None = None
    """Who; nobody where it is done outside."""
    does: Ref
    """The procedure."""
    pieces: Count | None = None
    """How many; none of the second pair of hands."""
    time: Amount | None = None
    """How long, setting up in it."""
    helps: Yes | None = None
    """`yes` for the second pair of hands."""
    order: Ref | None = None
    """The order, where it is another than that of the plan."""


class NarrowPlace(Entry):
    """What holds everything up, by the reckoning solved again with eight hours more of it."""

    MAIN: ClassVar[str] = "what"
    what: Words
    """What there is too little of."""
    brings: Amount | None = None
    """How much nearer eight hours more of it bring the end."""


class Season(Entry):
    """A plan of a season; `benchlore season plan` writes it."""

    season: Id
    """The id; the same as the file's name."""
    title: Words
    """What it is."""
    order: Ref
    """The order that is planned."""
    date: DateText | None = None
    """The day on which it was planned."""
    starts: DateText | None = None
    """The first day that could be planned."""
    due: DateText | None = None
    """The day on which it was due when it was planned."""
    pieces: Count | None = None
    """How many were ordered when it was planned."""
    ends: DateText | None = None
    """The day on which the last piece is packed, by the plan."""
    bound: DateText | None = None
    """The day before which it cannot be done, proven."""
    proven: Yes | None = None
    """Whether no plan can end sooner."""
    engine: Words | None = None
    """What found it."""
    chance: Amount | None = None
    """The share of the plays that delivered in time."""
    nine_of_ten: DateText | None = Field(default=None, alias="nine of ten")
    """The day by which nine of ten plays were done."""
    plays: Words | None = None
    """How often it was played, with which seed."""
    narrow: Several[NarrowPlace] = ()
    """What holds everything up, the most first."""
    cannot: Several[Words] = ()
    """The wishes that cannot all be kept."""
    ways: Several[Words] = ()
    """What would help, or happen: a sentence each."""
    what_if: Several[Words] = Field(default=(), alias="what if")
    """What would be if something were otherwise, as it was asked: a sentence each."""
    assumed: Several[Words] = ()
    """What the plan stands on that nobody has written."""
    latest: Named[DateText] = NOTHING
    """The day on which each procedure begins at the latest in any plan that keeps the day."""
    work: Several[PlannedStint] = ()
    """Who does what when."""

    @property
    def id(self) -> Text:
        return self.season
