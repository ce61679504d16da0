from __future__ import annotations

import math
from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import RATED, RUNNING, Setting, borne, past, settings_of, told
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Tooling
from site_builder.quantity import Bounds, same_dimensions


def check(survey: Survey) -> Iterator[Found]:
    for setting in settings_of(survey):
        failing: list[tuple[str, str]] = []
        for id_ in _toolings(survey, setting):
            bears = _past(survey, setting, id_)
            if bears is None:
                failing = []  # several hang ready, and one of them bears it
                break
            failing.append((id_, bears))
        if failing:
            id_, bears = failing[0]
            yield Found(
                setting.written.at,
                f"`{setting.written}` is more than “{survey.notebook.tools[id_].title}” bears, which is {bears}.",
                "Put right the setting, or write in the step which tooling it is done with.", setting.place.owner_id,
            )


def _toolings(survey: Survey, setting: Setting) -> list[str]:
    """The tooling named by the setting, or used in its step, or else in its procedure, that says what it bears."""
    tools = survey.notebook.tools
    named = setting.tool
    if named is not None and isinstance(tools.get(str(named)), Tooling):
        return [str(named)]
    for work in setting.works:
        used = [str(use.tool) for use in work.tools if isinstance(tools.get(str(use.tool)), Tooling)]
        bearing = [id_ for id_ in used if _bears(survey, setting, id_)]
        if bearing:
            return bearing
    return []


def _bears(survey: Survey, setting: Setting, id_: str) -> list[tuple[str, list[Bounds]]]:
    """What the tooling says on this setting: under its own name, or as the speed it is rated for."""
    names = [setting.name, f"{RATED}speed"] if setting.name in RUNNING else [setting.name]
    found = [(name, borne(survey, id_, name)) for name in names]
    wheel = borne(survey, id_, "wheel size")
    return [
        (name, bears) for name, bears in found
        if any(same_dimensions(one.unit, setting.found.unit) or (wheel and _turns(setting.found, one)) for one in bears)
    ]


def _past(survey: Survey, setting: Setting, id_: str) -> str | None:
    """What is borne, in words, where the setting is past it."""
    for name, bears in _bears(survey, setting, id_):
        failed = past(setting.found, bears, is_rated=name != setting.name)
        if failed is not None:
            return told(failed)
        rim = _rim_speed(setting.found, borne(survey, id_, "wheel size"))
        most = [one.high if one.limited else one.aim_high for one in bears if _turns(setting.found, one)]
        if rim is not None and most and all(one is not None and rim > float(one) for one in most):
            return f"{told(bears[0])}: its rim runs at {rim:.3g} m/s"
    return None


def _turns(setting: Bounds, bears: Bounds) -> bool:
    """Whether one turns so often a minute and the other is rated by the speed of its rim, as wheels are."""
    return setting.kind == "rotation speed" and bears.kind == "speed"


def _rim_speed(setting: Bounds, sizes: list[Bounds]) -> float | None:
    """The speed of the rim in m/s at the most that is set: pi times diameter times turns a second."""
    turns = max((one for one in (setting.high, setting.aim_high) if one is not None), default=None)
    widths = [one.high if one.limited else one.aim_high for one in sizes if one.kind == "length"]
    if turns is None or not widths or None in widths:
        return None
    return math.pi * float(min(one for one in widths if one is not None)) * float(turns)


RULE = Rule(
    code="past-the-tooling",
    level=Level.ERROR,
    summary="A setting that the tooling on the machine does not bear.",
    reason=(
        "A belt, a wheel or a mop that runs faster than it is rated for flies apart, and nobody outruns "
        "the pieces."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: [belt-grinder, belt-p80]
steps:
  - do: Sweep it along the belt.
    settings: {belt speed: 15..18 m/s}
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
properties: {rated speed: max 30 m/s}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: [belt-grinder, belt-p80]
steps:
  - do: Sweep it along the belt.
    settings: {belt speed: ▸15..35 m/s}
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
properties: {rated speed: max 30 m/s}
""",
    check=check,
)
