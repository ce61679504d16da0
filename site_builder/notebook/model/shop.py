"""The shop, its products and parts, customers, calendar; changes to the way of working; orders."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import (
    NOTHING,
    Amount,
    Count,
    DateText,
    Id,
    Named,
    OneOf,
    Ref,
    Several,
    Words,
    Yes,
)
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.small import WEEKDAYS, SourceNote, Variant
from site_builder.notebook.model.telling import Recordings
from site_builder.notebook.tree import Text


class Part(Entry):
    """A part or a product."""

    MAIN: ClassVar[str] = "title"
    title: Words
    """Its name."""
    of: Named[Count] = NOTHING
    """What it is put together from, with numbers."""
    material: Several[Ref] = ()
    """What it is made of."""
    sizes: Named[Several[Limit]] = NOTHING
    """Its sizes."""
    supplier: Words | None = None
    """Where it is bought, if it is bought."""
    chosen: Named[Words] = NOTHING
    """The variant it is."""
    pictures: Several[Picture] = ()
    """Pictures of it."""
    lead_time: Amount | None = Field(default=None, alias="lead time")
    """How long it takes from ordering until it is here, if it is bought: `3 wk`."""
    stock: Count | None = None
    """How many are there and not yet promised."""
    former: Several[Id] = ()
    """Earlier ids, by which the entries of the books still find it."""


class Customer(Entry):
    """Whom it is made for."""

    MAIN: ClassVar[str] = "title"
    title: Words
    """The name."""
    chosen: Named[Words] = NOTHING
    """The variants this customer gets."""


class Calendar(Entry):
    """Working days and hours."""

    days: Several[Annotated[Text, OneOf(*WEEKDAYS)]] = ()
    """Working days, by full name."""
    hours: Amount | None = None
    """Working time a day: `7 h/day`."""
    closed: Several[DateText] = ()
    """Days and spans without work."""


class Word(Entry):
    """A word of the shop's own."""

    MAIN: ClassVar[str] = "means"
    RINGS = (("means",), ("also",))
    means: Words | None = None
    """What it means here."""
    also: Several[Words] = ()
    """What else people call it: whoever looks for one of these finds it too."""


class Archive(Entry):
    """What may go into an archive of the shop beside what is written (`benchlore keep`)."""

    places: Yes | None = None
    """`yes`: photos and films as they came from the phone, with the place where they were taken. `no`: without it."""
    voices: Yes | None = None
    """`yes`: recordings too in which people are heard who have not agreed to it in writing. `no`: not these."""


class Shop(Entry):
    """`procedures/shop.yml`: what everything else refers to."""

    RINGS = (("shop", "title", "products", "parts", "words"), ("accident", "variants", "sources", "calendar"))
    shop: Id
    """The id of the shop."""
    title: Words
    """Its name, as on the cover of the handbook."""
    format: Words | None = None
    """`1` is this grammar."""
    parts: Named[Part] = NOTHING
    """What is made or bought."""
    products: Named[Part] = NOTHING
    """What leaves the shop."""
    customers: Named[Customer] = NOTHING
    """Whom it is made for."""
    variants: Named[Variant] = NOTHING
    """Dimensions that hold for the whole shop."""
    sources: Named[SourceNote] = NOTHING
    """Books, standards, sheets that values come from."""
    words: Named[Word] = NOTHING
    """The glossary; also what the shop counts in."""
    calendar: Calendar | None = None
    """Working days and hours."""
    planning: Planning | None = None
    """What a plan of the season goes by."""
    holders: Count | None = None
    """How many should be able to do each skill alone; two if not written."""
    recordings: Recordings | None = None
    """Whose voices the handbook may play."""
    accident: Several[Words] = ()
    """What to do first when someone is hurt."""
    pictures: Several[Picture] = ()
    """Pictures of the product."""
    archive: Archive | None = None
    """What may be kept of places and voices."""


