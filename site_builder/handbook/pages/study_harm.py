"""What can hurt, what is forbidden, what to wear and what wears out, over all the work of a skill: told and asked."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from markupsafe import Markup

from site_builder.checks.page_facts import noun
from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.harms import gravity
from site_builder.handbook.pages.procedure_harm import UNGRADED, peril
from site_builder.handbook.pages.procedure_remedies import exemption
from site_builder.handbook.pages.procedure_views import Item, Never, Peril, Signal
from site_builder.handbook.pages.sayings import end_words
from site_builder.handbook.pages.study_view import Question, StudyScribe
from site_builder.handbook.pages.study_wording import be
from site_builder.handbook.pages.wear_told import THROUGHOUT, worn_by_work, worn_cases, worn_links
from site_builder.notebook.gather import WORD_ORDER, things_of, used_procedures
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.harm import Never as Forbidden
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.things import Machine, Material, Thing
from site_builder.notebook.references import all_steps
from site_builder.notebook.wearing import worn_for


@dataclass
class Owner:
    """A thing or a piece of work, with what can hurt and what is forbidden there."""

    view: StudyScribe
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

    def __init__(self, scribes: Sequence[StudyScribe], skill: Skill) -> None:
        self.scribes = scribes
        self.skill = skill

    @cached_property
    def owners(self) -> tuple[Owner, ...]:
        """In the order of the work; a thing stands where it is first used."""
        found: dict[tuple[str, str], Owner] = {}
        for view in self.scribes:
            for id_, thing in things_of(view.nb, view.own):
                key = "thing", id_
                found.setdefault(key, Owner(view, thing, id_, sorted(thing.hazards, key=gravity), [*thing.never]))
            for work in (view.own, *used_procedures(view.nb, view.own)):
                key = "work", str(work.procedure)
                if key not in found:
                    found[key] = _work(_scribe_of(view, work), work)
        return tuple(found.values())

    # ------------------------------------------------------------------ told

    def signals(self) -> tuple[Signal, ...]:
        """Every hazard in full, gravest first; that to the body in the long run behind the others of its word."""
        frames: dict[str, dict[tuple[str, str], Peril]] = {word: {} for word in (*WORD_ORDER, UNGRADED)}
        for owner in self.owners:
            for hazard in owner.hazards:
                key = (str(hazard.hazard).lower(), str(hazard.harm or ""))
                frames[str(hazard.word or UNGRADED)].setdefault(key, _peril(owner, hazard))
        for hazard in self.skill.hazards if self.scribes else ():
            key = (str(hazard.hazard).lower(), str(hazard.harm or ""))
            frames[str(hazard.word or UNGRADED)].setdefault(key, peril(self.scribes[0], hazard))
        return tuple(Signal(word=word, perils=tuple(found.values())) for word, found in frames.items() if found)

    def never(self) -> Never | None:
        """Every prohibition with its reason and its place."""
        items: dict[str, Item] = {}
        for owner in self.owners:
            for entry in owner.nevers:
                words = _never(owner.view, entry)
                tail = (*_reasons(owner.view, entry), _place(owner))
                items.setdefault(str(words), Item(words=words, tail=tail, only=owner.view.only(entry)))
        return Never(items=tuple(items.values())) if items else None

    def wear(self) -> list[tuple[Markup, Markup]]:
        """What to wear for which work."""
        return worn_by_work(self.scribes[0].context, (view.own for view in self.scribes)) if self.scribes else []

    # ------------------------------------------------------------------ asked

    def questions(self) -> Iterator[Question]:
        """By the thing or the work that can hurt; then what to wear, and what wears out."""
        for owner in self.owners:
            view, named = owner.view, self._named(owner.thing) if owner.thing is not None else ""
            at = view.when_you if not named else f"at {named}" if isinstance(owner.thing, Machine) else \
                f"when you work with {named}"
            if owner.people:
                yield self._asked(owner, f"What can hurt you {at}, and how do you avoid it?",
                                  [_in_full(view, hazard) for hazard in owner.people])
            if owner.notices:
                yield self._asked(owner, f"What spoils the work {at}, and how do you avoid it?",
                                  [_in_full(view, hazard) for hazard in owner.notices])
            if owner.nevers:
                reason = ", and why" if any(entry.because for entry in owner.nevers) else ""
                at = at.removeprefix("when you work ") if named else at
                yield self._asked(owner, f"What must you never do {at}{reason}?", [
                    Markup(" ").join((Markup("<b>{}</b>").format(_never(view, entry)), *_reasons(view, entry)))
                    for entry in owner.nevers])
        for view in self.scribes:
            cases = [*worn_cases(view.context, view.own)]
            if cases:
                always = [*map(in_words.capital, worn_links(view.context, worn_for(view.nb, view.own)[0].protection))]
                worn = always if len(cases) == 1 and cases[0][0] == THROUGHOUT else [
                    in_words.capital(filled("{}: {}", when, what)) for when, what in cases]
                yield view.asked(f"What do you wear {view.when_you}?", items=worn)
        yield from self._life()
        yield from self._body()

    def _body(self) -> Iterator[Question]:
        """What the work does to a body in the long run."""
        items = [_in_full(self.scribes[0], hazard) for hazard in self.skill.hazards] if self.scribes else []
        if items:
            yield Question("What does this work do to your body, and what do you do about it?", (), tuple(items),
                           where=self.scribes[0].context.link("skill", str(self.skill.skill)))

    def _life(self) -> Iterator[Question]:
        things: dict[str, tuple[StudyScribe, Thing]] = {}
        for view in self.scribes:
            for id_, thing in things_of(view.nb, view.own):
                things.setdefault(id_, (view, thing))
        for id_, (view, thing) in things.items():
            told = [end_words(view.context, end) for end in thing.life]
            lines = [Markup(" ").join(part for part in (when, in_words.sentence(then)) if part) for when, then in told]
            if any(lines):
                worn = "no longer good" if isinstance(thing, Material) else "worn"
                then = ", and what do you do then" if any(then for _, then in told) else ""
                named = self._named(thing)
                ask = f"How do you know that {named} {be(named)} {worn}{then}?"
                yield self._asked(Owner(view, thing, id_), ask, lines)

    def _named(self, thing: Thing) -> str:
        """``the belt grinder``; the whole title where two things share their first words."""
        title = self.scribes[0].context.plain(thing.title)
        short = noun(title)
        rest = title[len(short):] if self._shares[short] > 1 else ""
        return f"the {short}{rest}"

    @cached_property
    def _shares(self) -> Mapping[str, int]:
        """How many of the things in use are called by the same first words."""
        found: dict[str, set[str]] = defaultdict(set)
        for view in self.scribes:
            for id_, thing in things_of(view.nb, view.own):
                found[noun(view.context.plain(thing.title))].add(id_)
        return defaultdict(int, {name: len(ids) for name, ids in found.items()})

    def _asked(self, owner: Owner, ask: str, items: Sequence[Markup]) -> Question:
        lines, several = (items, ()) if len(items) == 1 else ((), items)
        return Question(ask, tuple(lines), tuple(several), where=_link(owner))


def _work(view: StudyScribe, work: Procedure) -> Owner:
    """A piece of work with what its steps say."""
    works = (work, *all_steps(work))
    hazards = sorted((hazard for one in works for hazard in one.hazards), key=gravity)
    return Owner(view, None, str(work.procedure), hazards, [never for one in works for never in one.never])


def _scribe_of(view: StudyScribe, work: Procedure) -> StudyScribe:
    """Shared work that is used is spoken of by its own title."""
    return view if work is view.own else StudyScribe(view.book, work, view.common, view.context)


def _peril(owner: Owner, hazard: Hazard) -> Peril:
    found = peril(owner.view, hazard)
    return replace(found, tail=(*found.tail, _place(owner)))


def _place(owner: Owner) -> Markup:
    """``At Belt grinder.``, ``With White spirit.``"""
    at = owner.thing is None or isinstance(owner.thing, Machine)
    return Markup("{} {}.").format("At" if at else "With", _link(owner))


def _link(owner: Owner) -> Markup:
    kind = "procedure" if owner.thing is None else "material" if isinstance(owner.thing, Material) else "tool"
    return owner.view.context.link(kind, owner.id)


def _in_full(view: StudyScribe, hazard: Hazard) -> Markup:
    """Signal word, what it is, what it does, how to avoid it, what to wear, whom to keep away."""
    found = peril(view, hazard.with_changes(asked=frozenset()) if hazard.avoid is not None else hazard)
    word = Markup("<b>{}:</b> ").format(str(hazard.word).capitalize()) if hazard.word is not None else Markup("")
    said: list[str | Markup] = [Markup("{}{}").format(word, in_words.lowered(found.what)), found.harm]
    said += [found.avoid] if hazard.avoid is not None else []
    said += [Markup("Wear: {}").format(in_words.listed(found.wear))] if found.wear else []
    said += [Markup("Keep away: {}").format(in_words.listed(found.away))] if found.away else []
    said += [found.age] if found.age else []
    return view.meant(hazard, in_words.joined_sentences([*said, *found.tail]))


def _never(view: StudyScribe, entry: Forbidden) -> Markup:
    return in_words.sentence(Markup("Never {}").format(in_words.lowered(view.words(entry.do), view.common.proper)))


def _reasons(view: StudyScribe, entry: Forbidden) -> Iterable[Markup]:
    told = [*view.because(reasons=map(view.words, entry.because))]
    return [*told, exemption(view, entry.unless)] if entry.unless is not None else told


__all__ = ["Harm"]
