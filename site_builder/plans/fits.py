"""Whether each work of a season can be laid on a day at all; where one cannot, no answer is a proof."""

from __future__ import annotations

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.plans.wanted import CannotPlan, Wants
from site_builder.plans.words import hours
from site_builder.season.problem import Problem
from site_builder.season.unfit import unfit


def fits(known: FigureInputs, wanted: Wants, problem: Problem) -> None:
    """Raise ``CannotPlan`` for the first work that no day can hold, with what to write."""
    for one in unfit(problem):
        entry = known.notebook.procedures[wanted.means[one.work].procedure]
        if one.kind == "hands":
            there = "only one is" if one.there == 1 else f"only {one.there} are"
            raise CannotPlan(f"“{entry.title}” takes {one.needs} people at once, and of those who may do it or help "
                             f"{there} there. Write who else may help into skills/people.yml, or fewer `hands`.")
        raise CannotPlan(
            f"One piece of “{entry.title}”, with its load and what gets ready, takes {hours(one.needs)}, and the "
            f"longest day of those who may do it has {hours(one.there)}. A plan carries no piece over two days, so "
            f"that it cannot tell whether it can be done. Write {entry.at.path} as two works, or a longer day.")
