"""What a picture, drawing or recording says of itself: photos by their head, all others looked through as a whole.

Whatever this passes can be published: the checks ask it, so that a build does not stumble over what a check let by.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from site_builder.notebook.picture_facts import PictureFacts, PictureProblem, inspect, unreadable
from site_builder.pictures.drawing import clean_drawing
from site_builder.pictures.recordings import hushed


def look_into(path: Path) -> PictureFacts:
    """Facts of one file. Never raises for what the file holds or for its absence."""
    facts = inspect(path)
    try:
        if facts.problem is None and facts.kind == "drawing":
            drawing = clean_drawing(path.read_bytes())
            if isinstance(drawing, PictureProblem):
                return replace(facts, problem=drawing)
            return replace(facts, removed=drawing.removed)
        if facts.problem is None and facts.kind in ("sound", "film"):
            with path.open("rb") as stream:
                said = hushed(stream, facts.bytes)
            return replace(facts, has_location=said.tells_place, problem=said.problem)
    except OSError as error:
        return replace(facts, problem=unreadable(error))
    return facts
