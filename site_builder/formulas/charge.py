"""Charge make-up: from what is there to the composition that is wanted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible


@dataclass(frozen=True, slots=True)
class MakeUp:
    """Kilograms of each thing in a charge."""

    ingot: float
    returns: float
    addition: float


def blend(charges: Sequence[tuple[float, float]]) -> float:
    """Share of one element in what comes out when several charges are melted together.

    Each charge is its mass (kg) and its share of the element (0 to 1). Raises ``Impossible`` for no charge at all,
    masses under 0 or all 0, or shares outside 0 to 1. Source: mass balance.
    """
    guards.some("charges", "kg", charges)
    total = sum(guards.not_negative("mass of a charge", "kg", mass) for mass, _ in charges)
    guards.above_zero("mass of all charges", "kg", total)
    return sum(mass * guards.share("content of a charge", content) for mass, content in charges) / total


def addition(bath: float, present: float, wanted: float, content: float, recovery: float = 1.0) -> float:
    """Kilograms to add to ``bath`` kg of metal to bring an element from share ``present`` to ``wanted``.

    ``content`` is the element's share in what is added: an alloying metal to raise it, a poorer metal to lower it.
    ``recovery`` is the share of the added element that stays in the bath (1: none burns off); what burns off weighs
    nothing in the bath either. Raises
    ``Impossible`` where no amount does it. Source: mass balance, as goldsmiths' raising and lowering tables.
    """
    guards.above_zero("bath", "kg", bath)
    guards.share("present content", present)
    guards.share("wanted content", wanted)
    arrives = guards.share("content of the addition", content) * guards.kept_share("recovery", recovery)
    if present == wanted:
        return 0.0
    # what burns off is in the melt no more, neither as the element nor as its weight
    gains = arrives - wanted * (1 - content + arrives)
    added = bath * (wanted - present) / gains if gains else -1.0
    if added < 0:
        raise Impossible(
            "content of the addition", "share", content, "must lie beyond what is wanted, after what burns off"
        )
    return added


def make_up(
    total: float, wanted: float, *, ingot: float, returns: float, returns_mass: float, addition: float
) -> MakeUp:
    """Ingot and addition that with ``returns_mass`` kg of returns give ``total`` kg with the share ``wanted``.

    ``ingot``, ``returns`` and ``addition`` are the shares of the element in each. Raises ``Impossible`` where one
    would be needed in a negative amount: then take less of the returns or another addition.
    Source: mass balance; two equations, total mass and mass of the element.
    """
    guards.above_zero("total", "kg", total)
    guards.share("wanted content", wanted)
    for what, content in (("ingot", ingot), ("returns", returns), ("addition", addition)):
        guards.share(f"content of the {what}", content)
    guards.not_negative("returns", "kg", returns_mass)
    guards.at_least("total", "kg", total, returns_mass, "returns")
    rest = total - returns_mass
    missing = wanted * total - returns * returns_mass - ingot * rest
    beyond = Impossible("wanted content", "share", wanted, "must be within reach of this ingot, returns and addition")
    slack = 1e-9 * total
    if ingot == addition and abs(missing) > slack:
        raise beyond
    added = missing / (addition - ingot) if addition != ingot else 0.0
    if not -slack <= added <= rest + slack:
        raise beyond
    added = min(max(added, 0.0), rest)
    return MakeUp(rest - added, returns_mass, added)
