"""Questions to ask oneself on the work of a skill, in the order in which the work goes.

Every answer is what the notebook says and nothing else; what it does not say is not asked. The questions are the
same at every build, and come out differently only where the notebook does.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from site_builder.views.prose import Ref, linked, prose
from site_builder.views.study.deeds import after_the_work, at_each_step, before_the_work
from site_builder.views.study.harm import Harm
from site_builder.views.study.question import Question, StudyScope
from site_builder.views.study.wording import quoted
from site_builder.views.typeset import typeset


@dataclass(frozen=True, slots=True)
class Group:
    """Questions that belong together."""

    title: str
    questions: tuple[Question, ...]


def questions(scopes: Sequence[StudyScope], harm: Harm, words: Iterable[str]) -> tuple[Group, ...]:
    """First staying whole, then each piece of work, then the words."""
    groups = [Group("Staying whole", tuple(_whole(scopes, harm)))] if scopes else []
    groups += [Group(scope.title, tuple(_work(scope))) for scope in scopes]
    groups += [Group("Words", tuple(_words(scopes[0], words)))] if scopes else []
    return tuple(group for group in _told_apart(groups) if group.questions)


def _whole(scopes: Sequence[StudyScope], harm: Harm) -> Iterator[Question]:
    yield from harm.questions()
    scope = scopes[0]
    shop = scope.nb.shop
    if shop is not None and shop.accident:
        where = linked("Staying whole", Ref("chapter", "staying-whole.md", "if-someone-is-hurt"))
        yield Question("What do you do first when somebody is hurt?", (), tuple(map(scope.words, shop.accident)),
                       ordered=True, where=where)


def _work(scope: StudyScope) -> Iterator[Question]:
    yield from before_the_work(scope)
    yield from at_each_step(scope)
    yield from after_the_work(scope)


def _words(scope: StudyScope, words: Iterable[str]) -> Iterator[Question]:
    for word in words:
        meaning = scope.nb.words[word]
        link = scope.view.link("word", word, prose("Words"))
        yield Question(f"What does {quoted(typeset(word))} mean?", (scope.view.words(meaning, glossary=False),),
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



