"""What can be found on the page of a procedure by itself: its steps, its troubles, its limits."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.finder import Part
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.references import all_steps
from site_builder.views.limit_in_words import value_in_words
from site_builder.views.prose import Prose, Toned, capital_text, joined
from site_builder.views.scope import ProcedureScope


def places_to_find(scope: ProcedureScope) -> Iterator[Part]:
    """Steps first, then what goes wrong, then what good is."""
    yield from _steps(scope)
    works: tuple[Work, ...] = (scope.own, *all_steps(scope.own))
    for work in works:
        yield from _troubles(scope, work)
    for work in works:
        yield from _limits(scope, work)


def _steps(scope: ProcedureScope) -> Iterator[Part]:
    plain = scope.view.plain
    for number, step in enumerate(scope.own.steps, 1):
        do = plain(step.do) if step.do is not None else scope.view.title("procedure", str(step.use))
        yield Part(scope.view.anchor(step), f"{number}. {do}", " ".join(plain(p.point) for p in step.points), "Step")


def _troubles(scope: ProcedureScope, work: Work) -> Iterator[Part]:
    plain = scope.view.plain
    for one in work.troubles:
        yield Part(scope.trouble_anchors[id(one)], plain(one.sign), " ".join(map(plain, (*one.cause, *one.do))),
                   "Trouble")


def _limits(scope: ProcedureScope, work: Work) -> Iterator[Part]:
    """Each limit with its value, at the step where it is told."""
    anchor = "good" if isinstance(work, Procedure) else scope.view.anchor(work) if isinstance(work, Step) else ""
    for name, limits in work.limits.items():
        value = joined((_once(value_in_words(scope, limit)) for limit in limits), "; ").plain.strip()
        if anchor and value:
            yield Part(anchor, capital_text(f"{name}: {value}"), "", "Limit")


def _once(value: Prose) -> Prose:
    """In the units in which it was written."""
    return Prose(piece for piece in value if not (isinstance(piece, Toned) and piece.tone == "other units"))
