from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import RATED, Setting, borne, past, settings_of, told
from site_builder.figures.running import RUNNING
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Machine, Tooling
from site_builder.notebook.ways import can_hold_together


def check(analysis: Analysis) -> Iterator[Found]:
    for setting in settings_of(analysis):
        for id_ in _machines(analysis, setting):
            for name in (setting.name, f"{RATED}{setting.name}", f"{RATED}speed"):
                if name == f"{RATED}speed" and setting.name not in RUNNING:
                    continue
                bears = past(setting.found, borne(analysis, id_, name, setting.holds), is_rated=name != setting.name)
                if bears is not None:
                    yield Found(
                        setting.written.at,
                        f"`{setting.written}` is past the {name} of “{analysis.notebook.tools[id_].title}”, "
                        f"which is {told(bears)}.",
                        "Put right the setting, the `tool`, or the property of the machine.",
                        setting.place.owner_id,
                    )
                    break


def _machines(analysis: Analysis, setting: Setting) -> list[str]:
    """The tool it is set on; where none is told, the one machine of the work that has such a property."""
    tools = analysis.notebook.tools
    if setting.tool is not None:
        named = str(setting.tool)
        return [named] if named in tools and not isinstance(tools[named], Tooling) else []
    for work in setting.works:
        used = [str(use.tool) for use in work.tools if not use.or_ and can_hold_together(use.for_, setting.holds)]
        machines = [id_ for id_ in used if isinstance(tools.get(id_), Machine)]
        having = [id_ for id_ in machines if setting.name in tools[id_].properties]
        if having:
            return having if len(having) == 1 else []
    return []


RULE = Rule(
    code="past-the-machine",
    level=Level.ERROR,
    summary="A setting that its machine cannot reach or must not pass.",
    reason=(
        "Either the machine will be asked for more than it can give, or the page is wrong. Both hurt, "
        "and the first one flies."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings: {belt speed: {is: 15..18 m/s, tool: belt-grinder}}
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {belt speed: 8..20 m/s}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    settings: {belt speed: {is: ▸15..22 m/s, tool: belt-grinder}}
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {belt speed: 8..20 m/s}
""",
    check=check,
)
