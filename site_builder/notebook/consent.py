"""Whose voice may be played, and of what telling."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from site_builder.notebook.model.telling import Telling
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.telling_files import telling_file

Show = Literal["words", "moments", "whole"]


def heard_in(telling: Telling) -> tuple[str, ...]:
    """Ids of everybody whose voice is in a telling."""
    tellers = () if telling.teller is None else (telling.teller,)
    return tuple(dict.fromkeys(str(one) for one in (*tellers, *telling.others)))


def unasked(notebook: Notebook, telling: Telling) -> tuple[str, ...]:
    """Who of them has neither agreed nor declined."""
    recordings = None if notebook.shop is None else notebook.shop.recordings
    settled = set() if recordings is None else {str(one) for one in (*recordings.agreed, *recordings.declined)}
    return tuple(one for one in heard_in(telling) if one not in settled)


def shown(notebook: Notebook) -> Show:
    """How much of recordings the shop lets the handbook play."""
    recordings = None if notebook.shop is None else notebook.shop.recordings
    if recordings is None or recordings.show is None:
        return "moments"
    return "words" if recordings.show == "words" else "whole" if recordings.show == "whole" else "moments"


def playable(notebook: Notebook, telling: Telling) -> Path | None:
    """The recording, where it is there and everybody heard has agreed; None else, also where nobody is named."""
    recordings = None if notebook.shop is None else notebook.shop.recordings
    if telling.recording is None or recordings is None or shown(notebook) == "words":
        return None
    people = heard_in(telling)
    agreed, declined = set(map(str, recordings.agreed)), set(map(str, recordings.declined))
    if not people or not agreed.issuperset(people) or declined.intersection(people):
        return None
    return telling_file(notebook.root, telling, str(telling.recording))
