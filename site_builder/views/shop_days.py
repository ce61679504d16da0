"""What a full day of each work, and the days of each person, come to: those that reach a value, worst first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from site_builder.figures.breathed import limits_told
from site_builder.figures.exposure import Exposed, exposed_people, exposed_works
from site_builder.notebook.gather import hazards_of
from site_builder.notebook.model.harm import Hazard
from site_builder.views.blocks import Grid
from site_builder.views.prose import Prose, capital, capital_text, joined, say
from site_builder.views.thing import table_of
from site_builder.views.typeset import typeset
from site_builder.views.uses import Uses

Cells = tuple[Prose | str, ...]
_IN_THE_AIR = ("dust", "fume", "vapour", "vapor", "mist", "smoke", "gas")


@dataclass(frozen=True, slots=True)
class Days:
    """The section of the page: what reaches a value by work and by person, and what is in the air."""

    works: Grid | None
    people: Grid | None
    below: str
    """How many were reckoned that reach none."""
    air: Grid | None


def whole_days(uses: Uses) -> Days | None:
    """The days as they were reckoned; None where no noise, vibration, lift or dust is told."""
    analysis = uses.view.analysis
    works, people = exposed_works(analysis), exposed_people(analysis)
    air = _air_ledger(uses)
    if not works and not people and air is None:
        return None
    return Days(
        table_of("A full day of one work, worst first", ("Work", "What", "A full day", "Reaches", "With what is worn"),
               _rows(uses, works)),
        table_of("The days of each person, worst first", ("Who", "What", "The day", "Reaches", "With what is worn"),
               _rows(uses, people)),
        _below(works), air,
    )


def _rows(uses: Uses, exposed: Sequence[Exposed]) -> list[Cells]:
    return [
        (uses.view.link(one.kind, one.id), one.what, typeset(capital_text(one.day)), typeset(one.reached),
         typeset(one.worn))
        for one in exposed if one.reached
    ]


def _below(works: Sequence[Exposed]) -> str:
    rest = sum(1 for one in works if not one.reached)
    if not rest:
        return ""
    return f"{rest} more {'was' if rest == 1 else 'were'} reckoned and {'reaches' if rest == 1 else 'reach'} no value."


def _air_ledger(uses: Uses) -> Grid | None:
    """Work whose hazards speak of something in the air, with the limits that are told of its materials."""
    nb, limits = uses.view.notebook, limits_told(uses.view.analysis)
    rows: dict[tuple[str, ...], list[str]] = {}
    for id_ in uses.worn_for:
        named = tuple(dict.fromkeys(
            str(found.item.hazard) for found in hazards_of(nb, nb.procedures[id_]) if isinstance(found.item, Hazard)
            and any(word in found.item.hazard.lower().split() for word in _IN_THE_AIR)
        ))
        if named:
            rows.setdefault(named, []).append(id_)
    cells: list[Cells] = []
    for named, ids in rows.items():
        told = dict.fromkeys(m for id_ in ids for m in _materials(uses, id_) if m in limits)
        limit = joined((say("{}: {}", uses.view.link("material", m), typeset(limits[m].input.written)) for m in told),
                       ", ")
        cells.append((capital(", ".join(named)), joined((uses.view.link("procedure", id_) for id_ in ids), ", "),
                      limit or "not told"))
    return table_of("In the air: only measuring tells", ("What", "Work", "Limit that is told"), cells)


def _materials(uses: Uses, id_: str) -> list[str]:
    own = uses.view.notebook.procedures[id_]
    return [str(use.material) for work in (own, *own.steps) for use in work.materials]
