"""The books: sign-offs, practice, feel trials, measurements, incidents. Only ever added to."""

from __future__ import annotations

from typing import Annotated, Any, ClassVar

from pydantic import Field
from pydantic_core import CoreSchema, core_schema

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import (
    NOTHING,
    Amount,
    Count,
    DateText,
    JsonSchema,
    LevelWord,
    Named,
    Ref,
    Several,
    Words,
    fault,
    written_text,
)
from site_builder.notebook.tree import Text


class _Number:
    """Annotation: the number of an entry, counted up by one."""

    def __get_pydantic_core_schema__(self, _source: Any, _handler: Any) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    @staticmethod
    def _read(data: Any) -> Text:
        text = written_text(data)
        if not (text.isascii() and text.isdigit() and len(text) < 10):
            raise fault("number-gap", f"`{text}` is not a number of an entry.", "Count up by one.", text.at)
        return text

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: Any) -> JsonSchema:
        return {"type": ["integer", "string"]}


Number = Annotated[Text, _Number()]


class Record(Entry):
    """What every entry of a book has in common."""

    KIND: ClassVar[str] = ""
    who: Ref | None = None
    """Who wrote or signs it."""
    date: DateText | None = None
    """When."""
    corrects: Number | None = None
    """The number of an earlier entry that this one corrects."""
    withdraws: Number | None = None
    """The number of an earlier entry that this one takes back."""
    previous: Words | None = None
    """The seal of the entry before."""
    seal: Words | None = None
    """The seal of this entry."""
    key: Words | None = None
    """The public key of the signer that the signature is tried with."""
    signature: Words | None = None
    """The signer's signature."""

    @property
    def number(self) -> int:
        return int(getattr(self, self.KIND.replace("-", "_")))

    @property
    def number_text(self) -> Text:
        own: Text = getattr(self, self.KIND.replace("-", "_"))
        return own


class SignOff(Record):
    """Somebody entitled says that a learner has shown it."""

    KIND = "sign-off"
    sign_off: Number = Field(alias="sign-off")
    """The number of the entry."""
    learner: Ref | None = None
    """Who learned."""
    skill: Ref | None = None
    """Which skill."""
    level: LevelWord | None = None
    """How far: watches, beside, within call, alone, teaches."""
    items: Several[Ref] = ()
    """Checklist items shown."""
    evidence: Several[Words] = ()
    """What it rests on: `practice 31`."""
    override: Words | None = None
    """The written reason, where proof is missing."""


class Practice(Record):
    """Pieces made."""

    KIND = "practice"
    practice: Number
    """The number of the entry."""
    procedure: Ref | None = None
    """What was done."""
    level: LevelWord | None = None
    """Under whose eye."""
    teacher: Ref | None = None
    """Who stood by."""
    order: Ref | None = None
    """For which order."""
    pieces: Count | None = None
    """How many."""
    scrap: Count | None = None
    """How many were lost."""
    rework: Count | None = None
    """How many were done again."""
    took: Amount | None = None
    """How long it took."""


class Trial(Record):
    """The same pieces judged by feel, without seeing each other's verdicts."""

    KIND = "trial"
    trial: Number
    """The number of the entry."""
    felt: Ref | None = None
    """What was judged: procedure/step."""
    teacher: Ref | None = None
    """Whose verdicts count."""
    verdicts: Named[Words] = NOTHING
    """Piece by piece: good, bad, or a grade of that work."""


class Measurement(Record):
    """Readings taken against a limit."""

    KIND = "measurement"
    measurement: Number
    """The number of the entry."""
    measured: Ref | None = None
    """The limit: procedure/step/limit."""
    readings: Several[Amount] = ()
    """What the gauge said."""
    with_: Several[Ref] = Field(default=(), alias="with")
    """The gauge."""
    pieces: Count | None = None
    """Of how many pieces."""
    order: Ref | None = None
    """For which order."""


class Incident(Record):
    """Somebody was hurt, or nearly."""

    KIND = "incident"
    incident: Number
    """The number of the entry."""
    what: Words | None = None
    """What happened."""
    during: Ref | None = None
    """At which work."""
    hazard: Words | None = None
    """Which hazard."""
    injured: Several[Ref] = ()
    """Who was hurt; nobody for a near miss."""
    harm: Words | None = None
    """How."""
    aid: Words | None = None
    """What was done at once."""
    change: Ref | None = None
    """The change it led to."""


BOOKS: tuple[type[Record], ...] = (SignOff, Practice, Trial, Measurement, Incident)
