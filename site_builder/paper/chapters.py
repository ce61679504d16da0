"""The chapters of the book: which views stand in them, and the names of the places to which the rest of it refers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.kinds import on_shelf
from site_builder.notebook.model.things import Material, Thing, Tool
from site_builder.notebook.way import NO_PART, Ways, account, ways
from site_builder.paper.as_data import target
from site_builder.skills.known import knowledge_of
from site_builder.views.dates import date_words
from site_builder.views.docket import first_batch
from site_builder.views.fact import Fact, fact, sources
from site_builder.views.glossary import word_uses
from site_builder.views.hazard import gravity, signals
from site_builder.views.notebook_view import NotebookView, System
from site_builder.views.part_facts import part_facts
from site_builder.views.part_joins import joins, variants
from site_builder.views.part_way import steps_of_way
from site_builder.views.picture import shots
from site_builder.views.procedure import procedure_view
from site_builder.views.prose import NO_WORDS, Prose, Ref, capital, joined, listed, prose, say, sentence
from site_builder.views.scope import ProcedureScope, Scope, scope_of
from site_builder.views.shop_ages import age_ledger, exposure_ledger
from site_builder.views.shop_dangers import deadly
from site_builder.views.shop_days import whole_days
from site_builder.views.shop_harms import MEANINGS
from site_builder.views.shop_places import harm_places
from site_builder.views.shop_wear import kinds_ledger, unprotected, wear_ledger
from site_builder.views.skill import EVIDENCE, proof_words, skill_facts
from site_builder.views.thing import thing_view
from site_builder.views.thing_head import (
    comes_before,
    kept_apart,
    legend,
    maker_and_note,
    material_facts,
)
from site_builder.views.uses import Uses
from site_builder.views.value import limit_value

_NAMED = 12
"""So many pages are looked up at a word of the glossary."""


@dataclass(frozen=True)
class Section:
    """A piece of the book that is told as one: of what, called what, its views by name, and its places."""

    home: str
    called: str
    views: dict[str, Any]
    places: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Chapter:
    """A chapter: its kind is the template's name for it."""

    kind: str
    title: str
    head: Section
    sections: tuple[Section, ...] = ()


