"""When it goes wrong: every trouble with its cause, its remedy and the way back."""

from __future__ import annotations

import re
from dataclasses import dataclass

from site_builder.notebook.model.judging import Trouble
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.references import all_steps
from site_builder.views.blocks import Grid, Pictures, Row, Said
from site_builder.views.picture import pictures
from site_builder.views.prose import (
    NO_WORDS,
    Only,
    Prose,
    capital,
    joined,
    linked,
    meant,
    prose,
    say,
    toned,
    without_start,
)
from site_builder.views.remedy import causes, remedy, seen, way_back
from site_builder.views.scope import ProcedureScope

_STOP = re.compile(r"(?:^|[.!;]\s+)Stop\b(?! when)")
"""A sentence that tells one to stop."""


@dataclass(frozen=True, slots=True)
class Wrong:
    """The section."""

    ledger: Grid
    pictures: Pictures | None
    stops: tuple[bool, ...] = ()
    """Of each row, whether the work must stop for it: such a row is never shut."""


def goes_wrong(scope: ProcedureScope) -> Wrong | None:
    """All troubles, those of the whole work first, then step by step."""
    rows: list[Row] = []
    shots: list[Picture] = []
    stops: list[bool] = []
    for work in (scope.own, *all_steps(scope.own)):
        here = work if isinstance(work, Step) else None
        for trouble in work.troubles:
            rows.append(_row(scope, trouble, here))
            shots += trouble.pictures
            stops.append(trouble.then == "stop" or any(_STOP.search(str(deed)) for deed in trouble.do))
    if not rows:
        return None
    ledger = Grid(caption=prose("Troubles at this work"), columns=("What you see", "Why", "What to do", "Then"),
                  rows=tuple(rows))
    return Wrong(ledger, pictures(scope, shots), tuple(stops))


def _row(scope: ProcedureScope, trouble: Trouble, here: Step | None) -> Row:
    at = toned("at step", say("({})", scope.step_link(here))) if here is not None else NO_WORDS
    only = scope.only(trouble)
    sign = meant(Only(only.words), seen(scope, trouble, at))
    if trouble.cause:
        cause = causes(scope, trouble)
    elif "cause" in trouble.asked:
        cause = scope.untold("not told yet", trouble.at)
    else:
        cause = NO_WORDS
    what = remedy(scope, trouble, here, way=False)
    way = _then(scope, trouble, here)
    return Row((sign, cause, what, way), only, scope.trouble_anchors[id(trouble)])


def _then(scope: ProcedureScope, trouble: Trouble, here: Step | None) -> Prose:
    if trouble.then == "none":
        return prose("Not recoverable")
    if trouble.then == "again" and here is not None and trouble.times is None:
        return say("{} again", capital(scope.step_link(here)))
    told = way_back(scope, trouble, here)
    for lead in ("Then ", "go to ", "It is "):
        told = without_start(told, lead)
    return capital(told)


def at_step(scope: ProcedureScope, work: Work) -> list[Said]:
    """What may go wrong at this step, each leading to its row."""
    links = [linked(scope.view.plain(trouble.sign).rstrip("."), scope.here(scope.trouble_anchors[id(trouble)]))
             for trouble in work.troubles]
    return [Said(label="Goes wrong", words=joined(links, "; "))] if links else []
