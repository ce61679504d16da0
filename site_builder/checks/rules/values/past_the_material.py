from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import Setting, borne, past, settings_of, told
from site_builder.figures.metals import materials_at
from site_builder.figures.moulds import MOULD_HEAT
from site_builder.figures.pouring import too_cold
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="past-the-material",
    level=Level.ERROR,
    summary="A setting that the material does not bear.",
    reason=(
        "Too cold the metal freezes before the mould is full, too hot it burns; paint laid on too thick "
        "never hardens."
    ),
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps:
  - do: Pour in one stream.
    settings: {casting temperature: aim 505 °C; min 490; max 520}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C, casting temperature: 490..520 °C}
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps:
  - do: Pour in one stream.
    settings: {casting temperature: ▸aim 505 °C; min 490; max 560}
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
properties: {liquidus: 432 °C, casting temperature: 490..520 °C}
""",
    check=check,
)
