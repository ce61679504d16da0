from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.cases import Case, cases, meeting
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import same_dimensions


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, own in nb.procedures.items():
        for work in (own, *own.steps):
            for name, limits in work.conditions.items():
                around = [(f"“{own.title}”", own.conditions)] if work is not own else []
                around += [(f"“{nb.things[one].title}”", nb.things[one].conditions)
                           for one in (str(use.tool) for use in work.tools if not use.or_) if one in nb.things]
                for told, conditions in around:
                    wider = cases(analysis, conditions.get(name, ()))
                    for one in cases(analysis, limits):
                        against = meeting(wider, one.condition)
                        if against and all(_apart(one, other) for other in against):
                            yield Found(
                                one.written.at, f"`{name}` is `{one.written}` here, but {told} asks for "
                                f"`{against[0].written}`: no day keeps both.",
                                "Put right the one or the other.", id_,
                            )


def _apart(one: Case, other: Case) -> bool:
    if not same_dimensions(one.found.unit, other.found.unit) or one.found.rough or other.found.rough:
        return False
    over = one.low is not None and other.high is not None and one.low > other.high
    under = one.high is not None and other.low is not None and one.high < other.low
    return over or under


RULE = Rule(
    code="conditions-crossed",
    level=Level.ERROR,
    summary="Conditions of a work that no day can keep together.",
    reason="The work, the step within it and the tool it is done with must all be content with the same room.",
    passes="""\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
conditions: {room temperature: 12..28 °C}
steps: {do: Spray., conditions: {room temperature: 15..25 °C}}
""",
    fails="""\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
conditions: {room temperature: 12..28 °C}
steps: {do: Spray., conditions: {room temperature: ▸32..40 °C}}
""",
    check=check,
)
