"""When work is over, and how it is done again: lines to stop at, and loops."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_checks import feel
from site_builder.handbook.pages.procedure_signs import stage_words
from site_builder.handbook.pages.procedure_view import ProcedureView, meant
from site_builder.handbook.pages.procedure_views import Back, Block, Stop
from site_builder.notebook.model.judging import Check, End, Loop
from site_builder.notebook.model.procedure import Step
from site_builder.quantity import Ask

_PLAIN = frozenset({"good", "sense"})  # what the sentence itself can say of a check


def ends(view: ProcedureView, found: Sequence[End], here: Step | None, lead: str) -> Stop | None:
    """The line that says when it is done; several ends are stages one after the other."""
    if not found:
        return None
    stages = tuple(meant(view.only(end), stage_words(view, end, here)) for end in found)
    return Stop(lead=lead, stages=stages, blocks=_shown_below(view, found, here))


def _shown_below(view: ProcedureView, found: Sequence[End], here: Step | None) -> tuple[Block, ...]:
    """Checks that say more than one sentence can hold."""
    rich = [check for end in found for check in (*end.feel, *end.check) if _is_rich(check)]
    return tuple(block for check in rich for block in feel(view, check, here))


def _is_rich(check: Check) -> bool:
    return bool(check.model_fields_set - _PLAIN - {"at", "asked", "for_"} or check.asked)


def loop(view: ProcedureView, repeat: Loop | None, here: Step | None) -> Back | None:
    """``Again from step 3 until …. Usually once, at most 3 times.``"""
    if repeat is None:
        return None
    start = view.named(str(repeat.from_)) if repeat.from_ is not None else None
    if start is not None and (here is None or repeat.from_ != here.id):
        lead = filled("<b>Again from {}</b>", start)
    else:
        lead = Markup("<b>Do this again</b>")
    if repeat.per is not None and repeat.per != "piece":
        lead = filled("{} for {}", lead, "the whole lot" if repeat.per == "lot" else f"each {repeat.per}")
    stages = [stage_words(view, end, here) for end in repeat.until]
    said = [filled("{} until {}", lead, Markup(" Then until ").join(stages))] if stages else [lead]
    if repeat.times is not None and not isinstance(repeat.times.value.what, Ask):
        said.append(Markup(in_words.how_often(repeat.times.value)))
    else:
        said.append(view.untold("how often at most is not told yet", repeat.at))
    said += view.tail(repeat, told=("because", "times"))
    return Back(words=in_words.joined_sentences(said), reasons=view.reasons(repeat), only=view.only(repeat),
                blocks=_shown_below(view, repeat.until, here))
