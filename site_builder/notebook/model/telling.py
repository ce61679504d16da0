"""A telling: what somebody told of the work, as it was recorded and written down; who agreed to be heard."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import NOTHING, DateText, Id, Named, OneOf, Ref, Several, Words
from site_builder.notebook.tree import Text


class Recordings(Entry):
    """Whose voices the handbook may play, and how much of them."""

    MAIN: ClassVar[str] = "show"
    show: Annotated[Text, OneOf("words", "moments", "whole")] | None = None
    """`words`: never a voice; `moments` (if not written): where an entry was told; `whole`: from end to end."""
    agreed: Several[Ref] = ()
    """People who agreed that their voice is played from the handbook."""
    declined: Several[Ref] = ()
    """People who did not; their recordings stay in the notebook."""


class Telling(Entry):
    """What somebody told, sentence by sentence, until all of it is taken up or laid aside."""

    RINGS = (
        ("telling", "title", "teller", "transcript", "recording"),
        ("date", "place", "others", "laid_aside", "taken_up"),
    )
    telling: Id
    """The id; the same as the file's name."""
    title: Words
    """What it is about, in a line."""
    teller: Ref | None = None
    """Who tells."""
    others: Several[Ref] = ()
    """Who else is heard: whoever asks, whoever stands by."""
    transcript: Words | None = None
    """The file with the words, beside this one: WebVTT, SubRip, or plain text without times."""
    recording: Words | None = None
    """The file with the voice, beside this one."""
    date: DateText | None = None
    """When."""
    place: Words | None = None
    """Where: `at the mould`."""
    taken_up: Named[Several[Words]] = Field(default=NOTHING, alias="taken up")
    """Sentences that went into what has no `told` of its own, by name: `c027: the word follower`."""
    laid_aside: Several[Words] = Field(default=(), alias="laid aside")
    """Sentences with nothing to keep, by their names in the transcript."""

    @property
    def id(self) -> Text:
        return self.telling
