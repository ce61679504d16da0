"""What stays out of a keeping until the shop says that it may go in: where a photo was taken, and people's voices."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from site_builder.analysis.analysis import Analysis
from site_builder.archive.written import written_files
from site_builder.notebook.archiving import agreed_voices, may_keep
from site_builder.notebook.picture_facts import sniff
from site_builder.pictures.look import look_into

_OF_PHONES = (".heic", ".heif", ".avif", ".dng", ".raw", ".cr2", ".nef", ".arw")
"""Photos into which we cannot look: nobody can say whether they tell their place."""


@dataclass(frozen=True, slots=True)
class Withheld:
    """Files of the notebook by their path in it, and why each stays out."""

    places: tuple[str, ...] = ()
    """Originals that tell where they were taken, or of which nobody can say whether they do."""
    voices: tuple[str, ...] = ()
    """Recordings of which nobody has written that those who are heard agree."""

    @property
    def files(self) -> frozenset[str]:
        """All of them."""
        return frozenset((*self.places, *self.voices))


def withheld(analysis: Analysis) -> Withheld:
    """What the shop has not said may be kept, of all files that lie in the notebook."""
    nb = analysis.notebook
    agreed = {path.resolve() for path in agreed_voices(analysis.index)}
    places, voices = [], []
    for name, file in written_files(nb.root):
        kind = _kind(file)
        if kind in ("sound", "film") and file.resolve() not in agreed and not may_keep(nb.shop, "voices"):
            voices.append(name)
        elif kind is not None and not may_keep(nb.shop, "places") and _may_tell_place(file):
            places.append(name)
    return Withheld(tuple(places), tuple(voices))


def _kind(file: Path) -> str | None:
    """What kind of picture or recording a file is; None for what is none."""
    with file.open("rb") as stream:
        kind, _ = sniff(stream.read(512), file.suffix)
    return kind if kind != "unknown" or file.suffix.lower() in _OF_PHONES else None


def _may_tell_place(file: Path) -> bool:
    facts = look_into(file)
    return facts.has_location or (facts.problem is not None and facts.kind != "drawing")
