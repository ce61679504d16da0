"""How many hours of teaching a skill takes, in words: who says so, and how sure it is."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.skills.proof.wording import figure, percent
from site_builder.skills.teaching import Basis, Learned, Teaching
from site_builder.views.prose import Prose, listed, lowered, prose, say, sentences
from site_builder.views.typeset import typeset


def hours(minutes: int) -> str:
    """``12 h``, ``40 min``; half hours are kept."""
    if minutes < 60:
        return typeset(f"{minutes} min")
    whole, rest = divmod(round(minutes / 30), 2)
    return typeset(f"{whole}.5 h" if rest else f"{whole} h")


def hours_told(people_index: PeopleIndex, context: PageContext, skill: str) -> Prose:
    """A skill's hours, from the first look until alone; in sentences where they are reckoned from the books."""
    teaching = people_index.teaching[skill]
    if teaching.basis is Basis.WRITTEN:
        told = context.valued(people_index.book.notebook.skills[skill].lessons)
        return say("{} from the first look until alone", told)
    if teaching.basis is Basis.ASSUMED:
        return say("not told. In the plan of lessons {} are assumed.", hours(teaching.minutes))
    return sentences([*by_practice(people_index, context, teaching)])


def by_practice(people_index: PeopleIndex, context: PageContext, teaching: Teaching) -> Iterator[Prose]:
    """What the curves of earlier learners say: the hours, how sure that is, and until what."""
    learners = dict.fromkeys(one.person for one in teaching.learned)
    whose = listed(context.link("person", one, people_index.short.get(one, one)) for one in learners)
    middle = "" if len(learners) == 1 else ", for the hand in the middle"
    yield say("About {}{}, by the learning curve of {}.", hours(teaching.minutes), middle, whose)
    yield prose(_how_sure(teaching))
    by_work: dict[str, list[Learned]] = {}
    for one in teaching.learned:
        by_work.setdefault(one.pace.procedure, []).append(one)
    for procedure, learned in by_work.items():
        work = context.link("procedure", procedure)
        yield say("{}: {}.", work, listed(dict.fromkeys(map(_until, learned)), "or"))
    if teaching.unpractised:
        none = listed((context.link("procedure", one, lowered(typeset(context.title("procedure", one))))
                       for one in teaching.unpractised), "or")
        yield say("Nothing stands in the book of practice of {}, and nothing is counted for it.", none)


def _how_sure(teaching: Teaching) -> str:
    fitted = teaching.learned[0].pace.fitted
    sure = percent(fitted.confidence) if fitted is not None else ""
    low = hours(teaching.low or teaching.minutes)
    if teaching.high is None:
        return typeset(f"Hardly under {low} ({sure} sure); how long at most cannot be told yet.")
    high = hours(teaching.high)
    return typeset(f"Somewhere from {low} to {high} ({sure} sure).") if low != high else ""


def _until(one: Learned) -> str:
    if one.quick and one.pace.target is not None:
        each = f"{figure(one.pace.target)} {one.pace.unit}"
        return typeset(f"until a piece takes no longer than {each}, at about piece {one.pieces}")
    return typeset(f"the {one.pieces} pieces of the proof, at the times of the curve")
