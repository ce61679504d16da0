"""A transcript without times: sentence by sentence, with a name before a colon as the speaker."""

from __future__ import annotations

import re

from site_builder.tellings.cue import Cue

_SPEAKER = re.compile(r"^(?P<who>[A-Z][\w.'-]{0,30}(?: [A-Z][\w.'-]{0,30}){0,2}):\s+(?=\S)")
_END = re.compile(r"(?<=[.!?])[\"'”’)]?\s+(?=[\"'“‘(]?[A-Z0-9])")
_ABBREVIATED = re.compile(r"\b(?:Mr|Mrs|Ms|Dr|St|No|approx|e\.g|i\.e|etc|vs|[A-Z])\.$")


def sentences(lines: list[str]) -> list[Cue]:
    """A cue for each sentence. A line that is blank, or names a speaker, ends a sentence too."""
    cues: list[Cue] = []
    speaker, paragraph = "", ""
    for line in (*lines, ""):
        said = line.strip()
        named = _SPEAKER.match(said)
        if named is not None or not said:
            _put(cues, paragraph, speaker)
            paragraph = ""
        if named is not None:
            speaker, said = named["who"], said[named.end() :]
        paragraph = f"{paragraph} {said}".strip()
    _put(cues, paragraph, speaker)
    return cues


def _put(cues: list[Cue], paragraph: str, speaker: str) -> None:
    kept = ""
    for piece in _END.split(paragraph):
        kept = f"{kept} {piece}".strip()
        if kept and not _ABBREVIATED.search(kept):
            cues.append(Cue(f"c{len(cues) + 1:03}", " ".join(kept.split()), speaker=speaker))
            kept = ""
    if kept:
        cues.append(Cue(f"c{len(cues) + 1:03}", " ".join(kept.split()), speaker=speaker))
