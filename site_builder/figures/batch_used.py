"""What a batch uses up, told on the pages of materials and of tools that wear."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.batch.used_up import UsedUp
from site_builder.batch.worn import Renewed
from site_builder.figures.batch_said import Said
from site_builder.figures.batch_words import NO_BREAK, amount, amount_up, capital, count, whole
from site_builder.figures.figure import Figure, Input

RETURNS_SAID = ("Of each piece goes back what `returns` tells, and the whole of those that are lost in that procedure "
                "or thrown back while warming up. What burns off in the pot is added to the new.")


def material_figures(said: Said, used: UsedUp) -> Iterator[Figure]:
    """How much of each material, with all that is lost on the way."""
    for one in used.materials:
        inputs = [said.ordered()]
        inputs += [Input("taken", str(taken.use.amount), "procedure", taken.procedure, at=taken.use.at)
                   for taken in one.takers]
        sentence = f"{said.lead} it takes {amount(one.amount, one.unit)}, for the pieces lost on the way too."
        shares = [taken for taken in one.takers if taken.share is not None]
        if one.back.most:
            sentence += (f" {capital(amount(one.back, one.unit))} of it goes back and is used again, so that "
                         f"{amount_up(one.new, one.unit)} is new.")
        if one.made:
            sentence += f" It is made here, in {said.procedures(one.made)}, and not bought."
        inputs += [Input("goes back", str(taken.share), "procedure", taken.procedure, at=taken.share.at)
                   for taken in shares if taken.share is not None]
        returns = [RETURNS_SAID] if shares else []
        notes = dict.fromkeys(str(taken.use.note) for taken in one.takers if taken.use.note is not None)
        untold = [procedure for material, procedure in used.untold if material == one.id]
        caution = " ".join([*returns, *notes])
        if untold:
            takers = f"{said.procedures(untold)} {'takes' if len(untold) == 1 else 'take'}"
            caution = f"How much {takers} is not told and not counted. {caution}".strip()
        yield Figure(
            "material", one.id, sentence, tuple(inputs), "pieces started times the amount for each",
            "standard quantity, as planning manuals have it", caution,
        )


def tool_figures(said: Said, used: UsedUp) -> Iterator[Figure]:
    """How often a thing that is changed after a count must be changed."""
    amounts = {row.id for row in used.materials}
    for one in used.renewed:
        kind = "material" if one.id in said.nb.materials else "tool"
        inputs = [said.ordered(), Input("changed after", str(one.life), kind, one.id, at=one.life.at)]
        inputs += [Input("used in", f"{_work(one)} in the batch", "procedure", id_) for id_ in one.procedures[:1]]
        inputs += [Input("used in", "the same pieces, or others", "procedure", id_) for id_ in one.procedures[1:]]
        # Beside an amount that is told elsewhere it must be clear which work these are for.
        only = f" for {said.procedures(one.procedures)}" if one.id in amounts else ""
        yield Figure(
            kind, one.id, f"{said.lead} have {new_ones(one)} ready{only}.", tuple(inputs),
            "life by count", "whole lives begun, common practice",
            "The count is the usual life. When its sign shows it is changed, however few it has done.",
        )


def new_ones(one: Renewed) -> str:
    """``1 or 2 new ones``."""
    return "no new one" if not one.most else count(one.least, one.most, "new one", "new ones")


def _work(one: Renewed) -> str:
    low, high = whole(one.work.least), whole(one.work.most)
    return f"{low:,}{NO_BREAK}pieces" if low == high else f"{low:,} to {high:,}{NO_BREAK}pieces"
