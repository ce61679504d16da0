"""How you know it is good: everything that is measured, felt or looked at on the way, in one table, leading there."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.procedure import Step
from site_builder.views.blocks import Row
from site_builder.views.check import SENSES, first_words
from site_builder.views.limit import anchor_of
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, linked, listed, lowered, prose, say, unstopped
from site_builder.views.scope import ProcedureScope
from site_builder.views.value import limit_value

COLUMNS = ("What", "Good", "With, and when", "Step")
WRITTEN = "write it down"


def good(scope: ProcedureScope) -> tuple[Row, ...]:
    """A row for each limit that is looked after at a step, and for each thing that is felt there."""
    return tuple(row for step in scope.own.steps for row in _rows(scope, step))


def _rows(scope: ProcedureScope, step: Step) -> Iterator[Row]:
    number = capital(scope.step_words(step))
    for name, limits in step.limits.items():
        for nth, limit in enumerate(limits):
            if limit.check and limit.guide != "yes":
                to = linked(number, scope.here(anchor_of(scope, name, step, nth)))
                figure = prose("by the table") if isinstance(limit.is_, Table) else limit_value(scope, limit).main
                yield Row((capital(scope.words(name)), figure, _how(scope, limit), to), scope.only(limit))
    for check in (*step.feel, *step.checks):
        if check.good is not None:
            to = linked(number, scope.here(scope.view.anchor(step)))
            sense = SENSES.get(str(check.sense), "Look.").rstrip(".")
            what = unstopped(capital(scope.words(check.where))) if check.where is not None else prose(sense)
            by = NO_WORDS if check.where is None else prose(sense.lower())
            yield Row((what, unstopped(first_words(scope, check.good)), _joined(by, *_when(scope, check)), to),
                      scope.only(check))


def _how(scope: ProcedureScope, limit: Limit) -> Prose:
    gauges = listed(lowered(one) for one in scope.things(map(str, limit.with_)))
    return _joined(gauges, *(one for check in limit.check for one in _when(scope, check)))


def _when(scope: ProcedureScope, check: Check) -> Iterator[Prose]:
    if check.when is not None:
        yield scope.cadence(check.when)
    if check.write:
        yield say("{}", WRITTEN)


def _joined(*said: Prose) -> Prose:
    return joined((one for one in said if one), "; ")
