from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.references import all_steps
from site_builder.notebook.vocabulary import Vocabulary


def check(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        if link.target is not None or link.kinds != ("trouble",) or link.text in analysis.notebook.unread:
            continue
        near = _troubles(analysis, link.place.procedure).nearest(link.text)
        yield Found(
            link.at, f"No trouble on this page has the id `{link.text}`.",
            f"Did you mean `{near}`?" if near else f"Add `id: {link.text}` to the trouble that is meant.",
            link.place.owner_id,
        )


def _troubles(analysis: Analysis, own: Procedure | None) -> Vocabulary:
    works = () if own is None else (own, *all_steps(own))
    return analysis.once(("troubles", id(own)), lambda: Vocabulary(
        str(trouble.id) for work in works for trouble in work.troubles if trouble.id is not None))


RULE = Rule(
    code="trouble-none",
    level=Level.ERROR,
    summary="A limit points at a trouble that is not on the page.",
    reason="Whoever finds the piece too small is to be led to the cause; this leads nowhere.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
      height: {is: 32 ±0.2 mm, below: {trouble: too-low}}
    troubles:
      - {id: too-low, sign: The post stands too deep., then: scrap}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
      height: {is: 32 ±0.2 mm, below: {trouble: ▸low}}
    troubles:
      - {id: too-low, sign: The post stands too deep., then: scrap}
""",
    check=check,
)
