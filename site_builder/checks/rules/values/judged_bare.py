from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.limits import is_judged
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Work
from site_builder.quantity import Judged


def check(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, _ in analysis.index.values:
        what = leaf.value.what
        # `judged by a nail, it must take the print` tells the sign itself.
        if type(what) is not Judged or "," in what.words or ";" in what.words or _has_sign(place):
            continue
        yield Found(
            leaf.at, f"`{leaf}` is judged, but no `good` and no `sign` stands near it.",
            "Add a `check` or `feel` with `good` and `bad`: what is seen, heard or felt when it is right.",
            place.owner_id,
        )


def _has_sign(place: Place) -> bool:
    limits = [outer.entry for outer in place.up() if isinstance(outer.entry, Limit)]
    if any(is_judged(limit) or limit.below or limit.above or "check" in limit.asked for limit in limits):
        return True
    works = [work for work in (place.step, place.procedure) if work is not None]
    return any(_work_has_sign(work) for work in works)


def _work_has_sign(work: Work) -> bool:
    return bool(
        work.feel
        or any(check.good or check.bad for check in work.checks)
        or any(end.sign or end.feel for end in work.until)
    )


RULE = Rule(
    code="judged-bare",
    level=Level.WARNING,
    summary="A value that is judged, and no sign to judge it by.",
    reason=(
        "The master’s hand knows the right pressure. The next hand must be told what to see, hear or "
        "feel when it is right."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings: {pressure: lowest that still cuts}
    feel: {sense: sound, good: It hisses evenly., bad: It howls.}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings: {pressure: ▸lowest that still cuts}
""",
    check=check,
)
