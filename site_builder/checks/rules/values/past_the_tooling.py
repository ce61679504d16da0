from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import RATED, Setting, borne, past, settings_of, told
from site_builder.figures.running import RUNNING
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Tooling
from site_builder.notebook.ways import can_hold_together
from site_builder.quantity import Bounds, same_dimensions


def check(analysis: Analysis) -> Iterator[Found]:
    for setting in settings_of(analysis):
        failing: list[tuple[str, str]] = []
        for id_ in _toolings(analysis, setting):
            bears = _past(analysis, setting, id_)
            if bears is None:
                failing = []  # several hang ready, and one of them bears it
                break
            failing.append((id_, bears))
        if failing:
            id_, bears = failing[0]
            yield Found(
                setting.written.at,
                f"`{setting.written}` is more than “{analysis.notebook.tools[id_].title}” bears, which is {bears}.",
                "Put right the setting, or write in the step which tooling it is done with.", setting.place.owner_id,
            )


def _toolings(analysis: Analysis, setting: Setting) -> list[str]:
    """The tooling named by the setting, or used in its step, or else in its procedure, that says what it bears."""
    tools = analysis.notebook.tools
    named = setting.tool
    if named is not None and isinstance(tools.get(str(named)), Tooling):
        return [str(named)]
    for work in setting.works:
        used = [str(use.tool) for use in work.tools if isinstance(tools.get(str(use.tool)), Tooling)
                and can_hold_together(use.for_, setting.holds)]
        bearing = [id_ for id_ in used if _bears(analysis, setting, id_)]
        if bearing:
            return bearing
    return []


def _bears(analysis: Analysis, setting: Setting, id_: str) -> list[tuple[str, list[Bounds]]]:
    """What the tooling says on this setting: under its own name, or as the speed it is rated for."""
    names = [setting.name, f"{RATED}speed"] if setting.name in RUNNING else [setting.name]
    found = [(name, borne(analysis, id_, name, setting.holds)) for name in names]
    return [
        (name, bears) for name, bears in found
        if any(same_dimensions(one.unit, setting.found.unit) for one in bears)
    ]


def _past(analysis: Analysis, setting: Setting, id_: str) -> str | None:
    """What is borne, in words, where the setting is past it; a rim too fast for its turns has a rule of its own."""
    for name, bears in _bears(analysis, setting, id_):
        failed = past(setting.found, bears, is_rated=name != setting.name)
        if failed is not None:
            return told(failed)
    return None


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
