"""Questions about limits: who looks, and what then."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import is_guide, limits_of, told_in
from site_builder.checks.rules.values.sides import sides_of
from site_builder.checks.rules.values.wording import is_or_are, name_of, subject, thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Work
from site_builder.quantity import as_said


def limit_unchecked(analysis: Analysis) -> Iterator[Found]:
    for limit, place in limits_of(analysis):
        if (
            place.key != "limits" or limit.check or "check" in limit.asked or limit.sum or is_guide(limit)
            or place.parent is None or not isinstance(place.parent.entry, Work)
        ):
            continue
        told = told_in(limit)
        if told and not any(cell.check for cell, _ in told):
            yield Found(
                told[0][1].at, f"How often {is_or_are(name_of(place))} {thing(place)} looked at?",
                "Add `check:`, as `each piece`, `every 10 pieces` or `first and last`.", place.owner_id,
            )


LIMIT_UNCHECKED = Rule(
    "limit-unchecked", Level.QUESTION, "A limit that nobody is told to look at.",
    "A limit that is never looked at is a wish. How often it must be looked at is what the master knows by "
    "experience.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
✓   flatness of the sole: {is: max 0.1 mm, check: every 10 pieces}
✗   flatness of the sole: ▸max 0.1 mm
""", limit_unchecked,
)


def side_unsaid(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for limit, place in limits_of(analysis):
        if not limit.check or is_guide(limit) or all(one.fails for one in limit.check):
            continue
        missing: dict[str, Written] = {}
        for cell, written in told_in(limit):
            sides = sides_of(written, held)
            if sides.low and not (limit.below or cell.below or {"below"} & (limit.asked | cell.asked)):
                missing.setdefault("below", written)
            if sides.high and not (limit.above or cell.above or {"above"} & (limit.asked | cell.asked)):
                missing.setdefault("above", written)
        if missing:
            first = next(iter(missing.values()))
            sides_missing = " or ".join(missing)
            keys = " and ".join(f"`{side}:`" for side in missing)
            name = thing(place)
            yield Found(
                first.at, f"{name[0].upper()}{name[1:]} is {sides_missing} {as_said(first.value)}: what does it mean, "
                "and what is to be done?", f"Add {keys} with what to `do` and where to go `then`.", place.owner_id,
            )


SIDE_UNSAID = Rule(
    "side-unsaid", Level.QUESTION, "A checked limit, and nothing on what to do when it is not kept.",
    "Too thin and too thick are two troubles with two ways out. Whoever finds the one must not have to guess.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  height of the foot:
    is: ▸32 ±0.2 mm
    check: every 10 pieces
✓     below: {do: Mark it red., then: scrap}
    above: {do: Take one more pass., then: again}
""", side_unsaid,
)


def window_unanswered(analysis: Analysis) -> Iterator[Found]:
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


WINDOW_UNANSWERED = Rule(
    "window-unanswered", Level.QUESTION, "A latest moment, and nothing on what to do when it is missed.",
    "Somebody will be called to the telephone. What is then to be done must be known before it happens.",
    """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - do: Spray the first coat.
✓     wait: {is: min 4 h; max 40 h, above: {do: Rub it dull first., then: next}}
✗     wait: ▸min 4 h; max 40 h
  - do: Spray the second coat.
""", window_unanswered,
)
