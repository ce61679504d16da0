from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.cases import cases
from site_builder.checks.rules.values.bearing import borne
from site_builder.checks.rules.values.sums import shown
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit

_LISTS = ("conditions", "settings", "limits", "state")
_PIECE = ("piece", "work", "blank", "workpiece")


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for limit, place in analysis.index.of(Limit):
        own, name = place.procedure, str(place.name or "").lower()
        if own is None or place.key not in _LISTS or not name.startswith(("heat of ", "temperature of ")):
            continue
        for part_id in nb.parts_of(own):
            part = nb.parts.get(part_id)
            of_it = name.rpartition(" of ")[2].removeprefix("the ")
            if part is None or len(part.material) != 1 or of_it.rstrip("s") not in (
                part_id, str(part.title).lower(), *_PIECE
            ):
                continue
            melts = borne(analysis, str(part.material[0]), "solidus") or borne(
                analysis, str(part.material[0]), "melting point"
            )
            start = melts[0].aim_low or melts[0].low if len(melts) == 1 else None
            for one in cases(analysis, (limit,)):
                told = [figure for figure in (one.low, one.high, one.found.aim_high) if figure is not None]
                if start is not None and one.found.kind == "temperature" and told and max(told) >= start:
                    yield Found(
                        one.written.at, f"At `{one.written}` “{part.title}” melts: its material begins to at "
                        f"{shown(melts[0], start)}.",
                        "Put right the heat and its unit, or the `solidus` of the material.", place.owner_id,
                    )


RULE = Rule(
    code="heat-melts",
    level=Level.ERROR,
    summary="A piece that is to be so hot that its metal melts.",
    reason="Most often it is °F where °C is written; at the hearth the piece is lost, and it may run on to the feet.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {hood: {title: Hood, material: brass}}
=== procedures/hood/anneal-hood.yml
procedure: anneal-hood
title: Anneal the hood
part: hood
steps: {do: Heat it., settings: {heat of the hood: 500..600 °C}}
=== tools/materials/brass.yml
material: brass
title: Brass
properties: {solidus: 902 °C}
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {hood: {title: Hood, material: brass}}
=== procedures/hood/anneal-hood.yml
procedure: anneal-hood
title: Anneal the hood
part: hood
steps: {do: Heat it., settings: {heat of the hood: ▸900..1100 °C}}
=== tools/materials/brass.yml
material: brass
title: Brass
properties: {solidus: 902 °C}
""",
    check=check,
)
