"""What a batch uses up: material by the piece, and parts that wear out."""

from __future__ import annotations

from math import ceil, floor

from site_builder.formulas import guards

_ROUNDING = 1e-9


def material_used(pieces: float, each: float, once: float = 0.0, lost: float = 0.0) -> float:
    """Amount of material for ``pieces``: ``each`` per piece and ``once`` for the lot, in the unit they are given in.

    ``lost`` is the share (0 to below 1) of what is taken that never reaches the work: overspray, cut-offs, what
    stays in the cup. Raises ``Impossible`` for amounts under 0 or a share that leaves nothing. Source: standard
    quantity = design quantity / (1 - scrap), Microsoft and QAD manuals; some add the share on top instead.
    """
    guards.not_negative("pieces", "", pieces)
    net = pieces * guards.not_negative("amount each", "", each) + guards.not_negative("amount once", "", once)
    return net / (1 - guards.lost_share("share lost", lost))


def fresh_ones(work: float, life: float, worn: float = 0.0) -> int:
    """How many new belts, wheels or fillings are begun during ``work``, when each lasts ``life``.

    Work, life and ``worn`` in one unit: pieces, hours, loads. ``worn`` is what the one in use has already done; it
    is used to its end first. One is begun only when there is work left for it. Raises ``Impossible`` for work or
    wear under 0, a life of nothing, or one worn beyond its life. Source: common practice; service intervals.
    """
    guards.above_zero("life", "", life)
    guards.at_least("life", "", life, guards.not_negative("wear", "", worn), "wear of the one in use")
    over = guards.not_negative("work", "", work) - (life - worn)
    return max(ceil(over / life - _ROUNDING), 0)


def pieces_per_life(life: float, each: float) -> int:
    """Whole pieces one belt, wheel or edge does before it must be changed: a piece begun is finished with it.

    ``life`` and ``each`` in one unit of time or amount. Raises ``Impossible`` for a life under 0, or pieces that
    take nothing. Source: pieces between tool changes, rounded down, Groover, Fundamentals of Modern
    Manufacturing, machining economics.
    """
    return floor(guards.not_negative("life", "", life) / guards.above_zero("use each piece", "", each) + _ROUNDING)


def packs_to_buy(amount: float, pack: float, in_stock: float = 0.0) -> int:
    """Whole tins, rolls or boxes to buy for ``amount``, when some is in stock; all in one unit.

    Raises ``Impossible`` for amounts under 0 or an empty pack. Source: rounding up, common practice.
    """
    guards.above_zero("pack", "", pack)
    missing = guards.not_negative("amount", "", amount) - guards.not_negative("stock", "", in_stock)
    return max(ceil(missing / pack - _ROUNDING), 0)
