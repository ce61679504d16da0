"""The line at which one stops: when it is done, stage by stage, and how one sees it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from site_builder.notebook.conditions import exclude
from site_builder.notebook.model.judging import Check, End
from site_builder.notebook.model.procedure import Step
from site_builder.views.blocks import Block, Stop
from site_builder.views.check import feel
from site_builder.views.end import stage_words
from site_builder.views.prose import Prose, joined, meant
from site_builder.views.scope import Scope

_PLAIN = frozenset({"good", "sense"})  # what the sentence itself can say of a check


def ends(scope: Scope, found: Sequence[End], here: Step | None, lead: str) -> Stop | None:
    """The line that says when it is done; several ends are stages one after the other."""
    if not found:
        return None
    stages = tuple(meant(scope.only(end), stage_words(scope, end, here)) for end in found)
    return Stop(lead=lead, stages=stages, by_case=exclude_each_other(found), blocks=shown_below(scope, found, here))


def exclude_each_other(found: Sequence[End]) -> bool:
    """Whether no two ends hold for the same piece: then they are no stages, and each is told for its own case."""
    return len(found) > 1 and all(exclude(one.for_, other.for_) for one, other in combinations(found, 2))


def until(scope: Scope, found: Sequence[End], here: Step | None) -> Prose:
    """The stages in one line, to go on from "until"; the ends of different cases side by side."""
    told = [end for end in found if end.ways()]
    stages = [meant(scope.only(end), stage_words(scope, end, here)) for end in told]
    return joined(stages, " " if exclude_each_other(told) else " Then until ")


def shown_below(scope: Scope, found: Sequence[End], here: Step | None) -> tuple[Block, ...]:
    """Checks that say more than one sentence can hold."""
    rich = [check for end in found for check in (*end.feel, *end.check) if _is_rich(check)]
    return tuple(block for check in rich for block in feel(scope, check, here))


def _is_rich(check: Check) -> bool:
    return bool(check.model_fields_set - _PLAIN - {"at", "asked", "for_"} or check.asked)
