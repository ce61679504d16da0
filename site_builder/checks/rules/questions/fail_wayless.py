from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import judged
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.judging import Remedy, Trouble
from site_builder.notebook.model.procedure import Work


def check(analysis: Analysis) -> Iterator[Found]:
    for trouble, place in analysis.index.of(Trouble):
        if _is_wayless(trouble):
            yield _found(trouble, place, trouble.sign)
    for remedy, place in analysis.index.of(Remedy):
        if _is_wayless(remedy) and remedy.trouble is None and remedy.means is not None:
            yield _found(remedy, place, remedy.means)
    for look, place in judged(analysis):
        work = place.parent.entry if place.parent is not None else None
        goes_round = isinstance(work, Work) and work.repeat is not None
        if not look.fails and "fails" not in look.asked and look.good and not goes_round:
            yield Found(
                look.at, f"What do you do when it is not so: {quoted(look.good)}?",
                "Add `fails:` with `do`, and `then` for where the work goes on.", place.owner_id,
            )


def _is_wayless(way: Remedy | Trouble) -> bool:
    return not (way.do or way.then or way.asked & {"do", "then"})


def _found(way: Remedy | Trouble, place: Place, sign: str) -> Found:
    return Found(
        way.at, f"What do you do then: {quoted(sign)}?",
        "Add `do:` with the remedy, and `then:` for where the work goes on; `then: none` if nothing can be done.",
        place.owner_id,
    )


RULE = Rule(
    code="fail-wayless",
    level=Level.QUESTION,
    summary="Something that fails, and no way on from there.",
    reason="With a bad piece in the hand everybody does something. What the master would do should stand "
    "there before.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Try it on the plate.
    checks: {good: It does not rock., when: each piece, fails: {do: Grind it again., then: again}}
troubles: {sign: Pits come up., cause: Gas in the metal., then: aside}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Try it on the plate.
    checks: ▸{good: It does not rock., when: each piece}
    limits:
      height:
        is: min 32 mm
        below: ▸{means: The glass has no hold.}
troubles: ▸{sign: Pits come up., cause: Gas in the metal.}
""",
    check=check,
)
