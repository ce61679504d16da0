from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.masses import Weighed, is_whole, of_parts, weighings
from site_builder.checks.rules.values.sums import shown
from site_builder.notebook.conditions import exclude
from site_builder.notebook.finding import Found, Level

_TAKEN_OFF = Fraction(9, 10)
"""What is filed and drilled off after joining is less than a tenth: common practice."""
_DRILLED = Fraction(98, 100)
"""And less than a fiftieth of a whole that was weighed already."""


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, part in analysis.notebook.parts.items():
        if not part.of:
            continue
        weighed = list(weighings(analysis, id_))
        for one in weighed:
            high = one.case.high
            parts = of_parts(analysis, id_, one.case.condition) if is_whole(analysis, id_, one) else Fraction(0)
            if high is None:
                continue
            if high < parts * _TAKEN_OFF:
                yield Found(
                    one.case.written.at, f"`{one.case.written}` is lighter than the parts of “{part.title}”, which "
                    f"weigh {shown(one.case.found, parts)} at least.",
                    "Put right this mass, or the `mass` among the sizes of the parts.", one.owner,
                )
                continue
            before = _heavier_before(one, weighed)
            if before is not None:
                yield Found(
                    one.case.written.at, f"`{one.name}` {one.case.written} is lighter than `{before.name}` "
                    f"{before.case.written} in the work before it.",
                    "Put right the one or the other; what is packed weighs as much as what is in it, and its box.",
                    one.owner,
                )


def _heavier_before(one: Weighed, weighed: list[Weighed]) -> Weighed | None:
    for before in weighed:
        if 0 <= before.step < one.step and before.case.low is not None and one.case.high is not None:
            together = not exclude(before.case.condition, one.case.condition)
            if together and one.case.high < before.case.low * _DRILLED:
                return before
    return None


RULE = Rule(
    code="whole-lighter",
    level=Level.ERROR,
    summary="A whole that weighs less than what it is put together from.",
    reason="The scale is the last look through a closed lid; with a wrong figure it passes a box with a part missing.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
products: {lantern: {title: Lantern, of: {foot: 1, post: 4}, sizes: {mass: 1.9..2 kg}}}
parts:
  foot: {title: Foot, sizes: {mass: 1.1 kg}}
  post: {title: Post, sizes: {mass: 0.2 kg}}
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
products: {lantern: {title: Lantern, of: {foot: 1, post: 4}, sizes: {mass: ▸1.2..1.3 kg}}}
parts:
  foot: {title: Foot, sizes: {mass: 1.1 kg}}
  post: {title: Post, sizes: {mass: 0.2 kg}}
""",
    check=check,
)
