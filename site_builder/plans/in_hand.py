"""The plan that the shop works by, and what it asks of a procedure, a person and a machine, week by week."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from site_builder.figures.batch_orders import coming
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.notebook.gather import tool_uses
from site_builder.notebook.model.season import Season
from site_builder.notebook.model.things import Machine
from site_builder.notebook.notebook import Notebook
from site_builder.plans.plan_file import newest
from site_builder.plans.weeks import day_of, hours_of, monday


def plan_in_hand(known: FigureInputs) -> Season | None:
    """The newest plan of the coming order; else the newest of all."""
    seasons = known.notebook.seasons
    order = coming(known)
    found = newest(seasons, order) if order is not None else None
    return found or max(seasons.values(), key=lambda one: one.date.value.first if one.date else date.min, default=None)


def machines_of(nb: Notebook) -> tuple[str, ...]:
    """The machines, and of other tools those of which it is told how many there are: their hours are planned."""
    return tuple(id_ for id_, tool in nb.tools.items() if isinstance(tool, Machine) or tool.count is not None)


def machine_loads(nb: Notebook, season: Season, machine: str) -> Mapping[date, float]:
    """Hours of work at a machine in each week: those of the first pair of hands, setting up in them."""
    at_it = {id_ for id_, own in nb.procedures.items()
             if any(use.tool == machine and not use.or_ for use in tool_uses(nb, own))}
    found: dict[date, float] = {}
    for stint in season.work:
        if stint.does in at_it and stint.helps not in ("yes", "true") and hours_of(stint):
            week = monday(day_of(stint))
            found[week] = found.get(week, 0.0) + hours_of(stint)
    return dict(sorted(found.items()))
