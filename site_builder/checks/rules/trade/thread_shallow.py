from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both
from site_builder.figures.fastenings import shallow
from site_builder.formulas.interval import Interval
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one, wanted, tears in shallow(analysis):
        if one.engagement is None:
            continue
        length = both(Interval(wanted, wanted), "mm", "in", one.engagement.is_inch, 2)
        why = (f"at `{one.torque.input.written}` the thread tears out of less than {length}" if tears
               else f"in zinc at least {length} are common practice")
        yield Found(
            one.engagement.at, f"`{one.engagement.input.written}` of thread for {one.screw.called} screw: {why}.",
            "Let the screw go deeper, tighten it less, or set a steel insert.", str(one.procedure.procedure),
        )


RULE = Rule(
    code="thread-shallow",
    level=Level.WARNING,
    summary="A screw that does not go deep enough into zinc for the torque it is tightened with.",
    reason="Steel is stronger than zinc: where too few threads bear, they come out with the screw.",
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: {title: Foot, material: zinc}, screw: {title: Screw, sizes: {thread: M4}}}
=== procedures/foot/screw-foot.yml
procedure: screw-foot
title: Screw the foot on
materials: screw
steps:
  - do: Tighten it.
    settings: {torque: 1.5..1.8 N·m, thread engagement: min 8 mm}
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: {title: Foot, material: zinc}, screw: {title: Screw, sizes: {thread: M4}}}
=== procedures/foot/screw-foot.yml
procedure: screw-foot
title: Screw the foot on
materials: screw
steps:
  - do: Tighten it.
    settings: {torque: 1.5..1.8 N·m, thread engagement: ▸3 mm}
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""",
    check=check,
)
