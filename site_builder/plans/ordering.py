"""What must be ordered by when: parts and materials that tell how long they take to come."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from site_builder.notebook.gather import material_uses
from site_builder.notebook.model.season import Season
from site_builder.notebook.notebook import Notebook
from site_builder.plans.supplies import lead_days
from site_builder.plans.weeks import day_of


def order_by(nb: Notebook, season: Season) -> Iterator[tuple[str, str, date, date]]:
    """(kind, id, to be ordered by, needed on), the soonest first; what is there in part is not counted off.

    A part that is bought is needed when the first work on the whole begins that it goes into.
    """
    begins: dict[str, date] = {}
    for stint in season.work:
        begins[str(stint.does)] = min(begins.get(str(stint.does), date.max), day_of(stint))
    needed: dict[tuple[str, str], date] = {}
    for procedure, day in begins.items():
        own = nb.procedures.get(procedure)
        if own is None:
            continue
        used = [("material", str(use.material)) for use in material_uses(nb, own) if use.material in nb.materials]
        for whole in nb.makes_of(own):
            used += [("part", str(one)) for one in (nb.parts[whole].of if whole in nb.parts else ())]
        for key in used:
            needed[key] = min(needed.get(key, day), day)
    found = []
    for (kind, id_), day in needed.items():
        thing = nb.materials[id_] if kind == "material" else nb.parts.get(id_)
        days = lead_days(thing.lead_time) if thing is not None else None
        if days is not None:
            found.append((kind, id_, day - timedelta(days=days), day))
    yield from sorted(found, key=lambda one: (one[2], one[1]))

