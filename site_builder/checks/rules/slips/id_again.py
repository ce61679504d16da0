from __future__ import annotations

from collections.abc import Iterable, Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.references import all_steps
from site_builder.notebook.tree import Text


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for own in nb.procedures.values():
        steps = all_steps(own)
        yield from _again("step", (step.id for step in steps), str(own.id))
        yield from _again("trouble", (one.id for work in (own, *steps) for one in work.troubles), str(own.id))
    for skill in nb.skills.values():
        yield from _again("item of the checklist", (show.id for show in skill.checklist), str(skill.id))
    for id_, thing in nb.things.items():
        yield from _again("piece of upkeep", (one.id for one in thing.upkeep), id_)


def _again(what: str, ids: Iterable[Text | None], about: str) -> Iterator[Found]:
    first: dict[str, Text] = {}
    for id_ in ids:
        if id_ is None:
            continue
        before = first.setdefault(str(id_), id_)
        if before is not id_:
            yield Found(
                id_.at, f"`{id_}` is the id of the {what} on line {before.at.line} already.",
                "Give this one an id of its own, and look whether what points here means it or the other.", about,
            )


RULE = Rule(
    code="id-again",
    level=Level.ERROR,
    summary="Two steps, troubles or items of a checklist on one page with the same id.",
    reason="Whatever points at the id leads to the first of them, and nothing ever leads to the second.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - {id: try, do: Try it on the plate.}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - {id: ▸sweep, do: Try it on the plate.}
troubles:
  - {id: hollow, sign: A dark stripe is left., do: Two more passes.}
  - {id: ▸hollow, sign: It rocks., do: Take it to the plate.}
""",
    check=check,
)
