"""Start here: what is made, what to do first, whom to ask, how to read, which edition this is."""

from __future__ import annotations

import re
from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.book import HANDS, START, UNWRITTEN, WHOLE, WORK, WRITERS, Book, Sheet
from site_builder.handbook.finder import Part as Found
from site_builder.handbook.pages.in_words import listed, lowered, number, sentence
from site_builder.handbook.pages.order import order_lines
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.roll import Roll
from site_builder.handbook.pages.shown import shown
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.start_plate import plates
from site_builder.handbook.pen import Pen, dated_day
from site_builder.notebook.model.shop import Part
from site_builder.notebook.model.small import Revision

_LAST = 8
"""So many of the last revisions are told."""


def start_sheets(book: Book) -> Iterator[Sheet]:
    """The first page of the book."""
    nb, pen, roll = book.notebook, Pen(book, START), Roll(book)
    lede = _lede(pen)
    drawn, plain_pictures = plates(pen)
    html = pressed(
        "start.html.j2",
        shop=pen.plain(nb.shop.title) if nb.shop is not None else "", lede=lede,
        unsound=unsound(book, ("procedures/shop.yml",)), plates=drawn, pictures=shown(pen, plain_pictures),
        products=[*_products(pen)], orders=order_lines(pen), first=_first(pen), unwritten=pen.to(UNWRITTEN),
        writers=pen.to(WRITERS),
        away_title=f"If {listed((roll.short[id_] for id_ in roll.founders), 'or') or 'the master'} is not here",
        away=_away(roll, pen), others=[*_others(roll, pen)], hurt=pen.to(WHOLE, "if-someone-is-hurt"),
        stories=[*_stories(pen)], edition=_edition(pen), revisions=[*_revisions(pen)],
    )
    parts = (Found("if-you-are-new", "If you are new"), Found("if-the-master-is-away", "If the master is not here"),
             Found("how-to-read", "How to read a page"))
    yield Sheet(START, "Start here", html, str(lede.striptags()), parts, "procedures/shop.yml")


def _lede(pen: Pen) -> Markup:
    """What is made here, and why there is a book."""
    nb = pen.book.notebook
    made = [lowered(pen.title("part", id_)) for id_ in nb.products]
    what = f"the {made[0]}" if len(made) == 1 else f"{number(len(made))} things: {listed(made)}"
    told = Markup("This book tells how we make {}").format(Markup(what)) if made else \
        Markup("This book tells how we work")
    for reason in nb.shop.because if nb.shop is not None else ():
        why = pen.words(reason)
        told = Markup("{}, {}").format(told, lowered(why)) if why.startswith("So that ") else \
            Markup("{} {}").format(sentence(told), sentence(why))
    return sentence(told)


def _products(pen: Pen) -> Iterator[tuple[str, list[tuple[Markup, Markup]], Markup]]:
    """Each product with the parts made here, and what is bought for it."""
    nb = pen.book.notebook
    for id_, product in nb.products.items():
        parts = [(str(one), nb.parts[str(one)]) for one in product.of if str(one) in nb.parts]
        made = [_part(pen, one, part) for one, part in parts if part.supplier is None]
        bought = [pen.link("part", one, lowered(pen.title("part", one))) for one, part in parts if part.supplier]
        if made or bought:
            title = "What it is made of" if len(nb.products) == 1 else f"{pen.title('part', id_)}: what it is made of"
            yield title, made, Markup("; ").join(bought)


def _part(pen: Pen, id_: str, part: Part) -> tuple[Markup, Markup]:
    why = Markup(" ").join(sentence(pen.words(reason)) for reason in part.because)
    return pen.link("part", id_), why


def _first(pen: Pen) -> list[Markup]:
    return [
        Markup('<b>Read <a href="{}">Staying whole</a> before you touch a machine.</b> '
               "Ask about every line you do not understand.").format(pen.to(WHOLE)),
        Markup('<b>Look at <a href="{}">the work</a></b> from the raw stuff to the packed piece, so that you know '
               "where your piece came from and who gets it next.").format(pen.to(WORK)),
        Markup('<b>Find yourself in <a href="{}">the hands</a>.</b> It says what you may do alone, '
               "and who stands beside you for the rest.").format(pen.to(HANDS)),
        Markup("<b>Take one procedure to the bench</b>, printed or on the tablet. The large lines are what to do. "
               "The small lines in the margin are why."),
    ]


def _away(roll: Roll, pen: Pen) -> Markup:
    who = listed((pen.link("person", id_) for id_ in roll.founders), "or") or Markup("the master")
    return Markup(
        "Work that needs {} stops. Make the machine safe and clean it, label the piece with the last step done, and "
        'take up something you may do alone. For a question of how, ask somebody whom <a href="{}">the hands</a> '
        "name as a teacher of it. For a question of whether, wait."
    ).format(who, pen.to(HANDS))


def _others(roll: Roll, pen: Pen) -> Iterator[Markup]:
    """Who else teaches something."""
    for person in roll.book.notebook.living:
        taught = [skill for skill, people in roll.teachers.items() if person in people]
        if taught and person not in roll.founders:
            skills = listed(pen.link("skill", s, lowered(pen.title("skill", s))) for s in taught)
            yield Markup("<b>{}</b>: {}.").format(pen.link("person", person), skills)


def _stories(pen: Pen) -> Iterator[Markup]:
    for story in pen.book.notebook.stories:
        page = pen.to(story.path.removeprefix("procedures/"))
        yield Markup('<a href="{}">{}</a>').format(page, pen.plain(story.title))


def _edition(pen: Pen) -> Markup:
    """When it was made, and of how much."""
    nb = pen.book.notebook
    counts = [(len(nb.procedures), "procedure"), (len(nb.skills), "skill"), (len(nb.things), "tool and material"),
              (len(nb.living), "person")]
    told = listed(f"{number(count)} {_plural(noun, count)}" for count, noun in counts if count)
    made = f"Made from the notebook of the shop on {dated_day(pen.book.survey.today)}"
    return sentence(Markup("{}: {}").format(made, told) if told else Markup(made))


def _plural(noun: str, count: int) -> str:
    if count == 1:
        return re.sub(" and .*", "", noun)
    return {"person": "people", "tool and material": "tools and materials"}.get(noun, f"{noun}s")


def _revisions(pen: Pen) -> Iterator[tuple[str, str, Markup]]:
    """The newest revisions of all procedures."""
    found = [
        (revision, place.owner_id) for revision, place in pen.book.survey.index.of(Revision)
        if revision.date is not None and place.procedure is not None
    ]
    found.sort(key=lambda pair: pair[0].date.value.last, reverse=True)  # type: ignore[union-attr]
    for revision, procedure in found[:_LAST]:
        who = pen.title("person", str(revision.who)) if revision.who is not None else ""
        what = Markup("{}: {}").format(pen.link("procedure", procedure), pen.words(revision.what))
        yield pen.date(revision.date), who, what
