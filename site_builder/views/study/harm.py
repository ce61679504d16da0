"""What can hurt, what is forbidden, what to wear and what wears out, over all the work of a skill: told and asked."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from site_builder.checks.page_facts import noun
from site_builder.notebook.gather import WORD_ORDER, things_of, used_procedures
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.harm import Never as Forbidden
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.things import Machine, Material, Thing
from site_builder.notebook.references import all_steps
from site_builder.notebook.wearing import worn_for
from site_builder.views.blocks import Item, NeverBlock, Peril, Signal
from site_builder.views.end import what_then, worn_when
from site_builder.views.hazard import UNGRADED, gravity, peril
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, listed, lowered, say, sentence, sentences, toned
from site_builder.views.remedy import exemption
from site_builder.views.study.question import Question, StudyScope
from site_builder.views.study.wording import be
from site_builder.views.wear import THROUGHOUT, worn_by_work, worn_cases, worn_links


@dataclass
class Owner:
    """A thing or a piece of work, with what can hurt and what is forbidden there."""

    scope: StudyScope
    thing: Thing | None
    id: str
    hazards: list[Hazard] = field(default_factory=list)
    nevers: list[Forbidden] = field(default_factory=list)

    @property
    def people(self) -> list[Hazard]:
        """What can hurt somebody."""
        return [hazard for hazard in self.hazards if hazard.word != "notice"]

    @property
    def notices(self) -> list[Hazard]:
        """What harms the work alone."""
        return [hazard for hazard in self.hazards if hazard.word == "notice"]


class Harm:
    """Gathered once for a page: everything stands at the thing or the work it belongs to, each once."""

    def __init__(self, scopes: Sequence[StudyScope], skill: Skill) -> None:
        self.scopes = scopes
        self.skill = skill

    @cached_property
    def owners(self) -> tuple[Owner, ...]:
        """In the order of the work; a thing stands where it is first used."""
        found: dict[tuple[str, str], Owner] = {}
        for scope in self.scopes:
            for id_, thing in things_of(scope.nb, scope.own):
                key = "thing", id_
                found.setdefault(key, Owner(scope, thing, id_, sorted(thing.hazards, key=gravity), [*thing.never]))
            for work in (scope.own, *used_procedures(scope.nb, scope.own)):
                key = "work", str(work.procedure)
                if key not in found:
                    found[key] = _work(_scribe_of(scope, work), work)
        return tuple(found.values())

    # ------------------------------------------------------------------ told

    def signals(self) -> tuple[Signal, ...]:
        """Every hazard in full, gravest first; that to the body in the long run behind the others of its word."""
        frames: dict[str, dict[tuple[str, str], Peril]] = {word: {} for word in (*WORD_ORDER, UNGRADED)}
        for owner in self.owners:
            for hazard in owner.hazards:
                key = (str(hazard.hazard).lower(), str(hazard.harm or ""))
                frames[str(hazard.word or UNGRADED)].setdefault(key, _peril(owner, hazard))
        for hazard in self.skill.hazards if self.scopes else ():
            key = (str(hazard.hazard).lower(), str(hazard.harm or ""))
            frames[str(hazard.word or UNGRADED)].setdefault(key, peril(self.scopes[0], hazard))
        return tuple(Signal(word=word, perils=tuple(found.values())) for word, found in frames.items() if found)

    def never(self) -> NeverBlock | None:
        """Every prohibition with its reason and its place."""
        items: dict[str, Item] = {}
        for owner in self.owners:
            for entry in owner.nevers:
                words = _never(owner.scope, entry)
                tail = (*_reasons(owner.scope, entry), _place(owner))
                items.setdefault(str(words), Item(words=words, tail=tail, only=owner.scope.only(entry)))
        return NeverBlock(items=tuple(items.values())) if items else None

    def wear(self) -> list[tuple[Prose, Prose]]:
        """What to wear for which work."""
        return worn_by_work(self.scopes[0].view, (scope.own for scope in self.scopes)) if self.scopes else []

    # ------------------------------------------------------------------ asked

    def questions(self) -> Iterator[Question]:
        """By the thing or the work that can hurt; then what to wear, and what wears out."""
        for owner in self.owners:
            scope, named = owner.scope, self._named(owner.thing) if owner.thing is not None else ""
            at = scope.when_you if not named else f"at {named}" if isinstance(owner.thing, Machine) else \
                f"when you work with {named}"
            if owner.people:
                yield self._asked(owner, f"What can hurt you {at}, and how do you avoid it?",
                                  [_in_full(scope, hazard) for hazard in owner.people])
            if owner.notices:
                yield self._asked(owner, f"What spoils the work {at}, and how do you avoid it?",
                                  [_in_full(scope, hazard) for hazard in owner.notices])
            if owner.nevers:
                reason = ", and why" if any(entry.because for entry in owner.nevers) else ""
                at = at.removeprefix("when you work ") if named else at
                yield self._asked(owner, f"What must you never do {at}{reason}?", [
                    joined((toned("lead", _never(scope, entry)), *_reasons(scope, entry)))
                    for entry in owner.nevers])
        for scope in self.scopes:
            cases = [*worn_cases(scope.view, scope.own)]
            if cases:
                always = [*map(capital, worn_links(scope.view, worn_for(scope.nb, scope.own)[0].protection))]
                worn = always if len(cases) == 1 and cases[0][0] == THROUGHOUT else [
                    capital(say("{}: {}", when, what)) for when, what in cases]
                yield scope.asked(f"What do you wear {scope.when_you}?", items=worn)
        yield from self._life()
        yield from self._body()

    def _body(self) -> Iterator[Question]:
        """What the work does to a body in the long run."""
        items = [_in_full(self.scopes[0], hazard) for hazard in self.skill.hazards] if self.scopes else []
        if items:
            yield Question("What does this work do to your body, and what do you do about it?", (), tuple(items),
                           where=self.scopes[0].view.link("skill", str(self.skill.skill)))

    def _life(self) -> Iterator[Question]:
        things: dict[str, tuple[StudyScope, Thing]] = {}
        for scope in self.scopes:
            for id_, thing in things_of(scope.nb, scope.own):
                things.setdefault(id_, (scope, thing))
        for id_, (scope, thing) in things.items():
            lines = [joined((worn_when(scope, end), what_then(scope, end, None))) for end in thing.life if end.ways()]
            if any(lines):
                worn = "no longer good" if isinstance(thing, Material) else "worn"
                then = ", and what do you do then" if any(end.do for end in thing.life) else ""
                named = self._named(thing)
                ask = f"How do you know that {named} {be(named)} {worn}{then}?"
                yield self._asked(Owner(scope, thing, id_), ask, lines)

    def _named(self, thing: Thing) -> str:
        """``the belt grinder``; the whole title where two things share their first words."""
        title = self.scopes[0].view.plain(thing.title)
        short = noun(title)
        rest = title[len(short):] if self._shares[short] > 1 else ""
        return f"the {short}{rest}"

    @cached_property
    def _shares(self) -> Mapping[str, int]:
        """How many of the things in use are called by the same first words."""
        found: dict[str, set[str]] = defaultdict(set)
        for scope in self.scopes:
            for id_, thing in things_of(scope.nb, scope.own):
                found[noun(scope.view.plain(thing.title))].add(id_)
        return defaultdict(int, {name: len(ids) for name, ids in found.items()})

    def _asked(self, owner: Owner, ask: str, items: Sequence[Prose]) -> Question:
        lines, several = (items, ()) if len(items) == 1 else ((), items)
        return Question(ask, tuple(lines), tuple(several), where=_link(owner))


def _work(scope: StudyScope, work: Procedure) -> Owner:
    """A piece of work with what its steps say."""
    works = (work, *all_steps(work))
    hazards = sorted((hazard for one in works for hazard in one.hazards), key=gravity)
    return Owner(scope, None, str(work.procedure), hazards, [never for one in works for never in one.never])


def _scribe_of(scope: StudyScope, work: Procedure) -> StudyScope:
    """Shared work that is used is spoken of by its own title."""
    return scope if work is scope.own else StudyScope(scope.view, work)


def _peril(owner: Owner, hazard: Hazard) -> Peril:
    found = peril(owner.scope, hazard)
    return replace(found, tail=(*found.tail, _place(owner)))


def _place(owner: Owner) -> Prose:
    """``At Belt grinder.``, ``With White spirit.``"""
    at = owner.thing is None or isinstance(owner.thing, Machine)
    return say("{} {}.", "At" if at else "With", _link(owner))


def _link(owner: Owner) -> Prose:
    kind = "procedure" if owner.thing is None else "material" if isinstance(owner.thing, Material) else "tool"
    return owner.scope.view.link(kind, owner.id)


def _in_full(scope: StudyScope, hazard: Hazard) -> Prose:
    """Signal word, what it is, what it does, how to avoid it, what to wear, whom to keep away."""
    found = peril(scope, hazard.with_changes(asked=frozenset()) if hazard.avoid is not None else hazard)
    word = toned("lead", f"{str(hazard.word).capitalize()}:") if hazard.word is not None else NO_WORDS
    said: list[str | Prose] = [joined((word, lowered(found.what))), found.harm]
    said += [found.avoid] if hazard.avoid is not None else []
    said += [say("Wear: {}", listed(found.wear))] if found.wear else []
    said += [say("Keep away: {}", listed(found.away))] if found.away else []
    said += [found.age] if found.age else []
    return scope.meant(hazard, sentences([*said, *found.tail]))


def _never(scope: StudyScope, entry: Forbidden) -> Prose:
    return sentence(say("Never {}", scope.lowered(scope.words(entry.do))))


def _reasons(scope: StudyScope, entry: Forbidden) -> Iterable[Prose]:
    told = [*scope.because(reasons=map(scope.words, entry.because))]
    return [*told, exemption(scope, entry.unless)] if entry.unless is not None else told



