from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.names import path_of
from site_builder.checks.rules.values.tables import is_dimension
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for naming in reckoning(analysis).namings:
        head = naming.name.partition("/")[0]
        # `material/pot life` is that of the material in hand, whichever it is.
        if len(naming.hits) < 2 or (head != naming.name and is_dimension(head)):
            continue
        paths = [path_of(hit) for hit in naming.hits]
        which = " and ".join(f"`{path}`" for path in paths[:2])
        yield Found(
            naming.at, f"`{naming.name}` may be {which}.", f"Write the path of the one that is meant: `{paths[0]}`.",
            naming.place.owner_id,
        )


RULE = Rule(
    code="reference-two",
    level=Level.ERROR,
    summary="A value leans on a name that two others have.",
    reason=(
        "Two values of one name stand equally near. The page cannot guess which of them is meant."
    ),
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - id: first
    do: Fill the deep ones.
    limits: {depth of the pit: 1..2 mm}
  - id: second
    do: Fill the flat ones.
    limits: {depth of the pit: max 1 mm}
  - do: Look over it.
    settings: {grain: 'max 1/2 of [first/depth of the pit]'}
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - id: first
    do: Fill the deep ones.
    limits: {depth of the pit: 1..2 mm}
  - id: second
    do: Fill the flat ones.
    limits: {depth of the pit: max 1 mm}
  - do: Look over it.
    settings: {grain: 'max 1/2 of [▸depth of the pit]'}
""",
    check=check,
)
