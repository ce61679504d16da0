from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import cell_place, limits_of
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.model.judging import Remedy
from site_builder.notebook.model.limit import Limit
from site_builder.quantity import Bounds

_OTHER = {"below": "above", "above": "below"}
_LEADS = {"below": "min", "above": "max"}


def check(analysis: Analysis) -> Iterator[Found]:
    for limit, place in limits_of(analysis):
        for side in ("below", "above"):
            remedies: list[tuple[Remedy, ...]] = [getattr(limit, side)]
            told = [reckoning(analysis).bounds_of(limit)]
            for _, cell in limit.cells():
                if cell is not limit:
                    remedies.append(getattr(cell, side))
                    told.append(reckoning(analysis).bounds_of(cell))
            for remedy, figures in zip(remedies, told, strict=True):
                if remedy and figures and all(one is not None and not _has(one, side) for one in figures):
                    yield Found(
                        _at(remedy), f"`{side}` never comes: `{_written(limit)}` has no limit on that side.",
                        f"Move it to `{_OTHER[side]}`, or add `{_LEADS[side]}` and its figure to the limit.",
                        cell_place(analysis, limit, place).owner_id,
                    )


def _at(remedy: tuple[Remedy, ...]) -> At:
    return remedy[0].at


def _written(limit: Limit) -> str:
    return str(limit.written) if limit.written is not None else "the limit"


def _has(found: Bounds, side: str) -> bool:
    """Whether it may be missed on this side; a bare figure, or an aim, may be missed on both."""
    if not found.limited or found.aim_low is not None:
        return True
    return (found.low is not None or found.low_untold) if side == "below" else (
        found.high is not None or found.high_untold
    )


RULE = Rule(
    code="remedy-sideless",
    level=Level.ERROR,
    summary="What to do on a side on which there is no limit.",
    reason="Nobody will ever do it: most often `below` and `above`, or `min` and `max`, were swapped.",
    passes="""\
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
steps: Pour.
limits: {heat of the bath: {is: max 490 °C, above: {do: Burner down., then: again}}}
""",
    fails="""\
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
steps: Pour.
limits: {heat of the bath: {is: max 490 °C, below: ▸{do: Burner down., then: again}}}
""",
    check=check,
)