class Gathering:
    """Gathers the chapters of a notebook."""

    def __init__(self, analysis: Analysis, system: System = "both") -> None:
        self.analysis = analysis
        self.nb = analysis.notebook
        self.view = NotebookView(analysis, system)
        self.uses = Uses(self.view)

    @cached_property
    def ways(self) -> Ways:
        """The way of each part."""
        return ways(self.nb, self.analysis.route)

    def chapters(self) -> Iterator[Chapter]:
        """In the order of the book."""
        for part, way in self.ways.items():
            if part != NO_PART:
                yield self._part(part, way)
        shared = self.analysis.route.shared(self.nb)
        rest = (*self.ways.get(NO_PART, ()), *shared)
        if rest:
            title = "Work for several parts" if self.nb.parts else "The work"
            yield Chapter("work", title, Section("chapter:rest", title, {}), tuple(map(self.procedure, rest)))
        yield from self._tools()
        yield self._whole()
        if self.nb.people or self.nb.skills:
            yield self._hands()
        if self.nb.changes:
            yield self._changes()
        if self.nb.words:
            yield self._words()

    # --- the work -----------------------------------------------------------------------------------

    def procedure(self, id_: str) -> Section:
        """One procedure in full."""
        own = self.nb.procedures[id_]
        scope = ProcedureScope(self.view, own)
        seen = procedure_view(scope, self._batch)
        home = target(Ref("procedure", id_))
        anchors = (*(self.view.anchor(step) for step in own.steps), *scope.trouble_anchors.values())
        places = frozenset({home, *(target(Ref("procedure", id_, one)) for one in anchors)})
        return Section(home, seen.title, {"view": seen}, places)

    @cached_property
    def _batch(self) -> Any:
        return first_batch(self.nb)

    def _part(self, id_: str, way: tuple[str, ...]) -> Chapter:
        part = self.nb.parts[id_]
        scope = Scope(self.view, part, "part", id_)
        title, home = self.view.title("part", id_), target(Ref("part", id_))
        told = account(self.nb, way) if way else None
        sizes = [(str(name), limit) for name, limits in part.sizes.items() for limit in limits]
        head = Section(home, title, {
            "lede": joined(map(scope.words, part.because)), "note": scope.words(part.note),
            "pictures": shots(scope, part.pictures), "facts": part_facts(scope, part, told, self.ways),
            "sources": sources(scope, sizes, part.source), "way": [one[1:] for one in steps_of_way(self.view, way)],
            "joins": joins(scope, part, self.ways), "variants": variants(scope, part, way),
        }, frozenset({home}))
        return Chapter("part", title, head, tuple(map(self.procedure, way)))

    # --- tools and materials --------------------------------------------------------------------------

    def _tools(self) -> Iterator[Chapter]:
        for kind in on_shelf("tool"):
            found = [tool for tool in self.nb.tools.values() if kind.key == tool.KIND]
            if found:
                head = Section(f"chapter:{kind.key}", kind.several, {})
                yield Chapter("things", kind.several, head, tuple(map(self._tool, found)))
        if self.nb.materials:
            apart = kept_apart(self.nb)
            sections = tuple(self._material(one, apart.get(id_, ())) for id_, one in self.nb.materials.items())
            yield Chapter("things", "Materials", Section("chapter:materials", "Materials", {}), sections)

    def _tool(self, tool: Tool) -> Section:
        scope = scope_of(self.view, tool)
        return self._thing(scope, tool, (), {"legend": legend(scope, tool), "law": NO_WORDS, "apart": ()})

    def _material(self, material: Material, apart: tuple[str, ...]) -> Section:
        scope = scope_of(self.view, material)
        own = tuple(material_facts(scope, self.uses, material))
        return self._thing(scope, material, own, {
            "legend": (), "law": comes_before(scope, material),
            "apart": tuple(capital(self.view.link("material", other)) for other in apart)})

    def _thing(self, scope: Scope, thing: Thing, extra: tuple[Fact, ...], more: dict[str, Any]) -> Section:
        title, home = self.view.title(scope.kind, scope.id), target(Ref(scope.kind, scope.id))
        return Section(home, title, {
            "lede": joined(map(scope.words, thing.because)), "note": maker_and_note(scope, thing),
            "view": thing_view(scope, self.uses, thing, extra), **more}, frozenset({home}))

    # --- staying whole ----------------------------------------------------------------------------------

    def _whole(self) -> Chapter:
        """What kills first, then place by place, as the handbook tells it."""
        home = "chapter:whole"
        places = harm_places(self.uses)
        words = {group.word for one in places for group in one.groups}
        head = Section(home, "Staying whole", {
            "deadly": deadly(self.view), "wear": wear_ledger(self.uses), "bare": tuple(unprotected(self.uses)),
            "kinds": kinds_ledger(self.uses), "ages": age_ledger(self.view), "days": whole_days(self.uses),
            "exposures": exposure_ledger(self.uses),
            "met": [(word, meaning) for word, meaning in MEANINGS.items() if word in words],
        }, frozenset(f"{home}#{one.id}" for one in places))
        # each place names its own pages anew: it is looked up alone
        sections = tuple(Section(home, one.title, {"place": one, "at": f"{home}#{one.id}"}) for one in places)
        return Chapter("whole", "Staying whole", head, sections)

    # --- the hands ----------------------------------------------------------------------------------------

    def _hands(self) -> Chapter:
        people = [{"name": self.view.title("person", id_), "label": target(Ref("person", id_)),
                   "stay": _stay(date_words(one.joined), date_words(one.left)),
                   "says": joined(sentence(capital(self.view.words(words))) for words in (one.role, one.note) if words)}
                  for id_, one in self.nb.people.items()]
        head = Section("chapter:hands", "People and skills", {"people": people},
                       frozenset(target(Ref("person", id_)) for id_ in self.nb.people))
        order = sorted(self.nb.skills, key=lambda id_: self.view.title("skill", id_).casefold())
        return Chapter("hands", "People and skills", head, tuple(map(self._skill, order)))

    @cached_property
    def _teachers(self) -> Any:
        return knowledge_of(self.nb, self.analysis.route, self.analysis.holders).teachers

    def _skill(self, id_: str) -> Section:
        skill, holders = self.nb.skills[id_], self.analysis.holders
        scope = scope_of(self.view, skill)
        home, title = target(Ref("skill", id_)), self.view.title("skill", id_)
        teachers = [one for one in self.nb.people if one in self._teachers.get(id_, ())]
        signers = [one for one in self.nb.people if one in holders.signers(id_)]
        hours = capital(say("{} from the first look until alone", scope.words(str(skill.lessons.text)))) \
            if skill.lessons is not None else NO_WORDS
        held: dict[str, list[Prose]] = {}
        for one in holders.of_skill(id_):
            held.setdefault(one.level + (", rests" if one.rests else ""), []).append(self.view.person(one.person))
        facts = [*skill_facts(scope, skill, teachers, signers, untaught=not teachers and bool(held), hours=hours)]
        facts += [(capital(level).plain, listed(names)) for level, names in held.items()]
        return Section(home, title, {
            "lede": joined(sentence(scope.words(reason)) for reason in skill.because), "note": scope.words(skill.note),
            "pictures": shots(scope, skill.pictures), "facts": facts,
            "signals": signals(scope, sorted(skill.hazards, key=gravity)),
            "shown": [(scope.words(one.show), EVIDENCE[str(one.evidence or "seen")]) for one in skill.checklist],
            "proof": [*map(capital, proof_words(scope, skill.proof))] if skill.proof is not None else [],
            "questions": [scope.words(question) for question in skill.questions],
        }, frozenset({home}))

    # --- changes and words ------------------------------------------------------------------------------------

    def _changes(self) -> Chapter:
        sections = []
        newest = sorted(self.nb.changes.items(), reverse=True,
                        key=lambda pair: pair[1].date.value.last.isoformat() if pair[1].date is not None else "")
        for id_, change in newest:
            scope = scope_of(self.view, change)
            home, words = target(Ref("change", id_)), scope.words
            when = [fact("On", date_words(change.date))] if change.date is not None else []
            who = [fact("By", self.view.person(str(change.who)))] if change.who is not None else []
            at = [self.view.any_link(str(one), ("procedure",)) for one in change.covers]
            figures = [(capital(words(str(name))), _figure(scope, result.old), _figure(scope, result.new))
                       for name, result in change.results.items()]
            sections.append(Section(home, self.view.title("change", id_), {
                "lede": sentence(words(change.what)),
                "facts": (*when, *who, *((fact("At which work", listed(at)),) if at else ()),
                          fact("What came of it", str(change.outcome or "on trial"))),
                "because": [sentence(words(reason)) for reason in change.because], "figures": figures,
                "note": words(change.note), "evidence": listed(map(words, change.evidence)),
            }, frozenset({home})))
        return Chapter("changes", "Changes", Section("chapter:changes", "Changes", {}), tuple(sections))

    def _words(self) -> Chapter:
        used = word_uses(self.analysis, _NAMED)
        words = sorted(self.nb.words.items(), key=lambda pair: pair[0].lower().removeprefix("the "))
        entries = [{"word": capital(self.view.plain(word)).plain, "label": target(Ref("word", word)),
                    "means": sentence(self.view.words(meaning, glossary=False)),
                    "at": [target(Ref("procedure", one)) for one in used.get(word.lower(), ())]}
                   for word, meaning in words]
        return Chapter("words", "Words", Section("chapter:words", "Words", {"words": entries},
                       frozenset(target(Ref("word", word)) for word in self.nb.words)))


def _stay(joined_on: str, left_on: str) -> str:
    if left_on:
        return f"{joined_on} to {left_on}" if joined_on else f"until {left_on}"
    return f"since {joined_on}" if joined_on else ""


def _figure(scope: Scope, limits: tuple[Any, ...]) -> Prose:
    return limit_value(scope, limits[0]).inline if limits else prose("not yet told")


__all__ = ["MEANINGS", "Chapter", "Gathering", "Section"]
