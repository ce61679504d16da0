"""If one of us left: what would stop with each of us, with any two, and what hangs on one pair of hands."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from fractions import Fraction

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import HANDS, LESSONS, WITHOUT, Page
from site_builder.notebook.notebook import Notebook
from site_builder.skills.loss import Hours, Loss, Point, each_without, pairs_without, single_points, without
from site_builder.views.counts import number
from site_builder.views.prose import NO_WORDS, Prose, Ref, capital, joined, linked, listed, lowered, prose, say
from site_builder.views.typeset import typeset


def without_sheet(people_index: PeopleIndex) -> Page:
    """The page of what would be lost."""
    book, nb = people_index.book, people_index.book.notebook
    context = PageContext(book, WITHOUT)
    known = people_index.knowledge
    each, points = each_without(known), single_points(known)
    lede = summary(people_index, context, points)
    html = pressed(
        "without.html.j2", context,
        kicker=say("{}", linked("The hands", Ref("chapter", HANDS))), lede=lede,
        unsound=unsound(book, book_paths(nb)),
        each=[(f"without-{person}", context.link("person", person), [*rows(people_index, context, loss)])
              for person, loss in each.items() if not loss.nothing],
        unmissed=unmissed(people_index, context, each.values()),
        pairs=[(listed(context.link("person", one) for one in pair), [*rows(people_index, context, loss)])
               for pair, loss in pairs_without(known).items()],
        points=[point_row(context, point) for point in points],
        already=[*rows(people_index, context, without(known, ()))], untold=[*untold(people_index, context)],
        counted=COUNTED, lessons=say(
            "{} says how it is put right.", linked("What to learn next, and from whom", Ref("chapter", LESSONS))),
    )
    parts = (Part("points", "What hangs on one pair of hands"),)
    return Page(WITHOUT, "If one of us left", html, lede.plain, parts, "skills/people.yml")


def book_paths(notebook: Notebook) -> list[str]:
    """The files that say who can do what."""
    return [*{one.at.path for one in notebook.people.values()}, *(one.at.path for one in notebook.sign_offs[:1])]


COUNTED = (
    "Counted as able is who is signed for a skill alone, or to teach it, and has practised in time. Where nobody was "
    "ever signed to teach a skill, the founders count as its masters. Hours are people’s hands-on time in one whole "
    "product with all its parts, without setting up and waiting."
)


def summary(people_index: PeopleIndex, context: PageContext, points: Iterable[Point]) -> Prose:
    """The gravest in a sentence or two."""
    told = [*points]
    if not people_index.knowledge.able:
        return prose("No skill is written down yet, so nothing can be said.")
    if not told:
        return _of_the_skills(people_index, context)
    first = told[0]
    who, skills = (
        _short(people_index, context, first.person),
        listed(_small(context, "skill", one) for one in first.skills),
    )
    if first.procedures:
        much = f" That is {percent(first.share)} of the hours." if first.share else ""
        return say("Most hangs on {}: nobody else here does {} alone.{}", who, skills, much)
    taught = [point for point in told if point.person == first.person]
    return say("If one of us left, the work would go on. But {} alone may teach {}: when those who can do it now "
                  "have gone too, it ends.",
        who, skills if len(taught) == 1 else f"{number(len(taught))} of our skills")


def _of_the_skills(people_index: PeopleIndex, context: PageContext) -> Prose:
    """Nothing hangs on one alone: what hangs on nobody, and what is not told, is said with it."""
    known = people_index.knowledge
    nobody = [skill for skill, able in known.able.items() if not able]
    untaught = [skill for skill in known.able if skill not in nobody and not known.teachers.get(skill)]
    said = [say("Nobody does {} alone", listed(_small(context, "skill", one) for one in nobody))] if nobody else []
    said += [say("nobody may teach {}", listed(_small(context, "skill", one) for one in untaught))] if untaught else []
    if said:
        return say("{}; nothing hangs on one pair of hands.", capital(joined(said, ", and ")))
    if known.unasked:
        return say("Every skill that is written has two who can do it and two who may teach it; of {} procedure{} "
                   "nobody has told yet what one must hold.", number(len(known.unasked)),
                   "" if len(known.unasked) == 1 else "s")
    return prose("Nothing hangs on one pair of hands: every skill has two who can do it and two who may teach it.")


def rows(people_index: PeopleIndex, context: PageContext, loss: Loss) -> Iterator[tuple[str, Prose]]:
    """(what is lost, of what) of a loss, or of what is lost already where nobody is gone."""
    if loss.nobody:
        yield "Left undone", capital(_links(context, "procedure", loss.nobody))
    if loss.held_up:
        yield "Waits for that", capital(_links(context, "procedure", loss.held_up))
    if loss.parts:
        only_parts = not set(loss.products) - set(loss.parts)
        products = "" if only_parts else f", and so no {listed(_bare_titles(context, 'part', loss.products), 'or')}"
        yield "Cannot be made", capital(say("{}{}", _links(context, "part", loss.parts), products))
    for one in loss.hours:
        if one.affected:
            yield f"Hours in one {lowered(typeset(context.title('part', one.product)))}", _hours(one)
    if loss.unheld:
        yield "Nobody holds", capital(_links(context, "skill", _by_name(people_index, loss.unheld)))
    if loss.untaught:
        yield "Nobody may teach", capital(_links(context, "skill", _by_name(people_index, loss.untaught)))
    for skill, people in loss.rests:
        yield "With practice again", say("{} once did {} alone and could take it up",
            listed(_short(people_index, context, one) for one in people), _small(context, "skill", skill))


def _by_name(people_index: PeopleIndex, skills: Collection[str]) -> list[str]:
    return [one for one in people_index.skills if one in skills]


def sentences(people_index: PeopleIndex, context: PageContext, loss: Loss) -> Iterator[Prose]:
    """The same in lines."""
    return (say("{}: {}.", name, what) for name, what in rows(people_index, context, loss))


def _hours(hours: Hours) -> Prose:
    missing = f"; the time of {number(len(hours.untold))} of its procedures is not told" if hours.untold else ""
    return say("{} have nobody to do them{}", capital(percent(hours.share)), missing)


def unmissed(people_index: PeopleIndex, context: PageContext, losses: Iterable[Loss]) -> Prose:
    """Those without whom nothing would stop, and those who hold nothing yet, in a sentence each."""
    known = people_index.knowledge
    gone = [loss.gone[0] for loss in losses if loss.nothing]
    holding = [one for one in gone if any(one in able for able in (*known.able.values(), *known.teachers.values()))]
    learning = [one for one in gone if one not in holding]
    told = []
    if holding:
        so_far = " of what is told" if known.unasked else ""
        told.append(say("Without {} nothing{} would stop, and nothing would be left without a teacher.",
                        listed((_short(people_index, context, one) for one in holding), "or"), so_far))
    if learning:
        told.append(say("{} {} nothing alone yet.", listed(_short(people_index, context, one) for one in learning),
                        "does" if len(learning) == 1 else "do"))
    return joined(told)


def point_row(context: PageContext, point: Point) -> list[Prose]:
    """A row of the ranked list: what, on whom, what stops at once, and what later."""
    if point.procedures:
        share = f" {capital(percent(point.share))} of the hours." if point.share is not None else ""
        stops = say("{}.{}", capital(_links(context, "procedure", point.procedures)), share)
    else:
        stops = prose("no work that is written" if point.only_hands else "nothing; others can do it")
    if point.only_teacher:
        share = f": {percent(point.later)} of the hours" if point.later else ""
        later = say("no one else may teach it{}", share)
    else:
        later = prose("others may teach it") if point.procedures else NO_WORDS
    return [
        listed(context.link("skill", one) for one in point.skills),
        context.link("person", point.person),
        stops,
        later,
    ]


def untold(people_index: PeopleIndex, context: PageContext) -> Iterator[Prose]:
    """What cannot be said because the notebook does not tell it."""
    known = people_index.knowledge
    if known.unasked:
        yield say("What one must hold to do it: {}.", _links(context, "procedure", known.unasked))
    if not any(known.seconds.values()):
        yield prose("How long anything takes, so that no share of the hours can be told.")
        return
    for product, missing in known.untold.items():
        if missing:
            yield say("How long it takes, for one {}: {}. Shares of the hours are without these.",
                lowered(typeset(context.title("part", product))), _links(context, "procedure", missing))


def percent(share: Fraction | None) -> str:
    """``24 %``, as people say it: nothing, hardly anything, a whole number, all."""
    if share is None:
        return "an unknown share"
    if share == 1:
        return "all"
    whole = round(share * 100)
    return typeset("less than 1 %" if whole == 0 and share else "more than 99 %" if whole == 100 else f"{whole} %")


def _short(people_index: PeopleIndex, context: PageContext, person: str) -> Prose:
    return context.link("person", person, people_index.short[person])


def _small(context: PageContext, kind: str, id_: str) -> Prose:
    return context.link(kind, id_, lowered(typeset(context.title(kind, id_))))


def _bare_titles(context: PageContext, kind: str, ids: Iterable[str]) -> Iterator[str]:
    """Titles as they stand after "no": without the article that some begin with."""
    for one in ids:
        first, blank, rest = typeset(context.title(kind, one)).partition(" ")
        yield rest if blank and first.lower() in ("a", "an", "the") else lowered(f"{first}{blank}{rest}").plain


def _links(context: PageContext, kind: str, ids: Iterable[str]) -> Prose:
    return listed(_small(context, kind, one) for one in ids)
