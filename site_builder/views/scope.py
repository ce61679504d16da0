"""On whose behalf words are told: what names, steps and variants mean within one procedure, tool, material or part."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from datetime import date
from functools import cached_property

from site_builder.notebook.answered import NO_HARM, NO_MATTER, NOT_KNOWN, read_answer
from site_builder.notebook.finding import At
from site_builder.notebook.gather import named_things, used_procedures
from site_builder.notebook.index import Place
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.entry import Condition, Entry
from site_builder.notebook.model.judging import ROUTES, Trouble
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Cadenced, Momentary, ParsedValue, Trending
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.things import Machine, Thing
from site_builder.notebook.references import all_steps, step_of
from site_builder.notebook.told_by import is_day, teller_of
from site_builder.notebook.tree import Text
from site_builder.quantity import spelt
from site_builder.views import rhythm, variant_words
from site_builder.views.anchors import token
from site_builder.views.dates import date_words, dated_day
from site_builder.views.heard import heard
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import (
    EVERY,
    Only,
    Prose,
    Ref,
    Untold,
    capital,
    joined,
    linked,
    listed,
    lowered,
    lowered_text,
    meant,
    prose,
    say,
    sentence,
    toned,
    unstopped,
)
from site_builder.views.typeset import typeset

_SOURCES = {"memory": "from memory", "measured": "measured in the shop", "maker": "from the maker’s instructions"}
_RATHER = {"below": "too little than too much", "above": "too much than too little"}
_TITLED = ("material", "part", "product", "customer", "machine")
_ASKED = {
    "because": "why is not told yet", "cause": "the cause is not told yet", "bad": "what bad is like is not told yet",
    "good": "what good is like is not told yet", "avoid": "how to avoid it is not told yet",
    "do": "what to do is not told yet", "then": "where to go then is not told yet", "word": "how grave is not told yet",
    "when": "when is not told yet", "who": "who is not told yet", "wins": "which of them decides is not told yet",
    "sign": "by what sign is not told yet", "check": "how often it is looked at is not told yet",
    "told": "where it was told is not written yet",
    "below": "what to do below is not told yet", "above": "what to do above is not told yet",
    "means": "what it means is not told yet", "harm": "what it does to you is not told yet",
    "hazards": "what can hurt is not told yet", "wear": "what to wear is not told yet",
    "away": "who keeps away is not told yet", "never": "what must never be done is not told yet",
    "tools": "with what it is done is not told yet", "materials": "what goes in is not told yet",
    "amount": "how much is not told yet", "settings": "what is set, and to what, is not told yet",
    "limits": "what must come out is not told yet", "conditions": "what must hold around the work is not told yet",
    "feel": "what good and bad feel like is not told yet", "checks": "what else is looked at is not told yet",
    "ready": "what must be true first is not told yet", "points": "what beginners get wrong is not told yet",
    "troubles": "what goes wrong is not told yet", "until": "when it is done is not told yet",
    "repeat": "how often it is done again is not told yet", "time": "how long it takes is not told yet",
    "wait": "how long it stands is not told yet", "hands": "how many hands it takes is not told yet",
    "yield": "how much is lost is not told yet", "skill": "who may do it alone is not told yet",
    "life": "when it is worn out is not told yet", "upkeep": "what upkeep it needs is not told yet",
    "supplier": "where to get more is not told yet", "maker": "who made it is not told yet",
    "sheet": "its safety sheet is not told yet", "calibration": "how one knows that it reads true is not told yet",
    "properties": "its figures are not told yet", "keep": "what is kept is not told yet",
    "write": "what is written down is not told yet", "title": "what it is called is not told yet",
}


def _unknown(entry: Entry, key: str) -> str:
    return _ASKED.get(key) or f"{_about(entry, key)} – not told yet"


def _about(entry: Entry, key: str) -> str:
    """What a key holds, in the words in which the model explains it to writers."""
    field = next((f for n, f in type(entry).model_fields.items() if (f.alias or n) == key), None)
    return lowered_text((field.description or key).rstrip(".")) if field is not None else key


_BY_ITSELF = re.compile(r"(?:or|otherwise|else|so|to|for|because|since|lest|unless|in order)\b", re.IGNORECASE)
"""How a reason begins that says itself how it hangs together: "or it scorches", "to keep the edge"."""
_ROUTES = {
    "next": "go on", "again": "look again", "aside": "lay it aside for a decision", "stop": "stop. Do not go on",
    "scrap": "it is scrap", "none": "there is no way back",
}


class Scope:
    """Tells of ``own``, whose kind and id are those of its page."""

    apart: bool = False
    """Whether it is told away from its page, where its places have no anchors."""

    def __init__(self, view: NotebookView, own: Entry, kind: str, id_: str) -> None:
        self.view = view
        self.own = own
        self.kind = kind
        self.id = id_
        self.nb = view.notebook
        self.references = view.analysis.references

    # --- plain words ------------------------------------------------------------------------------

    def words(self, text: str | None) -> Prose:
        """Free text."""
        return self.view.words(text)

    def within(self, text: str | None) -> Prose:
        """Free text that goes on from a sentence of ours: small first letter, no full stop."""
        said = self.lowered(self.words(text))
        return said if ". " in said.plain else unstopped(said)

    def lowered(self, said: str | Prose) -> Prose:
        """The first letter small, names left alone."""
        return lowered(said, self.view.proper)

    def reasons(self, entry: Entry) -> tuple[Prose, ...]:
        """Why: ``because …``, ``and because …``; a reason that cannot go on from our word stands as it was said."""
        told: list[Prose] = []
        for reason in entry.because:
            words = self.words(reason)
            our_word = toned("because", "and because" if told else "because")
            told.append(capital(words) if _BY_ITSELF.match(reason) else say("{} {}", our_word, self.lowered(words)))
        if "because" in entry.asked:
            told.append(capital(self.untold(_ASKED["because"], entry.at)))
        return tuple(told)

    def inline_why(self, entry: Entry) -> Prose:
        """The reasons in one line."""
        return joined(self.reasons(entry))

    def tail(self, entry: Entry, *, told: Iterable[str] = ("because",)) -> tuple[Prose, ...]:
        """Note, source, and keys that say ``ask`` (except those ``told`` elsewhere)."""
        lines: list[Prose] = []
        if entry.note is not None:
            lines.append(sentence(self.words(entry.note)))
        skip = set(told)
        if entry.source is not None and "source" not in skip:
            dated = date_words(getattr(entry, "date", None))
            lines.append(sentence(say("Source: {}{}", self.source(entry.source), f", {dated}" if dated else "")))
        if isinstance(entry, Limit) and entry.rather is not None:
            lines.append(prose(f"If it must miss, rather {_RATHER[str(entry.rather)]}."))
        lines += self.heard(entry)
        lines += [capital(self.untold(_unknown(entry, key), entry.at)) for key in sorted(entry.asked - skip)]
        return (*lines, *self.answers(entry))

    def answers(self, entry: Entry) -> tuple[Prose, ...]:
        """What was said where no answer could be written, a sentence each."""
        return tuple(self.answered(entry, str(key), str(text)) for key, text in entry.answered.items())

    def answered(self, entry: Entry, key: str, text: str) -> Prose:
        """What was said instead of an answer, who said it and when; as written where it cannot be read."""
        said = read_answer(text)
        about = _about(entry, key)
        if said is None:
            return say("Asked: {}: {}", about, self.words(text))
        by = say("{}, {}", self.view.person(said.who), dated_day(said.on))
        if said.kind == "ask":
            return say("Not told yet, and {} may know it: {} ({}).", self.view.person(said.whom), about, by)
        word = {NOT_KNOWN: "Not known", NO_MATTER: "Does not matter here", NO_HARM: "Cannot hurt here"}[said.kind]
        return say("{}: {} ({}).", word, about, by)

    def heard(self, entry: Entry) -> tuple[Prose, ...]:
        """Where it was told, each moment on a line of its own."""
        return tuple(toned("line", heard(self.view, str(text))) for text in entry.told)

    def source(self, text: str) -> Prose:
        """Where a figure comes from, in words."""
        if text in _SOURCES:
            return prose(_SOURCES[text])
        first, _, rest = text.partition(" ")
        notes = {} if self.nb.shop is None else {str(id_): note for id_, note in self.nb.shop.sources.items()}
        note = notes.get(first.rstrip(",;"))
        if note is not None:
            by = ", ".join(filter(None, (str(note.author or ""), date_words(note.date))))
            named = say("{}{}", self.words(note.title), f" ({by})" if by else "")
            return say("{}{} {}", named, first[len(first.rstrip(",;")):], self.words(rest)) if rest else named
        teller, on = teller_of(text)
        if teller and (on or teller in self.nb.people):
            day = f", {dated_day(date.fromisoformat(on))}" if is_day(on) else ""
            who = self.view.person(teller) if teller in self.nb.people else self.words(teller)
            return say("told by {}{}", who, day)
        return self.within(text)

    def untold(self, words: str, at: At) -> Prose:
        """A thing that is asked for."""
        return Prose((Untold(words, at),))

    # --- names and ways ---------------------------------------------------------------------------

    def place(self, entry: Entry) -> Place:
        """Where an entry hangs; a copy hangs where the entry does from which it was made."""
        return self.view.place_of(entry.original) or Place(entry, "", None, None, self.own, self.id, None)

    def here(self, anchor: str) -> Ref:
        """A place on the page of this work."""
        return Ref(self.kind, self.id, anchor)

    def named(self, text: str) -> Prose:
        """A step, a procedure, a procedure/step or anything else by name; other words as they are."""
        first, _, rest = text.partition("/")
        if first in self.nb.procedures:
            other = self.nb.procedures[first]
            inner = step_of(other, rest)
            if inner is None:
                return self.view.link("procedure", first)
            shown = f"{typeset(self.view.title('procedure', first))}, {self.view.step_name(other, inner)}"
            return self.view.link("procedure", first, shown, self.view.anchor(inner))
        return self.view.any_link(text, ("tool", "material", "part", "order"))

    def things(self, ids: Iterable[str]) -> tuple[Prose, ...]:
        """Tools, materials, parts by name, or the words as written."""
        return tuple(self.view.any_link(id_, ("tool", "material", "part", "skill", "person")) for id_ in ids)

    def who(self, text: str) -> Prose:
        """A person by name, ``another``, or a role."""
        if text == "another":
            return prose("somebody else than the one who made it")
        if text in self.nb.people:
            return self.view.person(text)
        return self.words(text)

    def route(self, then: str, here: Step | None) -> Prose:
        """Where to go then, as the end of "Then …"; ``here`` is the step that sends there."""
        del here
        if then in ROUTES:
            return prose(_ROUTES[then])
        return say("go to {}", self.named(then))

    def way(self, then: str, here: Step | None) -> Prose:
        """The same as a sentence of its own. Of a thing to stop with, a remedy has been told before."""
        if then == "stop":
            return prose("Do not work with it until then")
        return capital(self.route(then, here)) if then in ("none", "scrap") else say("Then {}", self.route(then, here))

    def trouble(self, id_: str) -> Trouble | None:
        """A trouble that is told on this page."""
        del id_
        return None

    def moment(self, leaf: Momentary) -> Prose:
        """``the end of step 3``."""
        return rhythm.moment(leaf.value, self.named)

    def trend(self, leaf: Trending) -> Prose:
        """``falls 1 min for every 4 °C more of room temperature``."""
        return rhythm.trend(leaf.value, self._measured)

    def _measured(self, text: str) -> Prose:
        """What a value goes by: another value or a thing, never a step that is called alike."""
        return Scope.named(self, text)

    def cadence(self, when: Cadenced | Mapping[Text, Cadenced]) -> Prose:
        """How often; a small table of it row by row."""
        if isinstance(when, ParsedValue):
            return rhythm.cadence(when.value, self.named)
        rows = ((typeset(str(row)), rhythm.cadence(leaf.value, self.named)) for row, leaf in when.items())
        return joined((say("{}: {}", *row) for row in rows), "; ")

    @cached_property
    def only_machine(self) -> str | None:
        """The one machine in use, which nobody need be told at each setting; None where there are several."""
        return None

    @cached_property
    def trouble_anchors(self) -> Mapping[int, str]:
        """The place of each trouble that is told on this page, by the identity of the entry."""
        return {}

    # --- variants ---------------------------------------------------------------------------------

    @cached_property
    def dimensions(self) -> Mapping[str, tuple[str, ...]]:
        """The declared variants with their values."""
        found: dict[str, tuple[str, ...]] = {}
        shop = self.nb.shop.variants if self.nb.shop is not None else {}
        for name, variant in shop.items():
            found.setdefault(str(name), tuple(map(str, variant.values)))
        return found

    def is_variant(self, dimension: str) -> bool:
        """Whether a reader can choose a value of it: it is no measured name, and not a place on the piece."""
        return dimension in self.dimensions or dimension in (*_TITLED, "size", "season", "level")

    def variant(self, dimension: str, value: str) -> Prose:
        """``the deck pattern``, ``no pit``, ``zinc with 11 % aluminium``, ``room temperature 10 to 25 °C``."""
        if dimension in _TITLED:
            target = self.references.find(value)
            return prose(typeset(self.view.title(target.kind, target.id)) if target is not None else value)
        if dimension == "level":
            return say("one who {}", value if value in ("watches", "teaches") else f"works {value}")
        if self.is_variant(dimension):
            return say("no {}", dimension) if value == "none" else prose(variant_words.the(dimension, value))
        if dimension == "place":
            return say("the {}", typeset(value))
        return say("{} {}", dimension, spelt(typeset(value)))

    def only(self, condition: Condition | Entry) -> Only:
        """For whom a thing holds."""
        rows = condition.for_ if isinstance(condition, Entry) else condition
        if not rows:
            return EVERY
        choices = [
            listed((listed((self.variant(str(d), str(v)) for v in values), "or")
                             for d, values in row.items()))
            for row in rows
        ]
        words = say("Only with {}" if choices[0].plain.startswith("no ") else "Only for {}",
                       listed(choices, "or"))
        if len(rows) > 1:
            return Only(words)
        return Only(words, tuple((str(d), tuple(map(str, vs))) for d, vs in rows[0].items() if self.is_variant(str(d))))

    def meant(self, entry: Entry, words: Prose) -> Prose:
        """Words inside a sentence that may hold only for a variant."""
        return meant(self.only(entry), words)




class ProcedureScope(Scope):
    """Tells of a procedure; ``apart`` from its page there is no "this step" either."""

    own: Procedure

    def __init__(self, view: NotebookView, own: Procedure, *, apart: bool = False) -> None:
        super().__init__(view, own, "procedure", str(own.procedure))
        self.apart = apart

    def step_words(self, step: Step) -> str:
        """``step 3``."""
        return self.view.step_name(self.own, step)

    def step_link(self, step: Step) -> Prose:
        """``step 3`` with its link."""
        return linked(self.step_words(step), self.here(self.view.anchor(step)))

    def named(self, text: str) -> Prose:
        """A step of this work too."""
        step = step_of(self.own, text)
        return self.step_link(step) if step is not None else super().named(text)

    def who(self, text: str) -> Prose:
        """A role of this work too."""
        roles = (hands.roles for work in (self.own, *self.own.steps) for hands in work.hands)
        is_role = text not in self.nb.people and text != "another" and any(text in names for names in roles)
        return say("the {}", self.words(text)) if is_role else super().who(text)

    def route(self, then: str, here: Step | None) -> Prose:
        """Back or on to a step of this work too."""
        if here is not None and then in ("again", here.id):
            return say("do {} again", self.step_link(here)) if self.apart else prose("do this step again")
        step = step_of(self.own, then)
        if step is None or then in ROUTES:
            return super().route(then, here)
        place, own_place = self.own.places.get(id(step)), self.own.places.get(id(here))
        if place is None or own_place is None:
            return say("go to {}", self.step_link(step))
        return say("go {} to {}", "back" if place < own_place else "on", self.step_link(step))

    def way(self, then: str, here: Step | None) -> Prose:
        """Work that stops is not gone on with."""
        return capital(self.route(then, here)) if then == "stop" else super().way(then, here)

    def trouble(self, id_: str) -> Trouble | None:
        troubles = (trouble for work in (self.own, *all_steps(self.own)) for trouble in work.troubles)
        return next((trouble for trouble in troubles if trouble.id == id_), None)

    @cached_property
    def trouble_anchors(self) -> Mapping[int, str]:
        """The place of each trouble in the ledger, by the identity of the entry: its id, or the words of its sign."""
        taken: dict[str, int] = {}
        for work in (self.own, *all_steps(self.own)):
            for trouble in work.troubles:
                name = f"trouble-{trouble.id or token(str(trouble.sign))[:40].strip('-')}"
                while name in taken:
                    name += "-again"
                taken[name] = id(trouble)
        return {entry: name for name, entry in taken.items()}

    @cached_property
    def only_machine(self) -> str | None:
        named = {id_ for work in (self.own, *all_steps(self.own)) for id_ in named_things(work)}
        machines = [id_ for id_ in named if isinstance(self.nb.tools.get(id_), Machine)]
        return machines[0] if len(machines) == 1 else None

    @cached_property
    def dimensions(self) -> Mapping[str, tuple[str, ...]]:
        """Those of this work, the shop and the shared work; what steps find."""
        found = {str(name): tuple(map(str, variant.values)) for name, variant in self.own.variants.items()}
        found = {**super().dimensions, **found}
        for work in (self.own, *used_procedures(self.nb, self.own)):
            for name, variant in work.variants.items():
                found.setdefault(str(name), tuple(map(str, variant.values)))
            for step in work.steps:
                for dimension, values in step.finds.items():
                    found.setdefault(str(dimension), tuple(map(str, values)))
        return found


def scope_of(view: NotebookView, entry: Entry) -> Scope:
    """On behalf of anything that has a page: a procedure, a tool, a material, a skill."""
    if isinstance(entry, Procedure):
        return ProcedureScope(view, entry)
    kind = kind_of(entry)
    return Scope(view, entry, kind, str(entry.id) if isinstance(entry, Thing) else str(getattr(entry, kind, "")))
