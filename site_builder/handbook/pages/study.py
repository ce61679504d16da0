"""The page on which an apprentice studies a skill: what to know, and questions to ask oneself."""

from __future__ import annotations

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import HANDS, Page, Site
from site_builder.notebook.gather import used_procedures
from site_builder.views.anchors import token
from site_builder.views.prose import Ref, joined, linked, say, sentence, terms_in
from site_builder.views.study.harm import Harm
from site_builder.views.study.lesson import lesson
from site_builder.views.study.question import StudyScope
from site_builder.views.study.questions import questions
from site_builder.views.typeset import typeset

SCRIPT = "assets/handbook/study.js"


def study_sheet(book: Site, id_: str) -> Page | None:
    """The page of one skill; None where it covers no work that is written down."""
    skill = book.notebook.skills[id_]
    covered = dict.fromkeys(str(one) for one in skill.covers if str(one) in book.notebook.procedures)
    src_uri = book.addresses.get(("study", id_))
    if src_uri is None or not covered:
        return None
    context = PageContext(book, src_uri)
    scopes = [StudyScope(book.views, book.notebook.procedures[one]) for one in covered]
    harm = Harm(scopes, skill)
    signals, never, wear = harm.signals(), harm.never(), harm.wear()
    lessons = [lesson(scope) for scope in scopes]
    words = terms_in((signals, never, wear, lessons))
    groups = questions(scopes, harm, words)
    count = sum(len(group.questions) for group in groups)
    title, shop = context.title("skill", id_), book.notebook.shop
    works = [book.notebook.procedures[one] for one in covered]
    used = [used for one in works for used in used_procedures(book.notebook, one)]
    html = pressed(
        "study.html.j2", context,
        kicker=say("{} · {}", linked("The hands", Ref("chapter", HANDS)), book.views.link("skill", id_)),
        title=f"Study: {title}", lede=joined(sentence(book.views.words(reason)) for reason in skill.because),
        unsound=unsound(book, (skill.at.path, *(one.at.path for one in (*works, *used)))), count=count,
        signals=signals, never=never, wear=wear, lessons=lessons,
        words=[(word, typeset(word), book.views.words(book.notebook.words[word], glossary=False)) for word in words],
        groups=groups, keep=f"{token(str(shop.shop)) if shop is not None else 'shop'} {id_}", script=context.to(SCRIPT),
    )
    parts = (Part("questions", f"{title}: questions to ask yourself"),)
    told = f"What to know of {', '.join(one.title for one in scopes)}, and {count} questions to ask yourself."
    return Page(src_uri, f"Study: {title}", html, told, parts, skill.at.path)
