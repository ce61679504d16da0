"""What a key that cannot stand here was meant for."""

from __future__ import annotations

from collections.abc import Mapping, Set

from site_builder.notebook.nearest import nearest

# What people write, and what may be meant, the likeliest first; only what can stand there is told.
_MEANT: Mapping[str, tuple[str, ...]] = {
    "why": ("because",), "reason": ("because",), "photo": ("pictures",), "photos": ("pictures",),
    "image": ("pictures",), "images": ("pictures",), "video": ("pictures",), "drawing": ("pictures",),
    "tolerance": ("limits", "is"), "tolerances": ("limits",), "sizes": ("limits",), "size": ("limits", "sizes"),
    "dimensions": ("limits", "sizes"), "measure": ("limits",), "duration": ("time",), "minutes": ("time",),
    "danger": ("hazards", "hazard"), "dangers": ("hazards",), "risk": ("hazards", "hazard"), "ppe": ("wear", "hazards"),
    "equipment": ("tools",), "machine": ("tools", "tool"), "machines": ("tools",), "gauge": ("with", "tools"),
    "before": ("after",), "prerequisites": ("after", "needs"), "description": ("note",), "comment": ("note",),
    "remark": ("note",), "name": ("title", "name"), "people": ("hands",), "persons": ("hands",),
    "tip": ("points",), "tips": ("points",), "trick": ("points",), "problem": ("troubles",), "problems": ("troubles",),
    "fault": ("troubles",), "faults": ("troubles",), "forbidden": ("never",), "material": ("materials",),
    "tool": ("tools",), "value": ("is",), "how often": ("when",), "frequency": ("when",), "birthday": ("born",),
    "vendor": ("supplier",), "shop": ("supplier",), "price": ("note",), "cost": ("note",),
    "quantity": ("pieces", "amount"), "number": ("pieces", "count"),
    "colour": ("properties", "limits"), "color": ("properties", "limits"),
    "temperature": ("settings", "properties"), "speed": ("settings", "properties"), "noise": ("properties",),
    "vibration": ("properties",), "power": ("properties",), "mass": ("properties", "sizes"),
    "weight": ("properties", "sizes", "limits"), "capacity": ("properties",), "density": ("properties",),
    "humidity": ("conditions",), "weather": ("conditions",),
}  # fmt: skip
# Under these the word itself is a name: `properties: {noise: 84 dB(A)}`.
_NAMES_BELOW = frozenset(("properties", "settings", "limits", "conditions", "sizes"))
# What any mapping may carry; and how many others are named where nothing like the key can stand.
_ON_ANY = frozenset(("because", "for", "source", "note", "told", "asked"))
_FEW = 8
_OWN_NAME = frozenset(_MEANT) - {"tolerance", "tolerances", "sizes", "size", "dimensions", "measure"}
_BELONGS: Mapping[str, str] = {
    "age": "a skill or a tool", "refresh": "a skill", "proof": "a skill", "checklist": "a skill", "covers": "a skill",
    "needs": "a skill", "upkeep": "a tool or a material", "calibration": "a gauge",
    "supplier": "a tool, a material or a part", "maker": "a tool or a material",
    "properties": "a tool or a material", "sheet": "a material",
    "composition": "a material", "calendar": "the shop or an order", "sizes": "a part",
    "yield": "a procedure or a step", "pot life": "`properties` of a material",
}  # fmt: skip


def meant_key(key: str, known: Set[str]) -> str:
    """What to do with a key that cannot stand beside these others that can."""
    low = key.lower().replace("_", " ")
    for word in (low.replace(" ", "-"), low):
        if word in known:
            return f"Did you mean `{word}`?"
    for meant in _MEANT.get(low, ()):
        if meant in known:
            if meant in _NAMES_BELOW and low in _OWN_NAME:
                return f"Write it under `{meant}`, as a name with its value: `{meant}: {{{low}: …}}`."
            return f"Did you mean `{meant}`?"
    near = nearest(low, sorted(set(known) - {"told"})) or nearest(low, sorted(known))  # `tol` is rather a tool
    if near:
        return f"Did you mean `{near}`?"
    if low in _BELONGS:
        return f"It belongs to {_BELONGS[low]}."
    own = sorted(known - _ON_ANY)
    if own and len(own) <= _FEW:
        here = " or ".join(f"`{name}`" for name in own)
        return f"Only {here} can stand here. " + ("All else goes under `note`." if "note" in known else "Take it away.")
    return "Say it under `note`, or take it away." if "note" in known else "Take it away."
