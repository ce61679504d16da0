"""A planned season in one sentence and its reasons, in plain words."""

from __future__ import annotations

from datetime import date

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.season import Season
from site_builder.plans.make import Made
from site_builder.plans.one_sentence import Verdict, one_sentence
from site_builder.plans.words import apart, brings, day_told
from site_builder.season.narrow import Narrow


def answer(known: FigureInputs, made: Made) -> str:
    """The one sentence: date, reason, way out."""
    days, season = made.wants.days, made.season
    first = made.narrow[0] if made.narrow else None
    return one_sentence(Verdict(
        str(made.wants.pieces), days.on(made.wants.due), None if season.finish is None else days.on(season.finish),
        None if season.bound is None else days.on(season.bound), season.proven,
        narrow_told(known, first) if first is not None else "", brings(first.days) if first is not None else "",
        made.ways, made.cannot))


def kept_answer(season: Season) -> str:
    """The one sentence, from what the file tells; what it does not tell is not said."""
    def last(leaf: Dated | None) -> date | None:
        return leaf.value.last if leaf is not None else None

    first = season.narrow[0] if season.narrow else None
    return one_sentence(Verdict(
        str(season.pieces or ""), last(season.due), last(season.ends), last(season.bound),
        season.proven in ("yes", "true"), str(first.what) if first is not None else "",
        str(first.note or "") if first is not None else "", tuple(map(str, season.ways)),
        tuple(map(str, season.cannot))))


def how_good(made: Made) -> str:
    """How far from the bound, and whether it was proven."""
    bound, finish = made.season.bound, made.season.finish
    if bound is None:
        return "It cannot be done at all in these days: the hours do not suffice, or nobody may do a part of the work."
    if finish is None:
        return f"Before {day_told(made.wants.days.on(bound))} it cannot be done: that is proven."
    stopped = " It was stopped there." if made.season.stopped else ""
    if made.season.proven:
        return f"No plan ends sooner: that is proven.{stopped}"
    quick = " It was laid by the quick rule; `--effort 60` searches for a sooner one."
    quick = "" if made.season.searched or stopped else quick
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
