"""What the work is judged by, and how to name it in a question."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.notebook.index import Place
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.procedure import Step, Work


def judged(analysis: Analysis) -> Iterator[tuple[Check, Place]]:
    """Every `feel` and `checks` of a step or procedure; not those that only say when something ends."""
    for look, place in analysis.index.of(Check):
        if place.key in ("feel", "checks") and place.parent is not None and isinstance(place.parent.entry, Work):
            yield look, place


def judged_by_feel(analysis: Analysis) -> Iterator[tuple[Check, Place]]:
    """Every `feel` of a step or procedure."""
    for look, place in judged(analysis):
        if place.key == "feel":
            yield look, place


def doing(place: Place) -> str:
    """What is being done there, in quotes: the words of the step, or else the title of the whole."""
    for around in place.up():
        if isinstance(around.entry, Step) and around.entry.do is not None:
            return quoted(around.entry.do)
    return quoted(str(getattr(place.owner, "title", place.owner_id)))
