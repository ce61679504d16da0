"""What is bought and is not there yet: from which day on the work that takes it can begin."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from math import ceil
from typing import NamedTuple

from site_builder.batch.span import written_span
from site_builder.notebook.gather import material_uses
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.notebook import Notebook

_DAY = 86_400


class Coming(NamedTuple):
    """Something that must be ordered first: by name, how much of it is there, and the day on which it comes."""

    title: str
    there: str
    on: date


def coming_for(nb: Notebook, own: Procedure, pieces: Mapping[str, int], ordered: date) -> Iterator[Coming]:
    """What work waits for if it is ordered on a day: bought parts of the whole that it makes, of which there are too
    few for ``pieces`` of that whole, and materials of which there is nothing. What tells no lead time is not waited
    for; nor is a material whose stock is not told, since then it is taken to be there."""
    for whole in dict.fromkeys(map(str, nb.makes_of(own))):
        part_of = nb.parts.get(whole)
        for id_, count in part_of.of.items() if part_of is not None else ():
            part, each = nb.parts.get(str(id_)), written_span(count, "count")
            days = lead_days(part.lead_time) if part is not None else None
            if part is None or days is None:
                continue
            span = written_span(part.stock, "count") if part.stock is not None else None
            needed = pieces.get(whole, 0) * (each.most if each is not None else 1)
            if span is None or span.least < needed:
                there = f"{int(span.least)} of {int(needed)}" if span is not None else "none, as far as is told,"
                yield Coming(str(part.title), there, ordered + timedelta(days=days))
    for use in material_uses(nb, own):
        material = nb.materials.get(str(use.material))
        days = lead_days(material.lead_time) if material is not None else None
        if material is not None and days is not None and material.stock is not None and nothing(material.stock):
            yield Coming(str(material.title), "nothing", ordered + timedelta(days=days))


def nothing(stock: Written) -> bool:
    """Whether a stock is told to be none, in whatever unit."""
    spans = (written_span(stock, kind) for kind in ("count", "mass", "volume", "length", "area"))
    return any(span is not None and span.most == 0 for span in spans)


def lead_days(leaf: Written | None) -> int | None:
    """Whole days from ordering until it is here."""
    span = written_span(leaf, "time") if leaf is not None else None
    return ceil(span.most / _DAY) if span is not None else None
