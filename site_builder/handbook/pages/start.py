"""Start here: what is made, what to do first, whom to ask, how to read, which edition this is."""

from __future__ import annotations

import re
from collections.abc import Iterator

from site_builder.handbook.finder import Part as Found
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.order import order_lines
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.start_plate import plates
from site_builder.handbook.site import HANDS, START, UNWRITTEN, WHOLE, WORK, WRITERS, Page, Site
from site_builder.notebook.model.shop import Part
from site_builder.notebook.model.small import Revision
from site_builder.views.counts import number
from site_builder.views.dates import dated_day
from site_builder.views.picture import shots
from site_builder.views.prose import Prose, Ref, joined, linked, listed, lowered, prose, say, sentence

_LAST = 8
"""So many of the last revisions are told."""


def start_pages(site: Site) -> Iterator[Page]:
    """The first page of the book."""
    nb, context, people_index = site.notebook, PageContext(site, START), PeopleIndex(site)
    lede = _lede(context)
    drawn, plain_pictures = plates(context)
    founders = listed((people_index.short[id_] for id_ in people_index.founders), "or")
    html = pressed(
        "start.html.j2", context,
        shop=context.plain(nb.shop.title) if nb.shop is not None else "",
        lede=lede,
        unsound=unsound(site, ("procedures/shop.yml",)),
        plates=drawn,
        pictures=shots(context.scope(nb.shop), plain_pictures) if nb.shop is not None else (),
        products=[*_products(context)],
        orders=order_lines(context),
        first=_first(),
        unwritten=context.to(UNWRITTEN),
        writers=context.to(WRITERS),
        away_title=f"If {founders or 'the master'} is not here",
        away=_away(people_index, context),
        others=[*_others(people_index, context)],
        hurt=context.to(WHOLE, "if-someone-is-hurt"),
        stories=[*_stories(context)],
        edition=_edition(context),
        revisions=[*_revisions(context)],
    )
    parts = (Found("if-you-are-new", "If you are new"), Found("if-the-master-is-away", "If the master is not here"),
             Found("how-to-read", "How to read a page"))
    yield Page(START, "Start here", html, lede.plain, parts, "procedures/shop.yml")


def _lede(context: PageContext) -> Prose:
    """What is made here, and why there is a book."""
    nb = context.book.notebook
    made = [lowered(context.title("part", id_)) for id_ in nb.products]
    what = f"the {made[0]}" if len(made) == 1 else f"{number(len(made))} things: {listed(made)}"
    told = say("This book tells how we make {}", what) if made else prose("This book tells how we work")
    for reason in nb.shop.because if nb.shop is not None else ():
        why = context.words(reason)
        told = say("{}, {}", told, lowered(why)) if why.plain.startswith("So that ") else \
            say("{} {}", sentence(told), sentence(why))
    return sentence(told)


def _products(context: PageContext) -> Iterator[tuple[str, list[tuple[Prose, Prose]], Prose]]:
    """Each product with the parts made here, and what is bought for it."""
    nb = context.book.notebook
    for id_, product in nb.products.items():
        parts = [(str(one), nb.parts[str(one)]) for one in product.of if str(one) in nb.parts]
        made = [_part(context, one, part) for one, part in parts if part.supplier is None]
        bought = [
            context.link("part", one, lowered(context.title("part", one))) for one, part in parts if part.supplier
        ]
        if made or bought:
            title = (
                "What it is made of" if len(nb.products) == 1 else f"{context.title('part', id_)}: what it is made of"
            )
            yield title, made, joined(bought, "; ")


def _part(context: PageContext, id_: str, part: Part) -> tuple[Prose, Prose]:
    why = joined(sentence(context.words(reason)) for reason in part.because)
    return context.link("part", id_), why


def _first() -> list[Prose]:
    return [
        say("**Read {} before you touch a machine.** Ask about every line you do not understand.",
            linked("Staying whole", Ref("chapter", WHOLE))),
        say("**Look at {}** from the raw stuff to the packed piece, so that you know where your piece came from and "
            "who gets it next.", linked("the work", Ref("chapter", WORK))),
        say("**Find yourself in {}.** It says what you may do alone, and who stands beside you for the rest.",
            linked("the hands", Ref("chapter", HANDS))),
        say("**Take one procedure to the bench**, printed or on the tablet. The large lines are what to do. "
            "The small lines in the margin are why."),
    ]


def _away(people_index: PeopleIndex, context: PageContext) -> Prose:
    who = listed((context.link("person", id_) for id_ in people_index.founders), "or") or prose("the master")
    return say(
        "Work that needs {} stops. Make the machine safe and clean it, label the piece with the last step done, and "
        "take up something you may do alone. For a question of how, ask somebody whom {} name as a teacher of it. For "
        "a question of whether, wait.", who, linked("the hands", Ref("chapter", HANDS)))


def _others(people_index: PeopleIndex, context: PageContext) -> Iterator[Prose]:
    """Who else teaches something."""
    for person in people_index.book.notebook.living:
        taught = [skill for skill, people in people_index.teachers.items() if person in people]
        if taught and person not in people_index.founders:
            skills = listed(context.link("skill", s, lowered(context.title("skill", s))) for s in taught)
            yield say("**{}**: {}.", context.link("person", person), skills)


def _stories(context: PageContext) -> Iterator[Prose]:
    for story in context.book.notebook.stories:
        yield linked(context.plain(story.title), Ref("story", story.path.removeprefix("procedures/")))


def _edition(context: PageContext) -> Prose:
    """When it was made, and of how much."""
    nb = context.book.notebook
    counts = [(len(nb.procedures), "procedure"), (len(nb.skills), "skill"), (len(nb.things), "tool and material"),
              (len(nb.living), "person")]
    told = listed(f"{number(count)} {_plural(noun, count)}" for count, noun in counts if count)
    made = f"Made from the notebook of the shop on {dated_day(context.book.analysis.today)}"
    return sentence(say("{}: {}", made, told) if told else prose(made))


def _plural(noun: str, count: int) -> str:
    if count == 1:
        return re.sub(" and .*", "", noun)
    return {"person": "people", "tool and material": "tools and materials"}.get(noun, f"{noun}s")


def _revisions(context: PageContext) -> Iterator[tuple[str, str, Prose]]:
    """The newest revisions of all procedures."""
    found = [
        (revision, place.owner_id) for revision, place in context.book.analysis.index.of(Revision)
        if revision.date is not None and place.procedure is not None
    ]
    found.sort(key=lambda pair: pair[0].date.value.last, reverse=True)  # type: ignore[union-attr]
    for revision, procedure in found[:_LAST]:
        who = context.title("person", str(revision.who)) if revision.who is not None else ""
        what = say("{}: {}", context.link("procedure", procedure), context.words(revision.what))
        yield context.date(revision.date), who, what
