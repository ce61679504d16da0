"""A planned season in one sentence and its reasons, in plain words."""

from __future__ import annotations

from datetime import date
from math import ceil

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.plans.make import Made
from site_builder.season.narrow import Narrow

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")


def day_told(when: date) -> str:
    """``7 May 2027``."""
    return f"{when.day} {MONTHS[when.month - 1]} {when.year}"


def apart(days: int) -> str:
    """``a week``, ``3 days``, ``two weeks and a half`` is never said: ``17 days``."""
    if days == 7:
        return "a week"
    if days and days % 7 == 0:
        return f"{days // 7} weeks"
    return "a day" if days == 1 else f"{days} days"


def answer(made: Made) -> str:
    """``Yes: …`` or ``No: …`` or ``Not settled: …``, with the date and by how much."""
    days, due = made.wants.days, made.wants.due
    verdict, finish = made.season.in_time(due), made.season.finish
    what = f"{made.wants.pieces} by {day_told(days.on(due))}"
    if verdict is True and finish is not None:
        spare = f"{apart(due - finish)} to spare" if finish < due else "no day to spare"
        return f"Yes: {what}. By this plan the last is packed on {day_told(days.on(finish))}, {spare}."
    if verdict is False:
        if finish is not None:
            return (f"No, not {what}: that is proven. By this plan the last is packed on {day_told(days.on(finish))}, "
                    f"{apart(finish - due)} late.")
        return f"No, not {what}: that is proven, and no plan was found."
    if finish is not None:
        return (f"Not settled: {what}. By the best plan so far the last is packed on {day_told(days.on(finish))}, "
                f"{apart(finish - due)} late; that none is in time is not proven.")
    return f"Not settled: {what}. No plan was found, and that there is none is not proven."


def how_good(made: Made) -> str:
    """How far from the bound, and whether it was proven."""
    bound, finish = made.season.bound, made.season.finish
    if bound is None:
        return "It cannot be done at all in these days: the hours do not suffice, or nobody may do a part of the work."
    if finish is None:
        return f"Before {day_told(made.wants.days.on(bound))} it cannot be done: that is proven."
    if made.season.proven:
        return "No plan ends sooner: that is proven."
    stopped = " The search was stopped." if made.season.stopped else ""
    quick = "" if made.season.searched else " It was laid by the quick rule; `--effort 60` searches for a sooner one."
    return (f"It is the best plan so far. Before {day_told(made.wants.days.on(bound))} it cannot be done: that is "
            f"proven; between the two lie {apart(finish - bound)} that are not settled.{stopped}{quick}")


def chances(made: Made) -> str:
    """In how many plays it was in time, and by when nine of ten were."""
    if made.played is None:
        return ""
    days = made.wants.days
    last = made.played.by(0.9)
    when = f"by {day_told(days.on(last))}" if last < days.count else "not within these months"
    often = share(made.played.in_time(made.wants.due))
    return (f"Played a thousand times with other luck, it is in time {often} times "
            f"of a hundred; nine of ten times {when}.")


def share(part: float) -> str:
    """Whole times of a hundred; what is neither never nor always is never told as such."""
    whole = round(part * 100)
    if 0 < part < 1:
        whole = min(max(whole, 1), 99)
    return str(whole)


def narrow_told(known: FigureInputs, one: Narrow) -> str:
    """What is narrow: ``hands for “Annealing”``, ``hours of Edda Corvane``, ``hours at “Polishing spindle”``."""
    nb = known.notebook
    if one.more.person is not None:
        return f"hours of {nb.people[one.more.person].name}"
    if one.more.machine is not None:
        return f"hours at “{nb.tools[one.more.machine].title}”"
    procedure = one.more.works[0].rpartition(":")[2]
    skill = str(nb.procedures[procedure].skill)
    return f"hands for “{nb.skills[skill].title if skill in nb.skills else skill}”"


def brings(days: float) -> str:
    """``half a day``, ``2 days``, ``about an hour or two`` is never said: rounded to the quarter day."""
    quarters = max(round(days * 4), 1)
    whole, rest = divmod(quarters, 4)
    if not whole:
        return {1: "a quarter of a day", 2: "half a day", 3: "three quarters of a day"}[rest]
    return "a day" if quarters == 4 else f"{quarters / 4:g} days"


def hours(seconds: int) -> str:
    """``2 h 30 min``, to five minutes up."""
    minutes = ceil(seconds / 300) * 5
    whole, rest = divmod(minutes, 60)
    return f"{whole} h {rest} min" if whole and rest else f"{whole} h" if whole else f"{rest} min"
