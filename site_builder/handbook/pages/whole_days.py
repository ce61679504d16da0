"""What a full day of each work, and the days of each person, come to: those that reach a value, worst first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.figures.breathed import limits_told
from site_builder.figures.exposure import Exposed, exposed_people, exposed_works
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import capital
from site_builder.handbook.pages.thing_view import Ledger, ledger
from site_builder.handbook.pages.uses import Uses
from site_builder.notebook.gather import hazards_of
from site_builder.notebook.model.harm import Hazard
from site_builder.views.typeset import typeset

Cells = tuple[Markup | str, ...]
_IN_THE_AIR = ("dust", "fume", "vapour", "vapor", "mist", "smoke", "gas")


@dataclass(frozen=True, slots=True)
class Days:
    """The section of the page: what reaches a value by work and by person, and what is in the air."""

    works: Ledger | None
    people: Ledger | None
    below: str
    """How many were reckoned that reach none."""
    air: Ledger | None


def whole_days(context: PageContext, uses: Uses) -> Days | None:
    """The days as they were reckoned; None where no noise, vibration, lift or dust is told."""
    analysis = context.book.analysis
    works, people = exposed_works(analysis), exposed_people(analysis)
    air = _air_ledger(context, uses)
    if not works and not people and air is None:
        return None
    return Days(
        ledger("A full day of one work, worst first", ("Work", "What", "A full day", "Reaches", "With what is worn"),
               _rows(context, works)),
        ledger("The days of each person, worst first", ("Who", "What", "The day", "Reaches", "With what is worn"),
               _rows(context, people)),
        _below(works), air,
    )


def _rows(context: PageContext, exposed: Sequence[Exposed]) -> list[Cells]:
    return [
        (context.link(one.kind, one.id), one.what, typeset(one.day[:1].upper() + one.day[1:]), typeset(one.reached),
         typeset(one.worn))
        for one in exposed if one.reached
    ]


def _below(works: Sequence[Exposed]) -> str:
    rest = sum(1 for one in works if not one.reached)
    if not rest:
        return ""
    return f"{rest} more {'was' if rest == 1 else 'were'} reckoned and {'reaches' if rest == 1 else 'reach'} no value."


def _air_ledger(context: PageContext, uses: Uses) -> Ledger | None:
    """Work whose hazards speak of something in the air, with the limits that are told of its materials."""
    nb, limits = context.book.notebook, limits_told(context.book.analysis)
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
        told = dict.fromkeys(m for id_ in ids for m in _materials(context, id_) if m in limits)
        limit = Markup(", ").join(
            Markup("{}: {}").format(context.link("material", m), typeset(limits[m].input.written)) for m in told
        )
        cells.append((capital(", ".join(named)), Markup(", ").join(context.link("procedure", id_) for id_ in ids),
                      limit or "not told"))
    return ledger("In the air: only measuring tells", ("What", "Work", "Limit that is told"), cells)


def _materials(context: PageContext, id_: str) -> list[str]:
    own = context.book.notebook.procedures[id_]
    return [str(use.material) for work in (own, *own.steps) for use in work.materials]
