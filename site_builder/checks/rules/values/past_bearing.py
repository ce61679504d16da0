"""Rules on settings past what machine, tooling or material bear."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import RATED, Setting, borne, past, settings_of, told
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends, shown, sums
from site_builder.figures.metals import materials_at
from site_builder.figures.moulds import MOULD_HEAT
from site_builder.figures.pouring import too_cold
from site_builder.figures.running import RUNNING
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Machine, Tooling
from site_builder.notebook.ways import can_hold_together
from site_builder.quantity import Bounds, same_dimensions


def past_the_machine(analysis: Analysis) -> Iterator[Found]:
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


PAST_THE_MACHINE = Rule(
    "past-the-machine", Level.ERROR, "A setting that its machine cannot reach or must not pass.",
    "Either the machine will be asked for more than it can give, or the page is wrong. Both hurt, and the first "
    "one flies.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
✓     settings: {belt speed: {is: 15..18 m/s, tool: belt-grinder}}
✗     settings: {belt speed: {is: ▸15..22 m/s, tool: belt-grinder}}
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {belt speed: 8..20 m/s}
""", past_the_machine,
)


def past_the_tooling(analysis: Analysis) -> Iterator[Found]:
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


PAST_THE_TOOLING = Rule(
    "past-the-tooling", Level.ERROR, "A setting that the tooling on the machine does not bear.",
    "A belt, a wheel or a mop that runs faster than it is rated for flies apart, and nobody outruns the pieces.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: [belt-grinder, belt-p80]
steps:
  - do: Sweep it along the belt.
✓     settings: {belt speed: 15..18 m/s}
✗     settings: {belt speed: ▸15..35 m/s}
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
properties: {rated speed: max 30 m/s}
""", past_the_tooling,
)


def past_the_material(analysis: Analysis) -> Iterator[Found]:
    cold = {over.pour.given.at for over, _ in too_cold(analysis)}
    for setting in settings_of(analysis):
        # A pour under the liquidus, and the heat of a mould, have rules of their own.
        if setting.written.at in cold or setting.name in MOULD_HEAT:
            continue
        bears = [(id_, borne(analysis, id_, setting.name, setting.holds))
                 for id_ in materials_at(analysis, setting.place, setting.outer)]
        failed = past(setting.found, [figures for _, one in bears for figures in one])
        if failed is not None:
            id_ = next(id_ for id_, one in bears if one)
            yield _found(analysis, setting, id_, told(failed))


def _found(analysis: Analysis, setting: Setting, id_: str, bears: str) -> Found:
    title = analysis.notebook.materials[id_].title
    return Found(
        setting.written.at,
        f"`{setting.written}` does not keep the {setting.name} of “{title}”, which is {bears}.",
        "Put right the setting or the property; with several materials write the setting `by: material`.",
        setting.place.owner_id,
    )


PAST_THE_MATERIAL = Rule(
    "past-the-material", Level.ERROR, "A setting that the material does not bear.",
    "Too cold the metal freezes before the mould is full, too hot it burns; paint laid on too thick never hardens.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps:
  - do: Pour in one stream.
✓     settings: {casting temperature: aim 505 °C; min 490; max 520}
✗     settings: {casting temperature: ▸aim 505 °C; min 490; max 560}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C, casting temperature: 490..520 °C}
""", past_the_material,
)


def sum_past(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for limit, written, place, whole, parts in sums(analysis):
        # With variants or rows among the parts their widest span says too much.
        if limit.note or any(held.varies(hits) for _, _, hits in held.parts(limit)):
            continue
        low, high = ends(parts)
        if low is None or high is None or (whole.high is not None and low > whole.high):
            continue
        past = []
        if whole.low is not None and low < whole.low <= high:
            past.append(f"{shown(whole, low)} at least")
        if whole.high is not None and high > whole.high:
            past.append(f"{shown(whole, high)} at most")
        if past:
            yield Found(
                written.at, f"The parts within their own limits come to {' and '.join(past)}; wanted is `{written}`.",
                "Make the limits of a part narrower, widen that of the sum, or say in `note` how they are matched.",
                place.owner_id,
            )


SUM_PAST = Rule(
    "sum-past", Level.WARNING, "Parts, each within its limits, whose sum may still be refused.",
    "Every piece passes every check on the way, and the last one condemns it. Somebody is left to make them meet.",
    """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - id: prime
    do: Spray the primer.
    limits: {primer: 15..25 µm}
  - id: paint
    do: Spray the enamel.
    limits: {enamel: 25..35 µm}
limits:
✓   whole film: {is: 40..60 µm, sum: [prime/primer, paint/enamel]}
✗   whole film: {is: ▸45..60 µm, sum: [prime/primer, paint/enamel]}
""", sum_past,
)
