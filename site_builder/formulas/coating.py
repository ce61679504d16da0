"""Paint: from the wet coat to the dry, and litres for a batch.

``solids`` is the share of the paint's volume that stays; ``thinner`` the volume added for each volume of paint.
"""

from __future__ import annotations

from site_builder.formulas import guards


def dry_film(wet: float, solids: float, thinner: float = 0.0) -> float:
    """Metres of dry film that a wet coat of ``wet`` metres leaves.

    Raises ``Impossible`` for a coat under 0, solids outside 0 to 1, or thinner under 0.
    Source: SSPC-PA 2 and paint makers: wet × solids / (1 + thinner).
    """
    return guards.not_negative("wet film", "m", wet) * _thinned(solids, thinner)


def wet_film(dry: float, solids: float, thinner: float = 0.0) -> float:
    """Metres of wet coat to lay on so that ``dry`` metres stay: what the comb must read.

    Raises ``Impossible`` as ``dry_film``. Source: as ``dry_film``.
    """
    return guards.not_negative("dry film", "m", dry) / _thinned(solids, thinner)


def spreading_rate(dry: float, solids: float, loss: float = 0.0) -> float:
    """m² that a m³ of paint covers at ``dry`` metres of film; divided by 1000 it is m² a litre.

    ``loss`` is the share that misses the work or stays in pot and gun; with none it is the rate on the can.
    Raises ``Impossible`` for no film, solids outside 0 to 1, or a loss of everything.
    Source: paint makers, 10 × per cent solids / micrometres; practical rate = theoretical × (1 - loss).
    """
    guards.above_zero("dry film", "m", dry)
    return guards.kept_share("volume solids", solids) / dry * (1 - guards.lost_share("loss", loss))


def paint_needed(area: float, dry: float, solids: float, loss: float = 0.0, coats: int = 1) -> float:
    """m³ of paint for an area (m²), each coat leaving ``dry`` metres; times 1000 it is litres. Thinner not counted.

    Raises ``Impossible`` as ``spreading_rate``, and for less than one coat. Source: as ``spreading_rate``.
    """
    guards.not_negative("area", "m²", area)
    return area * guards.whole("coats", coats, 1) / spreading_rate(dry, solids, loss)


def _thinned(solids: float, thinner: float) -> float:
    """Share of solids in paint that is thinned."""
    return guards.kept_share("volume solids", solids) / (1 + guards.not_negative("thinner", "share", thinner))
