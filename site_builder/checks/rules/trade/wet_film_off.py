from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both
from site_builder.figures.coating import wet_off
from site_builder.formulas.errors import Impossible
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in wet_off(analysis):
        coat, is_inch = one.coat, one.wet.is_inch
        title = analysis.notebook.materials[coat.material].title
        try:
            right = both(coat.wet, "µm", "mil", is_inch, 2)
        except Impossible:
            continue
        yield Found(
            one.wet.at, f"`{one.wet.input.written}` wet of “{title}” leaves "
            f"{both(one.leaves, 'µm', 'mil', is_inch, 2)} dry; `{coat.dry.input.written}` is asked for.",
            f"Lay on {right} wet, or put right the dry film or the volume solids, {coat.solids.input.written}.",
            str(coat.procedure.procedure),
        )


RULE = Rule(
    code="wet-film-off",
    level=Level.WARNING,
    summary="A wet film that cannot leave the dry one that is asked for.",
    reason=(
        "Of a wet coat only the solids stay. Where wet and dry do not fit together, whoever reads the comb sprays a "
        "coat that the gauge rejects a day later."
    ),
    passes="""\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
materials: primer
steps:
  - do: Spray it.
    settings: {wet film: 40..60 µm}
    limits: {dry film: 15..25 µm}
=== tools/materials/primer.yml
material: primer
title: Primer
properties: {volume solids: 40 %}
""",
    fails="""\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
materials: primer
steps:
  - do: Spray it.
    settings: {wet film: ▸90..120 µm}
    limits: {dry film: 15..25 µm}
=== tools/materials/primer.yml
material: primer
title: Primer
properties: {volume solids: 40 %}
""",
    check=check,
)
