"""How work is looked at and what follows: checks, ends, loops, remedies, troubles, exemptions."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import By, Limit, Saying, Wait, When, Window
from site_builder.notebook.model.parsed_values import (
    NOTHING,
    Amount,
    CadenceText,
    Count,
    Id,
    Lotwise,
    MomentText,
    Named,
    OneOf,
    Ref,
    Sense,
    Several,
    Words,
)
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.tree import Text

ROUTES = ("next", "again", "aside", "stop", "scrap", "none")
"""Where `then` may lead besides a step or a procedure."""


class Exempt(Entry):
    """When a departure is allowed, who allows it, what is written."""

    MAIN: ClassVar[str] = "sign"
    sign: Words | None = None
    """When the departure is allowed."""
    who: Ref | None = None
    """Who allows it."""
    write: Several[Words] = ()
    """What is written down."""


class Remedy(Entry):
    """What it means for the work and what to do about it."""

    MAIN: ClassVar[str] = "do"
    means: Words | None = None
    """The consequence for the work."""
    do: Words | None = None
    """What to do."""
    then: Ref | None = None
    """A step, a procedure, or next, again, aside, stop, scrap, none."""
    times: Count | None = None
    """How often at most."""
    trouble: Ref | None = None
    """The trouble that it is."""
    who: Ref | None = None
    """Who does it."""
    write: Several[Words] = ()
    """What is written down."""


class Trouble(Entry):
    """What one sees when it goes wrong, why, and the way back."""

    MAIN: ClassVar[str] = "sign"
    sign: Words
    """What is seen, heard, smelt or felt."""
    id: Id | None = None
    """Needed once something points here."""
    cause: Several[Words] = ()
    """Why it happens; of several causes the likeliest first."""
    means: Words | None = None
    """The consequence for the work."""
    do: Several[Words] = ()
    """What to do; of several remedies the one that is tried first."""
    then: Ref | None = None
    """A step, a procedure, or next, again, aside, stop, scrap, none."""
    times: Count | None = None
    """How often at most."""
    who: Ref | None = None
    """Who does it."""
    write: Several[Words] = ()
    """What is written down."""
    pictures: Several[Picture] = ()
    """Pictures of it."""


class Keep(Entry):
    """What is kept: where, how much, until when."""

    MAIN: ClassVar[str] = "what"
    what: Words
    """What is kept."""
    where: Words | None = None
    """Where."""
    amount: Amount | None = None
    """How much."""
    until: Several[Annotated[End, Field()]] = ()
    """Until when."""


class Shift(Entry):
    """A plan of inspection that becomes stricter or easier after a result."""

    MAIN: ClassVar[str] = "when"
    after: MomentText | None = None
    """After which result: `1 failed piece`, `20 clean pieces`."""
    when: CadenceText | None = None
    """How often from then on."""


class Grade(Entry):
    """One grade of acceptance."""

    MAIN: ClassVar[str] = "sign"
    sign: Words | None = None
    """How it is known."""
    limits: Named[Several[Limit]] = NOTHING
    """What it must measure."""
    write: Several[Words] = ()
    """What is written down."""


class Check(Entry):
    """How a thing is looked at, felt or tested."""

    MAIN: ClassVar[str] = "good"
    RINGS = (("good", "bad"), ("sense", "where", "with", "when", "fails"))
    good: Words | None = None
    """What passes."""
    bad: Several[Words] = ()
    """What condemns."""
    sense: Sense | None = None
    """With which sense."""
    where: Words | None = None
    """At which place of hand or piece."""
    do: Words | None = None
    """How to test."""
    settings: Named[Several[Limit]] = NOTHING
    """What one sets for the test."""
    until: Several[Annotated[End, Field()]] = ()
    """Until when one tests."""
    with_: Several[Ref] = Field(default=(), alias="with")
    """Gauge, reference piece, destroyed piece."""
    when: When | None = None
    """How often."""
    by: Several[By] = ()
    """What the table of cadences is read by."""
    who: Ref | None = None
    """Who looks: a person, a role, or `another` (not the one who made it)."""
    share: Amount | None = None
    """The share that must be good."""
    tighten: Several[Shift] = ()
    """Stricter after a failure."""
    relax: Several[Shift] = ()
    """Easier after a clean run."""
    grades: Named[Grade] = NOTHING
    """Grades of acceptance."""
    write: Several[Words] = ()
    """What is written down."""
    keep: Several[Keep] = ()
    """What is kept."""
    fails: Several[Remedy] = ()
    """What then, if it fails."""
    unless: Exempt | None = None
    """The allowed departure."""
    pictures: Several[Picture] = ()
    """Pictures of good and bad."""


class Inspection(Check):
    """How a limit is looked at; the gauge and the limit already say what good is, so a text is how often."""

    MAIN: ClassVar[str] = "when"


class End(Entry):
    """When something is over: by the clock, a count, a sign, by feel, by a state."""

    MAIN: ClassVar[str] = "sign"
    clock: Several[Limit] = ()
    """By the clock."""
    count: Several[Limit] = ()
    """By a count."""
    sign: Words | None = None
    """By what is seen, heard or smelt."""
    feel: Several[Check] = ()
    """By hand or eye."""
    check: Several[Check] = ()
    """By a test."""
    state: Named[Several[Limit]] = NOTHING
    """By a measured state."""
    wins: Annotated[Text, OneOf("first", "last", "clock", "count", "sign", "feel", "check", "state")] | None = None
    """Which one decides, where several are told."""
    do: Words | None = None
    """What to do then."""
    then: Ref | None = None
    """Where to go on."""

    def ways(self) -> tuple[str, ...]:
        """The ways of ending that are written here."""
        return tuple(k for k in ("clock", "count", "sign", "feel", "check", "state") if getattr(self, k))


class Loop(Entry):
    """Go back and do again: from where, until what, how often."""

    MAIN: ClassVar[str] = "times"
    times: Count | None = None
    """How often: `about 2; max 5`."""
    from_: Ref | None = Field(default=None, alias="from")
    """From which step; this one if not written."""
    until: Several[End] = ()
    """Until what."""
    per: Lotwise | None = None
    """For each piece, or for the whole lot."""
    wait: Several[Wait] = ()
    """How long it stands before each new round."""


_LATER = {"End": End, "Inspection": Inspection, "Remedy": Remedy, "Exempt": Exempt, "Saying": Saying}
Limit.model_rebuild(_types_namespace=_LATER)
Saying.model_rebuild(_types_namespace=_LATER)
Window.model_rebuild(_types_namespace=_LATER)
Keep.model_rebuild()
Check.model_rebuild()
Inspection.model_rebuild()
