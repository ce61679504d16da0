"""All figures of a notebook, by the thing they are about, and the faults met while reckoning them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from site_builder.figures.batch import batch_figures
from site_builder.figures.cast_day import day_figures
from site_builder.figures.chains import chain_figures
from site_builder.figures.charges import charge_figures
from site_builder.figures.coating import coating_figures
from site_builder.figures.exposure import exposure_figures
from site_builder.figures.fastenings import fastening_figures
from site_builder.figures.figure import Fault, Figure, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.grits import grit_figures
from site_builder.figures.melting import melting_figures
from site_builder.figures.mixes import mix_figures
from site_builder.figures.moulds import mould_figures
from site_builder.figures.plating import plating_figures
from site_builder.figures.pouring import pouring_figures
from site_builder.figures.recoat_day import recoat_figures
from site_builder.figures.spinning import spinning_figures
from site_builder.figures.wheels import wheel_figures
from site_builder.notebook.finding import At

_ONE_VALUE = ("time", "yield")
"""Keys that are written once for a procedure, whatever is asked of them."""
Chapter = Callable[[FigureInputs], Iterator[Figure | Missing | Fault]]

CHAPTERS: tuple[Chapter, ...] = (
    batch_figures, pouring_figures, mould_figures, melting_figures, charge_figures, day_figures, wheel_figures,
    grit_figures, exposure_figures, chain_figures, fastening_figures, spinning_figures,
    plating_figures, coating_figures, mix_figures, recoat_figures,
)
"""Each goes once through the notebook and yields what its part of the trade can tell."""


@dataclass(frozen=True)
class Everything:
    """``figures``: (kind, id) to the figures shown on that thing's page, in the order of the chapters."""

    figures: Mapping[tuple[str, str], tuple[Figure | Missing, ...]]
    faults: tuple[Fault, ...]


def everything_of(known: FigureInputs) -> Everything:
    """Let every chapter go through the notebook once."""
    found: dict[tuple[str, str], list[Figure | Missing]] = defaultdict(list)
    faults: dict[Fault, None] = {}
    for chapter in CHAPTERS:
        for one in chapter(known):
            if isinstance(one, Fault):
                faults[one] = None
            else:
                found[one.kind, one.id].append(one)
    return Everything({key: tuple(_gathered(figures)) for key, figures in found.items()}, tuple(faults))


def _gathered(figures: Sequence[Figure | Missing]) -> Iterator[Figure | Missing]:
    """What is told first, then what is not; what one line would tell stands together."""
    yield from (one for one in figures if isinstance(one, Figure))
    asked: dict[tuple[At, str], Missing] = {}
    for one in figures:
        if isinstance(one, Missing):
            line = one.at, one.write.partition(":")[0]
            before = asked.get(line)
            if before is None or (before.write != one.write and line[1] not in _ONE_VALUE):
                asked[line if before is None else (one.at, one.write)] = one
            elif one.sentence not in before.sentence:
                asked[line] = replace(before, sentence=f"{before.sentence} {one.sentence}")
    yield from asked.values()
