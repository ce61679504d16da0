"""If one of us left: what would stop with each of us, with any two, and what hangs on one pair of hands."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from fractions import Fraction

from markupsafe import Markup

from site_builder.handbook.book import HANDS, LESSONS, WITHOUT, Sheet
from site_builder.handbook.finder import Part
from site_builder.handbook.pages.in_words import capital, listed, lowered, number
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.roll import Roll
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pen import Pen
from site_builder.handbook.text import typeset
from site_builder.mastery.loss import Hours, Loss, Point, each_without, pairs_without, single_points, without
from site_builder.notebook.notebook import Notebook


def without_sheet(roll: Roll) -> Sheet:
    """The page of what would be lost."""
    book, nb = roll.book, roll.book.notebook
    pen = Pen(book, WITHOUT)
    known = roll.knowledge
    each, points = each_without(known), single_points(known)
    lede = summary(roll, pen, points)
    html = pressed(
        "without.html.j2",
        kicker=Markup('<a href="{}">The hands</a>').format(pen.to(HANDS)), lede=lede,
        unsound=unsound(book, book_paths(nb)),
        each=[(f"without-{person}", pen.link("person", person), [*rows(roll, pen, loss)])
              for person, loss in each.items() if not loss.nothing],
        unmissed=unmissed(roll, pen, each.values()),
        pairs=[(listed(pen.link("person", one) for one in pair), [*rows(roll, pen, loss)])
               for pair, loss in pairs_without(known).items()],
        points=[point_row(pen, point) for point in points],
        already=[*rows(roll, pen, without(known, ()))], untold=[*untold(roll, pen)],
        counted=COUNTED, lessons=Markup('<a href="{}">What to learn next, and from whom</a> says how it is put right.')
        .format(pen.to(LESSONS)),
    )
    parts = (Part("points", "What hangs on one pair of hands"),)
    return Sheet(WITHOUT, "If one of us left", html, str(lede.striptags()), parts, "skills/people.yml")


def book_paths(notebook: Notebook) -> list[str]:
    """The files that say who can do what."""
    return [*{one.at.path for one in notebook.people.values()}, *(one.at.path for one in notebook.sign_offs[:1])]


COUNTED = (
    "Counted as able is who is signed for a skill alone, or to teach it, and has practised in time. Where nobody was "
    "ever signed to teach a skill, the founders count as its masters. Hours are people’s hands-on time in one whole "
    "product with all its parts, without setting up and waiting."
)


def summary(roll: Roll, pen: Pen, points: Iterable[Point]) -> Markup:
    """The gravest in a sentence or two."""
    told = [*points]
    if not roll.knowledge.able:
        return Markup("No skill is written down yet, so nothing can be said.")
    if not told:
        return Markup("Nothing hangs on one pair of hands: every skill has two who can do it and two who may teach it.")
    first = told[0]
    who, skills = _short(roll, pen, first.person), listed(_small(pen, "skill", one) for one in first.skills)
    if first.procedures:
        much = f" That is {percent(first.share)} of the hours." if first.share else ""
        return Markup("Most hangs on {}: nobody else here does {} alone.{}").format(who, skills, much)
    taught = [point for point in told if point.person == first.person]
    return Markup("If one of us left, the work would go on. But {} alone may teach {}: when those who can do it now "
                  "have gone too, it ends.").format(
        who, skills if len(taught) == 1 else f"{number(len(taught))} of our skills")


def rows(roll: Roll, pen: Pen, loss: Loss) -> Iterator[tuple[str, Markup]]:
    """(what is lost, of what) of a loss, or of what is lost already where nobody is gone."""
    if loss.nobody:
        yield "Left undone", capital(_links(pen, "procedure", loss.nobody))
    if loss.held_up:
        yield "Waits for that", capital(_links(pen, "procedure", loss.held_up))
    if loss.parts:
        products = f", and so no {listed(_titles(pen, 'part', loss.products))}" if set(loss.products) - set(
            loss.parts) else ""
        yield "Cannot be made", capital(Markup("{}{}").format(_links(pen, "part", loss.parts), products))
    for one in loss.hours:
        if one.affected:
            yield f"Hours in one {lowered(typeset(pen.title('part', one.product)))}", _hours(one)
    if loss.unheld:
        yield "Nobody holds", capital(_links(pen, "skill", _by_name(roll, loss.unheld)))
    if loss.untaught:
        yield "Nobody may teach", capital(_links(pen, "skill", _by_name(roll, loss.untaught)))
    for skill, people in loss.rests:
        yield "With practice again", Markup("{} once did {} alone and could take it up").format(
            listed(_short(roll, pen, one) for one in people), _small(pen, "skill", skill))


def _by_name(roll: Roll, skills: Collection[str]) -> list[str]:
    return [one for one in roll.skills if one in skills]


def sentences(roll: Roll, pen: Pen, loss: Loss) -> Iterator[Markup]:
    """The same in lines."""
    return (Markup("{}: {}.").format(name, what) for name, what in rows(roll, pen, loss))


def _hours(hours: Hours) -> Markup:
    missing = f"; the time of {number(len(hours.untold))} of its procedures is not told" if hours.untold else ""
    return Markup("{} have nobody to do them{}").format(capital(percent(hours.share)), missing)


def unmissed(roll: Roll, pen: Pen, losses: Iterable[Loss]) -> Markup:
    """Those without whom nothing would stop, in a sentence."""
    people = [_short(roll, pen, loss.gone[0]) for loss in losses if loss.nothing]
    if not people:
        return Markup("")
    return Markup("Without {} nothing would stop, and nothing would be left without a teacher.").format(
        listed(people, "or"))


def point_row(pen: Pen, point: Point) -> list[Markup]:
    """A row of the ranked list: what, on whom, what stops at once, and what later."""
    if point.procedures:
        share = f" {capital(percent(point.share))} of the hours." if point.share is not None else ""
        stops = Markup("{}.{}").format(capital(_links(pen, "procedure", point.procedures)), share)
    else:
        stops = Markup("no work that is written" if point.only_hands else "nothing; others can do it")
    if point.only_teacher:
        share = f": {percent(point.later)} of the hours" if point.later else ""
        later = Markup("no one else may teach it{}").format(share)
    else:
        later = Markup("others may teach it") if point.procedures else Markup("")
    return [listed(pen.link("skill", one) for one in point.skills), pen.link("person", point.person), stops, later]


def untold(roll: Roll, pen: Pen) -> Iterator[Markup]:
    """What cannot be said because the notebook does not tell it."""
    known = roll.knowledge
    if known.unasked:
        yield Markup("What one must hold to do it: {}.").format(_links(pen, "procedure", known.unasked))
    if not any(known.seconds.values()):
        yield Markup("How long anything takes, so that no share of the hours can be told.")
        return
    for product, missing in known.untold.items():
        if missing:
            yield Markup("How long it takes, for one {}: {}. Shares of the hours are without these.").format(
                lowered(typeset(pen.title("part", product))), _links(pen, "procedure", missing))


def percent(share: Fraction | None) -> str:
    """``24 %``, as people say it: nothing, hardly anything, a whole number, all."""
    if share is None:
        return "an unknown share"
    if share == 1:
        return "all"
    whole = round(share * 100)
    return typeset("less than 1 %" if whole == 0 and share else "more than 99 %" if whole == 100 else f"{whole} %")


def _short(roll: Roll, pen: Pen, person: str) -> Markup:
    return pen.link("person", person, roll.short[person])


def _small(pen: Pen, kind: str, id_: str) -> Markup:
    return pen.link(kind, id_, lowered(typeset(pen.title(kind, id_))))


def _titles(pen: Pen, kind: str, ids: Iterable[str]) -> Iterator[Markup]:
    return (lowered(typeset(pen.title(kind, one))) for one in ids)


def _links(pen: Pen, kind: str, ids: Iterable[str]) -> Markup:
    return listed(_small(pen, kind, one) for one in ids)
