from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import untold
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Machine, Material, Protection, Tooling

# What nobody buys.
_FREE = frozenset(("water", "cold water", "hot water", "warm water", "tap water", "rain water", "rainwater", "air",
                   "ice", "steam"))  # fmt: skip


def check(analysis: Analysis) -> Iterator[Found]:
    made = {made for own in analysis.notebook.procedures.values() for made in own.makes}
    for thing, id_ in untold(analysis, (Machine, Tooling, Material, Protection), "supplier"):
        at_home = thing.maker is not None and thing.maker.casefold().startswith(("home", "own", "made here"))
        if id_ not in made and not at_home and str(thing.title).casefold() not in _FREE:
            runs_out = isinstance(thing, Material)
            asked = "Where do you get more of it" if runs_out else "Where do you get another, or a spare"
            yield Found(
                thing.title.at, f"{asked}: “{thing.title}”?",
                "Add `supplier:` with the name and what to ask for. Where it is made here, say so under `maker:` "
                "(`home-made`).", id_,
            )


RULE = Rule(
    code="supplier-unsaid",
    level=Level.QUESTION,
    summary="Something that will run out or break, and nobody has said where another comes from.",
    reason="The one who knows where to order is the one who always ordered.",
    passes="""\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
supplier: Ostrel Abrasives, twelve on the shelf
""",
    fails="""\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: ▸Belt, P80
""",
    check=check,
)
