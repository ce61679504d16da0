from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import limits_of, told_in
from site_builder.checks.rules.values.sides import sides_of
from site_builder.checks.rules.values.wording import name_of, subject
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import as_said


def check(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for limit, place in limits_of(analysis):
        if place.key not in ("windows", "wait") or limit.above or "above" in limit.asked:
            continue
        late = [
            (cell, written) for cell, written in told_in(limit)
            if not cell.above and "above" not in cell.asked and sides_of(written, held).high
        ]
        if late:
            _, written = late[0]
            what = f"“{name_of(place)}”" if place.name is not None else "this wait"
            yield Found(
                written.at, f"“{subject(place)}”: what is to be done when {what} ({as_said(written.value)}) is missed?",
                "Add `above:` with what to `do` and where to go `then`; `then: none` if there is no way out.",
                place.owner_id,
            )


RULE = Rule(
    code="window-unanswered",
    level=Level.QUESTION,
    summary="A latest moment, and nothing on what to do when it is missed.",
    reason=(
        "Somebody will be called to the telephone. What is then to be done must be known before it "
        "happens."
    ),
    passes="""\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - do: Spray the first coat.
    wait: {is: min 4 h; max 40 h, above: {do: Rub it dull first., then: next}}
  - do: Spray the second coat.
""",
    fails="""\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - do: Spray the first coat.
    wait: ▸min 4 h; max 40 h
  - do: Spray the second coat.
""",
    check=check,
)
