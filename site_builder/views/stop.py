"""The line at which one stops: when it is done, stage by stage, and how one sees it."""

from __future__ import annotations

from collections.abc import Sequence

from site_builder.notebook.model.judging import Check, End
from site_builder.notebook.model.procedure import Step
from site_builder.views.blocks import Block, Stop
from site_builder.views.check import feel
from site_builder.views.end import stage_words
from site_builder.views.prose import meant
from site_builder.views.scope import Scope

_PLAIN = frozenset({"good", "sense"})  # what the sentence itself can say of a check


def ends(scope: Scope, found: Sequence[End], here: Step | None, lead: str) -> Stop | None:
    """The line that says when it is done; several ends are stages one after the other."""
    if not found:
        return None
    stages = tuple(meant(scope.only(end), stage_words(scope, end, here)) for end in found)
    return Stop(lead=lead, stages=stages, blocks=shown_below(scope, found, here))


def shown_below(scope: Scope, found: Sequence[End], here: Step | None) -> tuple[Block, ...]:
    """Checks that say more than one sentence can hold."""
    rich = [check for end in found for check in (*end.feel, *end.check) if _is_rich(check)]
    return tuple(block for check in rich for block in feel(scope, check, here))


def _is_rich(check: Check) -> bool:
    return bool(check.model_fields_set - _PLAIN - {"at", "asked", "for_"} or check.asked)
