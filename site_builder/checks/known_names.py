"""Names of values that mean the same in every notebook: what each must be, where it stands, what is told from it.

The one table of them: the rule on units reads it, and so does the page for writers.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

TIME = ("time", "working time")
_TEMPERATURE = ("temperature",)
_LENGTH = ("length",)
_RATIO = ("ratio",)
_LEVEL = ("sound level",)
_PRESSURE = ("pressure",)
_AREA = ("area",)
_TURNS = ("rotation speed",)
_IN_AIR = ("density", "ratio")


class KnownName(NamedTuple):
    """A name under `properties`, `settings`, `conditions`, `limits` or `sizes`."""

    name: str
    kinds: tuple[str, ...]
    """Of which kinds of ``quantity.units`` a value of this name must be; empty where the name has other uses too."""
    example: str
    """A value of it as a shop would write it."""
    where: str
    """Under which key of what it is looked for."""
    gives: str
    """What is told from it; empty where only its unit is checked."""


_MATERIAL, _METAL, _PAINT = "`properties` of the material", "`properties` of the metal", "`properties` of the paint"
_MACHINE, _WHEEL, _PART = "`properties` of the machine", "`properties` of the wheel or belt", "`sizes` of the part"
_SET, _CONDITION = "`settings` of the step or procedure", "`conditions` of the step or procedure"
_LIMIT, _LIFTED = "`limits` of the step or procedure", "`settings` or `conditions` beside the lift"

TOPICS: Mapping[str, tuple[KnownName, ...]] = {
    "Metal and mould": (
        KnownName("density", ("density",), "6.3 g/cm³", _MATERIAL,
                  "Mass of a part from its volume, litres of a paint."),
        KnownName("solidus", _TEMPERATURE, "375 °C", _METAL, ""),
        KnownName("liquidus", _TEMPERATURE, "404 °C", _METAL, "How far over it is poured; below it is an error."),
        KnownName("casting temperature", _TEMPERATURE, "440..480 °C", f"{_SET}, or {_METAL}",
                  "The superheat, how near zinc is to boiling, the heat to melt."),
        KnownName("pouring temperature", _TEMPERATURE, "440..480 °C", f"{_SET}, or {_METAL}",
                  "The same as the casting temperature."),
        KnownName("bath temperature", _TEMPERATURE, "450..480 °C", _SET, "How hot the metal is held."),
        KnownName("heat of the mould", _TEMPERATURE, "180..220 °C", f"{_CONDITION}, and `properties` of its coat",
                  "Whether the coat of the mould bears it."),
        KnownName("shrinkage", _RATIO, "about 1.1 %", _METAL, "How large the mould is cut, and what comes out of it."),
        KnownName("melt loss", _RATIO, "2 %", _METAL, "Metal to melt for a batch."),
        KnownName("returns in the pot", _RATIO, "max 50 %", _METAL, "What is charged to come to the composition."),
        KnownName("aluminium of the returns", _RATIO, "10.6 %", _METAL,
                  "The same; so for any other element of the composition."),
        KnownName("latent heat", ("energy per mass",), "about 110 kJ/kg", _METAL,
                  "The heat to melt a pot and a batch."),
        KnownName("specific heat", ("energy per mass per temperature difference",), "about 440 J/kg per K", _METAL,
                  "The heat to melt a pot and a batch."),
        KnownName("capacity", (), "max 40 kg", "`properties` of the furnace",
                  "How often the pot is filled for a batch."),
        KnownName("power", ("power",), "45 kW", _MACHINE, "The shortest time in which a pot can melt."),
        KnownName("mass", ("mass", "mass per count"), "1.05..1.15 kg", _PART, "Metal to melt for a batch."),
        KnownName("volume", ("volume",), "about 183 cm³", _PART, "Its mass; a mass that disagrees is a warning."),
        KnownName("tensile strength", _PRESSURE, "310..345 MPa", _METAL, "How deep a screw must go in."),
        KnownName("shear strength", _PRESSURE, "220 MPa", _METAL, "The same, and better."),
    ),
    "Wheels, belts and grits": (
        KnownName("wheel size", _LENGTH, "250 mm", _WHEEL, "Surface speed from the turns of the spindle."),
        KnownName("least size", _LENGTH, "200 mm", _WHEEL, "The surface speed when it is worn down."),
        KnownName("rated speed", ("speed", "rotation speed", "frequency"),
                  "max 2900 rev/min", f"{_WHEEL} or the machine",
                  "What is left to it; over it is an error."),
        KnownName("spindle speed", _TURNS, "2000..2300 rev/min", _SET,
                  "Surface speed, and the band that is recommended."),
        KnownName("surface speed", ("speed",), "30..35 m/s", _SET, "The turns of the spindle for it."),
        KnownName("belt speed", ("speed",), "17..19 m/s", _SET, "The same, for a belt."),
        KnownName("drive wheel", _LENGTH, "240 mm", _MACHINE, "How fast the motor drives a belt."),
        KnownName("motor speed", _TURNS, "1430 rev/min", _MACHINE, "The same."),
        KnownName("grit", (), "P180", f"{_SET}, or of the tool",
                  "Whether each grit takes out the scratches before it."),
    ),
    "Spinning": (
        KnownName("disc", (), "310 ±0.5 mm", _PART, "Whether it has as much surface as the shell; so with `blank`."),
        KnownName("shape", (), "cone", _PART,
                  "What is spun: a cup, a cone or a cap, with `mouth` or `rim` and `height`."),
        KnownName("profile", (), "outline in mm 0/128 33/128 98/0", _PART,
                  "The same for any shape: radius and height of each point, with `through` before one on an arc."),
        KnownName("trim", _LENGTH, "about 12 mm", _PART, "What the disc has over for trimming the rim."),
        KnownName("reduction between anneals", _RATIO, "50 %", _METAL, "Where annealing is due."),
        KnownName("first reduction", _RATIO, "45 %", _METAL, "How many draws it takes."),
        KnownName("later reduction", _RATIO, "25 %", _METAL, "The same."),
        KnownName("sheet length", _LENGTH, "2000 mm", _METAL, "How many discs come out of a sheet."),
        KnownName("sheet width", _LENGTH, "1000 mm", _METAL, "The same."),
        KnownName("gap between discs", _LENGTH, "10 mm", _SET, "The same, and what is wasted."),
    ),
    "Plating": (
        KnownName("metal", (), "nickel", _SET, "What the current lays down; gold as `gold I` or `gold III`."),
        KnownName("current density", ("current density",), "3 A/dm²", _SET,
                  "The thickness that comes, by Faraday's law."),
        KnownName("time in the bath", TIME, "20 min", _SET, "The same."),
        KnownName("current efficiency", _RATIO, "95 %", _SET, "The same."),
        KnownName("nickel", (), "min 15 µm", _LIMIT,
                  "Whether it was reached, when it is measured. So with every metal: a name that begins with it."),
        KnownName("class of the coating", (), "class 2 of JIS H 8617 on zinc", _LIMIT,
                  "The least thickness of its class, against what is ordered."),
        KnownName("plated area", _AREA, "180 cm²", _PART, "Grams of metal on a piece and on a batch."),
    ),
    "Paint, glue and filler": (
        KnownName("volume solids", _RATIO, "48 %", _PAINT, "The wet film that leaves the dry one that is asked for."),
        KnownName("dry film", _LENGTH, "25..35 µm", _LIMIT, "The wet film, and what a litre covers."),
        KnownName("wet film", _LENGTH, "52..73 µm", _SET, "A film that cannot leave the dry one is a warning."),
        KnownName("thinner", (), "10 %", _SET, "Solids left in what is sprayed."),
        KnownName("loss", (), "40 %", f"{_SET}, or {_PAINT}", "Litres for a batch, with what misses the piece."),
        KnownName("painted area", _AREA, "420 cm²", _PART, "Litres for a piece and for a batch."),
        KnownName("spreading rate", ("coverage", "area per mass", "area per volume"), "8 m²/L", _PAINT, ""),
        KnownName("pot life", TIME, "about 5 min", _MATERIAL, "How many pieces a mix covers before it goes off."),
        KnownName("room temperature", _TEMPERATURE, "12..28 °C", _CONDITION, "The same, warmer or colder."),
        KnownName("recoat", TIME, "min 12 h; max 7 d", _PAINT,
                  "When on a working day a coat may be finished, where a `wait` or window names it."),
        KnownName("open time", TIME, "about 10 min", _MATERIAL, ""),
        KnownName("shelf life", TIME, "24 mo", _MATERIAL, ""),
        KnownName("shelf life after opening", TIME, "6 mo", _MATERIAL, ""),
        KnownName("flash point", _TEMPERATURE, "38 °C", _MATERIAL, ""),
        KnownName("humidity", _IN_AIR, "max 70 %", _CONDITION, ""),
    ),
    "Screws": (
        KnownName("torque", ("torque",), "1.8 N·m", _SET, "The pull of the screw."),
        KnownName("thread", (), "M4", "`sizes` of the screw",
                  "The same. Fine as `M8x1`; in inches as `1/4-20` or `No. 10-32 UNF`, and in quotes after `#`."),
        KnownName("thread engagement", _LENGTH, "min 8 mm", f"{_LIMIT}, or {_PART}",
                  "Whether the thread holds the pull."),
    ),
    "People": (
        KnownName("noise", _LEVEL, "about 92 dB(A)", _MACHINE, "The dose of a day by both rules, and when it is full."),
        KnownName("vibration", ("acceleration",), "about 2.1 m/s²", _MACHINE, "A(8), points, and the time left."),
        KnownName("running time", TIME, "2 min", _SET, "For how much of the work the machine runs."),
        KnownName("NRR", _LEVEL, "25 dB", "`properties` of the protection", "What to count on of it at the ear."),
        KnownName("SNR", _LEVEL, "27 dB", "`properties` of the protection", "The same."),
        KnownName("attenuation", _LEVEL, "24 dB", "`properties` of the protection", "The same."),
        KnownName("exposure limit", _IN_AIR, "5 mg/m³", _MATERIAL, "What the air may hold; only measuring tells."),
        KnownName("measured in the air", _IN_AIR, "2 mg/m³", _CONDITION, "How near the air is to its limit."),
        KnownName("lift", ("mass",), "about 11 kg", _LIFTED, "The lifting index."),
        KnownName("reach", _LENGTH, "about 40 cm", _LIFTED, "The same: from the ankles to the hands."),
        KnownName("height", (), "from 20 to 80 cm", _LIFTED, "The same: of the hands, from where to where."),
        KnownName("twist", (), "30 ° angle", _LIFTED, "The same: of the body."),
        KnownName("time between lifts", TIME, "about 5 min", _LIFTED, "The same."),
    ),
}
"""Known names by the part of the trade they belong to."""
