from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.flow import Flow, flows
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for flow in flows(analysis):
        for number, links in flow.always.items():
            back = [target for link in links if (target := flow.target(number, link)) is not None and target <= number]
            if len(back) == len(links) and not _has_way_out(flow, number):
                words = ", ".join(f"`{link.text}`" for link in links)
                yield Found(
                    links[-1].at, f"The end of this step always leads back to {words}, and nothing on the way round "
                    "leads out. It would never be done.",
                    "Write it as a loop that tells when it is over, as `repeat: {from: sweep, until: It does not "
                    "rock., times: about 2; max 5}`.", flow.id,
                )


def _has_way_out(flow: Flow, start: int) -> bool:
    """Whether the work can get beyond the last step or away from these steps, if need be by a remedy."""
    seen: set[int] = set()
    todo = [start]
    while todo:
        number = todo.pop()
        if number >= len(flow.procedure.steps):
            return True
        if number in seen:
            continue
        seen.add(number)
        always = flow.always.get(number)
        if always is None:
            todo.append(number + 1)
        for link in always or ():
            target = flow.target(number, link)
            if target is None:
                return True
            todo.append(target)
        for link in (*flow.sent[number], *flow.sent[None]):
            target = flow.target(number, link)
            if target is not None:
                todo.append(target)
            elif link.target is not None and link.target.kind == "procedure":
                return True
    return False


RULE = Rule(
    code="route-circle",
    level=Level.ERROR,
    summary="Steps that always lead back to one another.",
    reason="Going back and doing it again is good work if somebody says when it is enough. Here nobody does, "
    "and no piece would ever be done.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - id: try
    do: Try it on the plate.
    repeat: {from: sweep, until: It does not rock., times: about 2; max 5}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - id: try
    do: Try it on the plate.
    until: {sign: The plate shows where it rocks., then: ▸sweep}
""",
    check=check,
)
