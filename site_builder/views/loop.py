"""Loops: from where, until when and how often work is done again."""

from __future__ import annotations

from site_builder.notebook.model.judging import Loop
from site_builder.notebook.model.procedure import Step
from site_builder.quantity import Ask
from site_builder.views.blocks import Back
from site_builder.views.counts import how_often
from site_builder.views.prose import prose, say, sentences, toned
from site_builder.views.scope import Scope
from site_builder.views.standing import between_rounds
from site_builder.views.stop import shown_below, until


def loop(scope: Scope, repeat: Loop | None, here: Step | None) -> Back | None:
    """``Again from step 3 until …. Usually once, at most 3 times.``"""
    if repeat is None:
        return None
    start = scope.named(str(repeat.from_)) if repeat.from_ is not None else None
    if start is not None and (here is None or repeat.from_ != here.id):
        lead = toned("lead", say("Again from {}", start))
    else:
        lead = toned("lead", "Do this again")
    if repeat.per is not None and repeat.per != "piece":
        lead = say("{} for {}", lead, "the whole lot" if repeat.per == "lot" else f"each {repeat.per}")
    stages = until(scope, repeat.until, here)
    said = [say("{} until {}", lead, stages)] if stages else [lead]
    if repeat.times is not None and not isinstance(repeat.times.value.what, Ask):
        said.append(prose(how_often(repeat.times.value)))
    else:
        said.append(scope.untold("how often at most is not told yet", repeat.at))
    said += [say("Before each new round let it stand {}", between_rounds(scope, wait)) for wait in repeat.wait]
    said += scope.tail(repeat, told=("because", "times"))
    return Back(words=sentences(said), reasons=scope.reasons(repeat), only=scope.only(repeat),
                blocks=shown_below(scope, repeat.until, here))
