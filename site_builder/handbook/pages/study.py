"""The page on which an apprentice studies a skill: what to know, and questions to ask oneself."""

from __future__ import annotations

from markupsafe import Markup

from site_builder.handbook.book import HANDS, Sheet
from site_builder.handbook.finder import Part
from site_builder.handbook.pages.in_words import sentence
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.procedure_scribe import Common
from site_builder.handbook.pages.roll import Roll
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.study_harm import Harm
from site_builder.handbook.pages.study_lesson import lesson
from site_builder.handbook.pages.study_questions import questions
from site_builder.handbook.pages.study_scribe import StudyScribe
from site_builder.handbook.pen import Pen
from site_builder.handbook.text import typeset
from site_builder.handbook.theme import token
from site_builder.notebook.gather import used_procedures

SCRIPT = "assets/handbook/study.js"


def study_sheet(roll: Roll, common: Common, id_: str) -> Sheet | None:
    """The page of one skill; None where it covers no work that is written down."""
    book, skill = roll.book, roll.book.notebook.skills[id_]
    covered = dict.fromkeys(str(one) for one in skill.covers if str(one) in book.notebook.procedures)
    src_uri = book.addresses.get(("study", id_))
    if src_uri is None or not covered:
        return None
    pen = Pen(book, src_uri)
    scribes = [StudyScribe(book, book.notebook.procedures[one], common, pen) for one in covered]
    harm = Harm(scribes, skill)
    signals, never, wear = harm.signals(), harm.never(), harm.wear()
    lessons = [lesson(scribe) for scribe in scribes]
    words = pen.explained
    groups = questions(scribes, harm, words)
    count = sum(len(group.questions) for group in groups)
    title, shop = pen.title("skill", id_), book.notebook.shop
    works = [book.notebook.procedures[one] for one in covered]
    used = [used for one in works for used in used_procedures(book.notebook, one)]
    html = pressed(
        "study.html.j2",
        kicker=Markup('<a href="{}">The hands</a> · <a href="{}">{}</a>').format(
            pen.to(HANDS), pen.href("skill", id_), typeset(title)),
        title=f"Study: {title}", lede=Markup(" ").join(sentence(pen.words(reason)) for reason in skill.because),
        unsound=unsound(book, (skill.at.path, *(one.at.path for one in (*works, *used)))), count=count,
        signals=signals, never=never, wear=wear, lessons=lessons,
        words=[(word, typeset(word), pen.words(book.notebook.words[word], glossary=False)) for word in words],
        groups=groups, keep=f"{token(str(shop.shop)) if shop is not None else 'shop'} {id_}", script=pen.to(SCRIPT),
    )
    parts = (Part("questions", f"{title}: questions to ask yourself"),)
    told = f"What to know of {', '.join(one.title for one in scribes)}, and {count} questions to ask yourself."
    return Sheet(src_uri, f"Study: {title}", html, told, parts, skill.at.path)
