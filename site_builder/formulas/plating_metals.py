"""Metals that are plated: molar mass, density, and the valences they are plated from."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible


@dataclass(frozen=True, slots=True)
class PlatingMetal:
    """A metal as it comes out of one kind of bath: kg/mol, kg/m³, and electrons for each atom.

    Raises ``Impossible`` for a metal without mass, density or valence.
    """

    name: str
    molar_mass: float
    density: float
    valence: int

    def __post_init__(self) -> None:
        guards.above_zero("molar mass", "kg/mol", self.molar_mass)
        guards.above_zero("density", "kg/m³", self.density)
        guards.whole("valence", self.valence, 1, 8)


# g/mol, g/cm³, valences. Copper, silver, nickel, gold and zinc as calculatorhub tables them; the others as
# MISUMI's table of theoretical precipitation, valences of gold, tin, chromium and the platinum metals with it.
# Rhodium of the common sulphate and phosphate baths is 3; that, cadmium and platinum from memory.
_METALS: dict[str, tuple[float, float, tuple[int, ...]]] = {
    "zinc": (65.38, 7.13, (2,)),
    "copper": (63.546, 8.96, (1, 2)),
    "nickel": (58.693, 8.91, (2,)),
    "chromium": (52.0, 7.1, (3, 6)),
    "silver": (107.868, 10.49, (1,)),
    "gold": (196.967, 19.32, (1, 3)),
    "tin": (118.7, 7.3, (2, 4)),
    "cobalt": (58.93, 8.9, (2,)),
    "iron": (55.85, 7.9, (2,)),
    "lead": (207.2, 11.3, (2,)),
    "palladium": (106.4, 12.0, (2, 4)),
    "rhodium": (102.9, 12.5, (2, 3, 4)),
    "cadmium": (112.41, 8.65, (2,)),
    "platinum": (195.08, 21.45, (2, 4)),
}


def plating_metal(name: str, valence: int | None = None) -> PlatingMetal:
    """The metal, plated from that valence; where it is plated from one only, the valence may be left off.

    It must be said for gold: a cyanide bath (1) puts down three times as much for the same current as one of
    valence 3. Raises ``Impossible`` for a metal that is not in the table, a valence it is not plated from, or one
    that is not said where there are several. Source: named beside the table.
    """
    if name not in _METALS:
        raise Impossible("metal", "", name, f"must be one of {', '.join(sorted(_METALS))}")
    grams, density, valences = _METALS[name]
    if valence is None and len(valences) == 1:
        valence = valences[0]
    if valence not in valences:
        said = "none" if valence is None else valence
        raise Impossible(f"valence of {name}", "", said, f"must be {' or '.join(map(str, valences))}")
    return PlatingMetal(name, grams / 1000, density * 1000, valence)
