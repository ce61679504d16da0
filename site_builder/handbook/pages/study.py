"""The page on which an apprentice studies a skill: what to know, and questions to ask oneself."""

from __future__ import annotations

from markupsafe import Markup

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import sentence
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.procedure_view import Common
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.study_harm import Harm
from site_builder.handbook.pages.study_lesson import lesson
from site_builder.handbook.pages.study_questions import questions
from site_builder.handbook.pages.study_view import StudyScribe
from site_builder.handbook.site import HANDS, Page
from site_builder.handbook.text import typeset
from site_builder.handbook.theme import token
from site_builder.notebook.gather import used_procedures

SCRIPT = "assets/handbook/study.js"


def study_sheet(people_index: PeopleIndex, common: Common, id_: str) -> Page | None:
    """The page of one skill; None where it covers no work that is written down."""
    book, skill = people_index.book, people_index.book.notebook.skills[id_]
    covered = dict.fromkeys(str(one) for one in skill.covers if str(one) in book.notebook.procedures)
    src_uri = book.addresses.get(("study", id_))
    if src_uri is None or not covered:
        return None
    context = PageContext(book, src_uri)
    scribes = [StudyScribe(book, book.notebook.procedures[one], common, context) for one in covered]
    harm = Harm(scribes, skill)
    signals, never, wear = harm.signals(), harm.never(), harm.wear()
    lessons = [lesson(view) for view in scribes]
    words = context.explained
    groups = questions(scribes, harm, words)
    count = sum(len(group.questions) for group in groups)
    title, shop = context.title("skill", id_), book.notebook.shop
    works = [book.notebook.procedures[one] for one in covered]
    used = [used for one in works for used in used_procedures(book.notebook, one)]
    html = pressed(
        "study.html.j2",
        kicker=Markup('<a href="{}">The hands</a> · <a href="{}">{}</a>').format(
            context.to(HANDS), context.href("skill", id_), typeset(title)),
        title=f"Study: {title}", lede=Markup(" ").join(sentence(context.words(reason)) for reason in skill.because),
        unsound=unsound(book, (skill.at.path, *(one.at.path for one in (*works, *used)))), count=count,
        signals=signals, never=never, wear=wear, lessons=lessons,
        words=[(word, typeset(word), context.words(book.notebook.words[word], glossary=False)) for word in words],
        groups=groups, keep=f"{token(str(shop.shop)) if shop is not None else 'shop'} {id_}", script=context.to(SCRIPT),
    )
    parts = (Part("questions", f"{title}: questions to ask yourself"),)
    told = f"What to know of {', '.join(one.title for one in scribes)}, and {count} questions to ask yourself."
    return Page(src_uri, f"Study: {title}", html, told, parts, skill.at.path)
