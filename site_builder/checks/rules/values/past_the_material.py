from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import CAST, Setting, borne, chosen, past, settings_of, told
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import Bounds


def check(survey: Survey) -> Iterator[Found]:
    for setting in settings_of(survey):
        materials = _materials(survey, setting)
        bears = [(id_, borne(survey, id_, setting.name)) for id_ in materials]
        known = [figures for _, one in bears for figures in one]
        failed = past(setting.found, known)
        if failed is not None:
            id_ = next(id_ for id_, one in bears if one)
            yield _found(survey, setting, id_, f"the {setting.name} of", told(failed))
        elif setting.name in CAST:
            melting = [(id_, borne(survey, id_, "liquidus")) for id_ in materials]
            least = [(_least(one), id_) for id_, one in melting if one]
            figure = setting.found.low if setting.found.low is not None else setting.found.aim_low
            if least and figure is not None and all(low is not None and figure < low for low, _ in least):
                id_ = least[0][1]
                yield _found(survey, setting, id_, "the liquidus of", told(borne(survey, id_, "liquidus")[0]))


def _least(found: list[Bounds]) -> Fraction | None:
    figures = [one.low if one.limited else one.aim_low for one in found]
    return min((one for one in figures if one is not None), default=None)


def _found(survey: Survey, setting: Setting, id_: str, what: str, bears: str) -> Found:
    title = survey.notebook.materials[id_].title
    return Found(
        setting.written.at, f"`{setting.written}` does not keep {what} “{title}”, which is {bears}.",
        "Put right the setting or the property; with several materials write the setting `by: material`.",
        setting.place.owner_id,
    )


def _materials(survey: Survey, setting: Setting) -> list[str]:
    """The materials in hand: those its row or its `for` names, else of the step, the procedure, the part."""
    nb = survey.notebook
    told_for = chosen(setting, "material")
    if told_for:
        return [id_ for id_ in sorted(told_for) if id_ in nb.materials]
    for work in setting.works:
        used = [str(use.material) for use in work.materials if str(use.material) in nb.materials]
        if used:
            return used
    own = setting.place.procedure
    parts = nb.parts_of(own) if own is not None else ()
    return [str(m) for part in parts if part in nb.parts for m in nb.parts[part].material if m in nb.materials]


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
