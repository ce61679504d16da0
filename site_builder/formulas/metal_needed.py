"""Metal for a batch: what is poured, melted, comes back, and must be bought."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.formulas import guards


@dataclass(frozen=True, slots=True)
class MetalNeeded:
    """Kilograms for a batch: ``poured`` into moulds, ``melted`` in the pot, ``returns`` that go back into it, and
    ``new`` metal, which is what was melted less the returns; ``castings`` is how many are poured."""

    castings: float
    poured: float
    melted: float
    returns: float
    new: float


def part_mass(volume: float, density: float) -> float:
    """Kilograms of a part of so many m³ in metal of so many kg/m³. Raises ``Impossible`` for nothing of either.

    Source: definition of density.
    """
    return guards.above_zero("volume", "m³", volume) * guards.above_zero("density", "kg/m³", density)


def casting_yield(good: float, poured: float) -> float:
    """Share of the poured metal (kg) that is good castings (kg), 0 to 1.

    Raises ``Impossible`` for nothing poured or more good than poured. Source: foundry practice, e.g. ASM Handbook
    vol. 15, Casting.
    """
    guards.above_zero("poured metal", "kg", poured)
    return guards.not_negative("good castings", "kg", good) / guards.at_least(
        "poured metal", "kg", poured, good, "good castings"
    )


def metal_needed(
    good: float, part: float, gates: float = 0.0, scrap: float = 0.0, melt_loss: float = 0.0, kept: float = 1.0
) -> MetalNeeded:
    """Metal for ``good`` castings of ``part`` kg, each poured with ``gates`` kg of sprue, gates and risers.

    ``scrap`` is the share of castings that fail, on average; ``melt_loss`` the share of the charge lost as dross
    and fume; ``kept`` the share of gates and scrap that is clean enough to melt again. The returns of the batch
    count as if they went back into it. Raises ``Impossible`` for figures that are none.

    Source: mass balance; casting yield as in ``casting_yield``.
    """
    guards.above_zero("good castings", "count", good)
    guards.above_zero("part mass", "kg", part)
    guards.not_negative("gates", "kg", gates)
    castings = good / (1 - guards.lost_share("scrap", scrap))
    poured = castings * (part + gates)
    melted = poured / (1 - guards.lost_share("melt loss", melt_loss))
    returns = (poured - good * part) * guards.share("returns kept", kept)
    return MetalNeeded(castings, poured, melted, returns, melted - returns)
