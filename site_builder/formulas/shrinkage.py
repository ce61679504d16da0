"""How much larger than the part its mould must be, and how much a mould grows when it is hot."""

from __future__ import annotations

from site_builder.formulas import guards


def mould_size(part: float, shrinkage: float) -> float:
    """Size (m) to cut a mould or pattern, for a wanted size of the cold part (m).

    ``shrinkage`` is the allowance as a share of the part, as data sheets (0.007 in/in) and shrink rules (1/8 in
    to the foot) give it. A stiff mould or core holds long sizes back, so the allowance is smaller on those.
    Raises ``Impossible`` for a size of nothing or an allowance under 0.

    Source: die shrinkage as in NADCA product standards; patternmaker's contraction rule.
    """
    guards.above_zero("part size", "m", part)
    return part * (1 + guards.lost_share("shrinkage", shrinkage))


def part_size(mould: float, shrinkage: float) -> float:
    """Size (m) of the cold part out of a mould of that size (m): the way back of ``mould_size``.

    Raises ``Impossible`` for a size of nothing or an allowance under 0. Source: as ``mould_size``.
    """
    guards.above_zero("mould size", "m", mould)
    return mould / (1 + guards.lost_share("shrinkage", shrinkage))


def shrinkage_found(mould: float, part: float) -> float:
    """The allowance, as a share of the part, that a trial casting shows: mould and part measured cold (m).

    Raises ``Impossible`` for a size of nothing and for a part larger than its mould. Source: as ``mould_size``.
    """
    guards.above_zero("part size", "m", part)
    return guards.at_least("mould size", "m", mould, part, "part size") / part - 1


def hot_size(size: float, expansion: float, cold: float, hot: float) -> float:
    """Size (m) at temperature ``hot`` (°C) of what measures ``size`` (m) at ``cold`` (°C).

    ``expansion`` is the linear coefficient per kelvin of what the thing is made of, taken as the same over the
    range. Raises ``Impossible`` for a size of nothing, a coefficient under 0 or a temperature under absolute zero.

    Source: linear thermal expansion, any physics text.
    """
    guards.above_zero("size", "m", size)
    guards.not_negative("expansion", "1/K", expansion)
    return size * (1 + expansion * (guards.temperature("hot", hot) - guards.temperature("cold", cold)))
