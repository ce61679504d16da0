from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.cases import cases, least
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.tree import Text
from site_builder.quantity import bounds, parse_value, same_dimensions

_PER_PIECE = bounds(parse_value("1 kg per piece"))


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, own in nb.procedures.items():
        for part_id in nb.parts_of(own)[:1]:
            part = nb.parts.get(part_id)
            if part is None or len(part.material) != 1:
                continue
            using = [use for use in _uses(own) if str(use.material) == str(part.material[0]) and use.amount is not None]
            if len(using) != 1 or using[0].amount is None or len(own.part) > 1:
                continue
            figures = reckoning(analysis).bounds(using[0].amount)
            mass = least([one for one in cases(analysis, part.sizes.get(Text("mass"), ())) if one.found.kind == "mass"])
            if figures is None or mass is None or _PER_PIECE is None:
                continue
            high = ends(figures)[1]
            if same_dimensions(figures.unit, _PER_PIECE.unit) and high is not None and high < mass * 9 / 10:
                written = part.sizes[Text("mass")]
                told = next((str(cell.written) for one in written for _, cell in one.cells() if cell.written), "")
                yield Found(
                    using[0].amount.at, f"`{using[0].amount}` is less than “{part.title}” weighs, `{told}`.",
                    "Put right the amount, which is all that goes in, or the `mass` among the sizes of the part.", id_,
                )


def _uses(own: Procedure) -> Iterator[MaterialUse]:
    for work in (own, *own.steps):
        yield from work.materials


RULE = Rule(
    code="stock-short",
    level=Level.ERROR,
    summary="Less material for a piece than the piece weighs.",
    reason="What is ordered for a batch is reckoned from this amount; the shop runs out of metal in the middle of it.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {hood: {title: Hood, material: brass, sizes: {mass: 0.4..0.46 kg}}}
=== procedures/hood/cut-disc.yml
procedure: cut-disc
title: Cut the disc
part: hood
materials: {material: brass, amount: about 0.69 kg per piece}
steps: Cut it.
=== tools/materials/brass.yml
material: brass
title: Brass
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {hood: {title: Hood, material: brass, sizes: {mass: 0.4..0.46 kg}}}
=== procedures/hood/cut-disc.yml
procedure: cut-disc
title: Cut the disc
part: hood
materials: {material: brass, amount: ▸about 0.069 kg per piece}
steps: Cut it.
=== tools/materials/brass.yml
material: brass
title: Brass
""",
    check=check,
)
