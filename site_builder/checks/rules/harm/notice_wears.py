from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hazard


def check(analysis: Analysis) -> Iterator[Found]:
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word == "notice" and hazard.wear:
            yield Found(
                hazard.wear[0].at,
                f"“{hazard.hazard}” is a `notice`, which harms only the work, yet something is to be worn.",
                "Write `caution`, `warning` or `danger` if it can hurt somebody; else take `wear` away.",
                place.owner_id,
            )


RULE = Rule(
    code="notice-wears",
    level=Level.ERROR,
    summary="A `notice` that asks for protection.",
    reason="By ANSI Z535.6 and ISO 3864-2 a notice is not about injury. Either somebody can be hurt, and the "
    "word is too weak, or nobody can, and the protection is worn for nothing.",
    passes="""\
=== procedures/foot/wipe-foot.yml
procedure: wipe-foot
title: Wipe the foot
steps:
  - do: Wipe it with spirit.
    hazards:
      - hazard: finger marks
        word: notice
        harm: The primer lifts where a finger was.
        avoid: Hold the foot by the rim.
""",
    fails="""\
=== procedures/foot/wipe-foot.yml
procedure: wipe-foot
title: Wipe the foot
steps:
  - do: Wipe it with spirit.
    hazards:
      - hazard: dry skin
        word: notice
        harm: The spirit takes the fat out of the skin.
        avoid: Wring the rag out.
        wear: ▸nitrile-gloves
=== tools/protection/nitrile-gloves.yml
protection: nitrile-gloves
title: Nitrile gloves
""",
    check=check,
)
