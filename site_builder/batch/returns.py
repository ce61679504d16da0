"""What of a material goes back and is used again: gates, castings that failed, pieces thrown back while warming up."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction

from site_builder.batch.amounts import amount_of
from site_builder.batch.batch import LegSpent
from site_builder.batch.span import NONE, Span, written_span
from site_builder.batch.taken import Taken
from site_builder.batch.variant import holding, works_holding
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.tree import Text
from site_builder.quantity import Unit, same_dimensions

POURED = ("casting temperature", "pouring temperature")
"""Settings and properties that tell how hot metal goes into the mould."""
HELD = ("bath temperature", *POURED)
"""Settings that tell how hot metal is kept."""
MELT_LOSS = "melt loss"
_ALL = Fraction(1)


def with_returns(nb: Notebook, taken: Taken, unit: Unit, spent: LegSpent, chosen: Mapping[str, str]) -> Taken:
    """The same with what goes back, where the procedure tells `returns` and this is what its part is made of.

    Of each piece the told share goes back; pieces that are lost here, and those thrown back while warming up, go back
    whole. What burns off in the pot is taken on top. Source: mass balance, as ``formulas.metal_needed``.
    """
    own = spent.leg.procedure
    amount = amount_of(taken.use.amount)
    if amount is None or amount.noun != "piece" or not _is_of_the_part(nb, own, str(taken.use.material)):
        return taken
    for told in holding(own.yield_, chosen):
        share = _share(told.returns, Span(amount.span.least, amount.span.most), unit)
        if told.returns is None or share is None or not 0 <= share.least <= share.most <= 1:
            continue
        thrown = _thrown(spent)
        good = max(spent.pieces - thrown, Fraction(0)) * (1 - (spent.leg.scrap or Fraction(0)))
        kept = good / spent.pieces if spent.pieces else Fraction(0)
        back = Span(taken.amount.least * (1 - kept * (1 - share.least)),
                    taken.amount.most * (1 - kept * (1 - share.most)), taken.amount.rough or share.rough)
        loss = _melt_loss(nb, own, str(taken.use.material), chosen)
        melted = Span(taken.amount.least / (1 - loss.least), taken.amount.most / (1 - loss.most), taken.amount.rough)
        new = Span(melted.least - taken.amount.least * (1 - kept * (1 - share.most)),
                   melted.most - taken.amount.most * (1 - kept * (1 - share.least)), back.rough)
        return replace(taken, back=back, new=new, share=told.returns, thrown=int(thrown))
    return taken


def _share(leaf: Written | None, each: Span, unit: Unit) -> Span | None:
    """The share that goes back, also where it is told as an amount of each piece."""
    ratio = written_span(leaf, "ratio")
    if ratio is not None or leaf is None:
        return ratio
    amount = amount_of(leaf)
    if amount is None or amount.noun != "piece" or not same_dimensions(amount.unit, unit) or each.least <= 0:
        return None
    return Span(amount.span.least / each.most, amount.span.most / each.least, amount.span.rough or each.rough)


def _is_of_the_part(nb: Notebook, own: Procedure, material: str) -> bool:
    """Whether a part of the work is made of it; where no part tells, whether it is the one with an amount."""
    parts = [nb.parts[one] for one in (*nb.parts_of(own), *nb.makes_of(own)) if one in nb.parts]
    told = {str(one) for part in parts for one in part.material}
    told = told or {str(use.material) for use in own.materials if use.amount is not None}
    return material in told if len(told) > 1 else told == {material}


def _thrown(spent: LegSpent) -> Fraction:
    """Pieces that are thrown back whole, once for every lot."""
    count = sum(fixed.count for fixed in spent.leg.fixed
                if fixed.every is None and fixed.step is not None and _all_back(fixed.step.yield_))
    return min(Fraction(count * spent.lots), spent.pieces)


def _all_back(yields: Iterable[object]) -> bool:
    spans = [written_span(getattr(told, "returns", None), "ratio") for told in yields]
    return any(span is not None and span.least == _ALL for span in spans)


def _melt_loss(nb: Notebook, own: Procedure, material: str, chosen: Mapping[str, str]) -> Span:
    """The share that burns off: a property of the metal, or what the shared work loses that melts it."""
    for limit in nb.materials[material].properties.get(Text(MELT_LOSS), ()):
        span = written_span(limit.written, "ratio")
        if span is not None and 0 <= span.least <= span.most < 1:
            return span
    shared = works_holding(nb, own, chosen)[2]
    melts = any(name in work.settings for work in shared for name in HELD)
    for work in shared if melts else ():
        for told in holding(work.yield_, chosen) if isinstance(work, Procedure) else ():
            span = written_span(told.scrap, "ratio")
            if span is not None and 0 < span.most < 1:
                return span
    return NONE