class Result(Entry):
    """What was, and what is since."""

    old: Several[Limit] = ()
    """Before."""
    new: Several[Limit] = ()
    """Since."""


class Change(Entry):
    """One change to the way of working."""

    RINGS = (("change", "title", "what", "because"), ("covers", "results", "evidence", "outcome", "date", "who"))
    change: Id
    """The id; the same as the file's name."""
    title: Words
    """What changed, in a line."""
    covers: Several[Ref] = ()
    """The procedures it changed."""
    what: Words | None = None
    """What was changed."""
    results: Named[Result] = NOTHING
    """Before and since."""
    evidence: Several[Words] = ()
    """What it rests on."""
    outcome: Annotated[Text, OneOf("kept", "dropped", "on trial")] | None = None
    """Kept, dropped, or on trial."""
    date: DateText | None = None
    """When."""
    who: Ref | None = None
    """Who changed it."""
    former: Several[Id] = ()
    """Earlier ids, by which the entries of the books still find it."""

    @property
    def id(self) -> Text:
        return self.change


class Pin(Entry):
    """Work of an order that is bound to somebody or to a time."""

    MAIN: ClassVar[str] = "work"
    work: Ref
    """The procedure."""
    who: Ref | None = None
    """Who does it, and nobody else."""
    date: DateText | None = None
    """The day or the span in which all of it is done."""


class DecidedLesson(Entry):
    """Teaching that is decided: `{who: benno, skill: spinning, date: 2027-02-15, teacher: josk}`."""

    MAIN: ClassVar[str] = "skill"
    who: Ref | None = None
    """Who learns it."""
    skill: Ref
    """The skill."""
    teacher: Ref | None = None
    """Who teaches it."""
    date: DateText | None = None
    """The day from which on they do it alone, if all goes as it should."""


class Planning(Entry):
    """What a plan of the season goes by."""

    MAIN: ClassVar[str] = "aims"
    aims: Several[Annotated[Text, OneOf("soonest", "calm")]] = ()
    """What counts first: the soonest day, or merely in time with few changes of work. Soonest if not written."""
    noise: Amount | None = None
    """The daily level that nobody is planned over: `85 dB(A)`, the upper action value, if not written."""
    vibration: Amount | None = None
    """The daily vibration that nobody is planned over: `2.5 m/s²`, the action value, if not written."""
    lifting: Amount | None = None
    """How much one person lifts in a day, all together, at most: `10000 kg` if not written."""
    lessons: Several[DecidedLesson] = ()
    """Teaching that is decided: who will do which work alone from which day on."""


class OrderShare(Entry):
    """Pieces of an order that are made alike: so many in this variant."""

    pieces: Count | None = None
    """How many of the order."""
    chosen: Named[Words] = NOTHING
    """Their variants."""


class Order(Entry):
    """A batch to deliver."""

    RINGS = (("order", "title", "product", "pieces", "due"), ("customer", "chosen", "split"))
    order: Id
    """The id; the same as the file's name."""
    title: Words
    """What it is."""
    product: Ref | None = None
    """What is delivered."""
    pieces: Count | None = None
    """How many."""
    due: DateText | None = None
    """By when."""
    customer: Ref | None = None
    """For whom."""
    chosen: Named[Words] = NOTHING
    """Its variants."""
    split: Several[OrderShare] = ()
    """Shares of it in different variants: `{chosen: {pattern: deck}, pieces: 60}`; the rest is as `chosen` says."""
    calendar: Calendar | None = None
    """Its own working days."""
    not_before: DateText | None = Field(default=None, alias="not before")
    """The day before which nothing of it is begun."""
    made: Named[Count] = NOTHING
    """What is finished already, part by part: `{foot: 40}`."""
    pinned: Several[Pin] = ()
    """Work that is bound to somebody or to a time."""
    former: Several[Id] = ()
    """Earlier ids, by which the entries of the books still find it."""

    @property
    def id(self) -> Text:
        return self.order
