"""Questions to ask oneself on the work of a skill, in the order in which the work goes.

Every answer is what the notebook says and nothing else; what it does not say is not asked. The questions are the
same at every build, and come out differently only where the notebook does.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from site_builder.handbook.pages.study_deeds import after_the_work, at_each_step, before_the_work
from site_builder.handbook.pages.study_harm import Harm
from site_builder.handbook.pages.study_view import Question, StudyScribe
from site_builder.handbook.pages.study_wording import quoted
from site_builder.handbook.site import WHOLE
from site_builder.handbook.text import typeset


@dataclass(frozen=True, slots=True)
class Group:
    """Questions that belong together."""

    title: str
    questions: tuple[Question, ...]


def questions(scribes: Sequence[StudyScribe], harm: Harm, words: Iterable[str]) -> tuple[Group, ...]:
    """First staying whole, then each piece of work, then the words."""
    groups = [Group("Staying whole", tuple(_whole(scribes, harm)))] if scribes else []
    groups += [Group(view.title, tuple(_work(view))) for view in scribes]
    groups += [Group("Words", tuple(_words(scribes[0], words)))] if scribes else []
    return tuple(group for group in _told_apart(groups) if group.questions)


def _whole(scribes: Sequence[StudyScribe], harm: Harm) -> Iterator[Question]:
    yield from harm.questions()
    shop, context = scribes[0].nb.shop, scribes[0].context
    if shop is not None and shop.accident:
        where = Markup('<a href="{}">Staying whole</a>').format(context.to(WHOLE, "if-someone-is-hurt"))
        yield Question("What do you do first when somebody is hurt?", (), tuple(map(context.words, shop.accident)),
                       ordered=True, where=where)


def _work(view: StudyScribe) -> Iterator[Question]:
    yield from before_the_work(view)
    yield from at_each_step(view)
    yield from after_the_work(view)


def _words(view: StudyScribe, words: Iterable[str]) -> Iterator[Question]:
    for word in words:
        meaning = view.nb.words[word]
        link = view.context.link("word", word, Markup("Words"))
        yield Question(f"What does {quoted(typeset(word))} mean?", (view.context.words(meaning, glossary=False),),
                       where=link)


def _told_apart(groups: Sequence[Group]) -> Iterator[Group]:
    """Each question once; where two have the same words but not the same answer, each says what its step does."""
    seen: set[str] = set()
    for group in groups:
        kept = []
        for question in group.questions:
            if question.key not in seen:
                seen.add(question.key)
                kept.append(question)
        asks = Counter(question.ask for question in kept)
        yield Group(group.title, tuple(
            replace(q, ask=f"{q.context} {q.ask}") if asks[q.ask] > 1 and q.context else q for q in kept
        ))


__all__ = ["Group", "Question", "questions"]
