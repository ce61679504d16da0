from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.cases import Case, cases, meeting
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.things import Material
from site_builder.quantity import same_dimensions

_FAR = 2
"""Cold and warm rooms ask for more and less of a hardener; twice as much is another mix: common practice."""


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, own in nb.procedures.items():
        for made in own.makes:
            material = nb.materials.get(str(made))
            if material is not None and len(material.composition) > 1:
                yield from _mixed(analysis, id_, own, material)


def _mixed(analysis: Analysis, id_: str, own: Procedure, material: Material) -> Iterator[Found]:
    parts: dict[str, Fraction] = {}
    for part, amount in material.composition.items():
        figures = reckoning(analysis).bounds(amount)
        middle = None if figures is None else ends(figures)
        if middle is not None and middle[0] is not None and middle[1] is not None and middle[0] > 0:
            parts[str(part)] = (middle[0] + middle[1]) / 2
    if len(parts) < len(material.composition):
        return
    base = max(parts, key=lambda name: parts[name])
    written = _settings(own)
    for name, limits in written.items():
        if name not in parts or name == base:
            continue
        meant = parts[name] / parts[base]
        for one in cases(analysis, limits):
            share = _share(analysis, one, written.get(base, ()))
            if share is not None and not meant / _FAR < share < meant * _FAR:
                told = {str(key): str(amount) for key, amount in material.composition.items()}
                yield Found(
                    one.written.at, f"`{one.written}` of {name} does not go with the composition of "
                    f"“{material.title}”: {told[name]} to {told[base]} of {base}.",
                    "Put right the amount here, or the composition of the material.", id_,
                )


def _settings(own: Procedure) -> dict[str, tuple[Limit, ...]]:
    return {str(name): limits for work in (own, *own.steps) for name, limits in work.settings.items()}


def _share(analysis: Analysis, one: Case, base: tuple[Limit, ...]) -> Fraction | None:
    """How much of it goes to one part of the base: as a share of it, or by both amounts."""
    if one.low is None or one.high is None:
        return None
    middle = (one.low + one.high) / 2
    if one.found.kind == "ratio":
        return middle
    others = meeting(cases(analysis, base), one.condition)
    if len(others) != 1 or not same_dimensions(others[0].found.unit, one.found.unit):
        return None
    low, high = others[0].low, others[0].high
    return None if low is None or high is None or low + high <= 0 else 2 * middle / (low + high)


RULE = Rule(
    code="mix-off",
    level=Level.WARNING,
    summary="A mix that is weighed out otherwise than its composition says.",
    reason="Twice the hardener sets on the spatula, half of it never; one of the two figures is wrong.",
    passes="""\
=== tools/materials/filler.yml
material: filler
title: Filler
composition: {paste: 100 parts by weight, hardener: 2 parts by weight}
=== procedures/shared/mix-filler.yml
procedure: mix-filler
title: Mix the filler
makes: filler
steps: {do: Weigh both., settings: {paste: 50 g, hardener: 1 g}}
""",
    fails="""\
=== tools/materials/filler.yml
material: filler
title: Filler
composition: {paste: 100 parts by weight, hardener: 2 parts by weight}
=== procedures/shared/mix-filler.yml
procedure: mix-filler
title: Mix the filler
makes: filler
steps: {do: Weigh both., settings: {paste: 50 g, hardener: ▸10 g}}
""",
    check=check,
)
