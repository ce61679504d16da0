from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Part
from site_builder.notebook.model.small import MaterialUse, ToolUse
from site_builder.notebook.model.things import Material
from site_builder.notebook.tree import Text


def check(analysis: Analysis) -> Iterator[Found]:
    for tool, place in analysis.index.of(ToolUse):
        yield from _use(tool.tool, tool.or_, tool.not_, place.owner_id)
    for material, place in analysis.index.of(MaterialUse):
        yield from _use(material.material, material.or_, material.not_, place.owner_id)
    for id_, thing in analysis.notebook.things.items():
        for other in thing.members:
            if other == id_:
                yield Found(other.at, f"`{other}` is a group and its own member.", "Take it out of `members`.", id_)
        for other in thing.apart if isinstance(thing, Material) else ():
            if other == id_:
                yield Found(
                    other.at, f"`{other}` is to be kept apart from itself.",
                    "Name under `apart` what must not come near it.", id_,
                )
    for part, place in analysis.index.of(Part):
        for other in part.of:
            if other == place.name:
                yield Found(
                    other.at, f"`{other}` is put together from itself.",
                    "Name under `of` the parts that it is made of.", str(place.name),
                )


def _use(taken: Text, others: tuple[Text, ...], refused: tuple[Text, ...], about: str) -> Iterator[Found]:
    for other in refused:
        if other == taken or other in others:
            yield Found(
                other.at, f"`{other}` is taken here and refused in the same breath.",
                "Name under `not` what must not be taken in its place.", about,
            )
    for other in others:
        if other == taken:
            yield Found(
                other.at, f"`{other}` is to stand in for itself.",
                "Name under `or` what will do when there is none of it.", about,
            )


RULE = Rule(
    code="refuses-itself",
    level=Level.ERROR,
    summary="A thing that refuses, replaces or holds itself.",
    reason="One of the two names is a slip, and the one that was meant is not told.",
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
materials: {material: filler, not: car-filler}
steps: Press the filler in.
=== tools/materials/filler.yml
material: filler
title: Filler
=== tools/materials/car-filler.yml
material: car-filler
title: Filler for cars
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
materials: {material: filler, not: ▸filler}
steps: Press the filler in.
=== tools/materials/filler.yml
material: filler
title: Filler
apart: ▸filler
""",
    check=check,
)
