"""The door for a program that writes down what a recording says. None comes with this one, and none is needed.

Whoever has one makes it known as an entry point of the group ``benchlore.recogniser``: a function that takes the path
of a recording and gives its words as WebVTT. It is asked only when somebody hands in a recording, and nothing leaves
the machine through us.
"""

from __future__ import annotations

from importlib.metadata import EntryPoint, entry_points
from pathlib import Path

import click

GROUP = "benchlore.recogniser"
SOUNDS = frozenset((".m4a", ".mp3", ".wav", ".ogg", ".opus", ".flac", ".webm", ".mp4", ".aac", ".mov"))


def installed() -> tuple[EntryPoint, ...]:
    """The recognisers that are installed, by name."""
    return tuple(sorted(entry_points(group=GROUP), key=lambda one: one.name))


def words_of(recording: Path) -> str:
    """What the first of them hears, as WebVTT. Raises UsageError where there is none, or it cannot."""
    known = installed()
    if not known:
        raise click.UsageError(
            f"`{recording.name}` is a recording, and no program that writes down speech is installed here. Write down "
            "what is said, as plain text or with a program of your own that writes WebVTT or SubRip, and hand in "
            "that file."
        )
    try:
        found = known[0].load()(recording)
    except Exception as problem:  # somebody else's program: whatever it raises is told, not thrown
        raise click.UsageError(f"`{known[0].name}` could not write down `{recording.name}`: {problem}") from None
    if not isinstance(found, str) or not found.strip():
        raise click.UsageError(f"`{known[0].name}` heard nothing in `{recording.name}`.")
    return found
