"""What a plan breaks, in words with names, dates and amounts."""

from __future__ import annotations

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.plans.wanted import Wants
from site_builder.plans.words import day_told, hours
from site_builder.season.checker import Broken, Rule


def broken_told(known: FigureInputs, wanted: Wants, one: Broken) -> str:
    """One sentence: who, what, when, and by how much."""
    day = day_told(wanted.days.on(min(max(one.day, 0), wanted.problem.days - 1)))
    work, who = f"“{_title(known, wanted, one.work)}”", _name(known, wanted, one.who)
    told, allowed = one.told, one.allowed
    match one.rule:
        case Rule.KNOWN:
            return f"{day}: {one.who or 'nobody'} and {one.work} are not both in the notebook."
        case Rule.SENSE:
            return f"{day}: {who} has {hours(int(told))} for {work}; {hours(int(allowed))} are needed."
        case Rule.ABLE:
            return f"{day}: {who} may not do {work} on that day."
        case Rule.ALONE:
            return f"{day}: {who} does {work} within call, and nobody is in who teaches it."
        case Rule.HANDS:
            return f"{day}: {work} takes {int(allowed)} at once from beginning to end."
        case Rule.TWICE:
            return f"{day}: {who} stands twice at {work}."
        case Rule.HOURS:
            return f"{day}: {who} has {hours(int(allowed)) if allowed else 'no time'} for orders and is planned for " \
                   f"{hours(int(told))}."
        case Rule.MACHINE:
            return f"{day}: {who} is open {hours(int(allowed)) if allowed else 'no time'} and is planned for " \
                   f"{hours(int(told))}."
        case Rule.DOSE:
            return f"{day}: {who} takes {told * 100:.0f} % of a day’s {one.work}."
        case Rule.DAYS:
            return f"{day}: {work} lies outside the days that it is bound to."
        case Rule.LOT:
            return f"{day}: a lot of {int(told)} for {work}; the day or the size is wrong."
        case Rule.CAME:
            return f"{day}: {int(told)} are done of {work}, and {int(allowed)} had come by then from {who}."
        case Rule.LATE:
            return f"{day}: about {told:.0f} wait longer than they may between {work} and {who}."
        case Rule.WHOLE:
            return f"{day}: {work} begins before all of {who} is done."
        case Rule.ENOUGH:
            return f"{work}: {int(told)} are planned, {int(allowed)} are needed."


def _title(known: FigureInputs, wanted: Wants, work: str) -> str:
    planned = wanted.means.get(work)
    return str(known.notebook.procedures[planned.procedure].title) if planned is not None else work


def _name(known: FigureInputs, wanted: Wants, who: str) -> str:
    nb = known.notebook
    if who in nb.people:
        return str(nb.people[who].name)
    if who in nb.tools:
        return f"“{nb.tools[who].title}”"
    return f"“{_title(known, wanted, who)}”" if who in wanted.means else who or "nobody"
