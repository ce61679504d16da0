"""How far the times of a work go off, by what was observed: the practice book beside the times of the procedures."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from site_builder.batch.span import written_span
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.plans.wanted import Wants
from site_builder.season.chance import spread_of

_MOST = 0.5


def observed_spread(known: FigureInputs, wanted: Wants) -> Mapping[str, float]:
    """Of each work with three observed times or more their spread, at most a half."""
    seconds: dict[str, list[float]] = defaultdict(list)
    for entry in known.notebook.practice:
        count = written_span(entry.pieces, "count") if entry.pieces is not None else None
        span = written_span(entry.took, "time") if entry.took is not None else None
        if span is not None and count is not None and count.most > 0 and span.most > 0 and entry.procedure is not None:
            seconds[str(entry.procedure)].append(float(span.most / count.most))
    found = {}
    for id_, planned in wanted.means.items():
        spread = spread_of(seconds.get(planned.procedure, ()))
        if spread is not None:
            found[id_] = min(spread, _MOST)
    return found
