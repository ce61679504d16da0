"""The hand that writes one page of a procedure: names, links, routes, rhythms, reasons, sources, variants."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Any

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_views import EVERY, NO_WORDS, Only
from site_builder.handbook.pages.proper import proper_names
from site_builder.handbook.pages.render import render
from site_builder.handbook.site import Site
from site_builder.handbook.text import typeset
from site_builder.handbook.theme import token
from site_builder.notebook.finding import At
from site_builder.notebook.gather import named_things, used_procedures
from site_builder.notebook.index import Index, Place
from site_builder.notebook.model.entry import Condition, Entry
from site_builder.notebook.model.judging import ROUTES
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Cadenced, Momentary, ParsedValue, Trending
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.things import Machine
from site_builder.notebook.references import ANY, all_steps, step_of
from site_builder.notebook.tree import Text

_SOURCES = {"memory": "from memory", "measured": "measured", "maker": "from the maker’s instructions"}
_TITLED = ("material", "part", "product", "customer", "machine")
_ASKED = {
    "because": "why is not told yet", "cause": "the cause is not told yet", "bad": "what bad is like is not told yet",
    "good": "what good is like is not told yet", "avoid": "how to avoid it is not told yet",
    "do": "what to do is not told yet", "then": "where to go then is not told yet", "word": "how grave is not told yet",
    "when": "when is not told yet", "who": "who is not told yet", "wins": "which of them decides is not told yet",
    "sign": "by what sign is not told yet", "check": "how often it is looked at is not told yet",
    "below": "what to do below is not told yet", "above": "what to do above is not told yet",
}


@dataclass(frozen=True)
class Common:
    """What all pages of the book share and nobody wants to work out two thousand times."""

    proper: frozenset[str]
    """Words that keep their capital inside a sentence."""
    noted: frozenset[int]
    """Identities of the procedures and steps where something is written down or kept."""
    varied: frozenset[str]
    """Ids of the procedures that differ by variant, or hold a table."""


def common(site: Site) -> Common:
    """Worked out once a book."""
    index = site.analysis.index
    varied = {place.owner_id for place in index.conditioned}
    varied |= {place.owner_id for limit, place in index.under(Limit) if isinstance(limit.is_, Table)}
    return Common(proper_names(site), frozenset(_noted(index)), frozenset(varied))


def _noted(index: Index) -> Iterator[int]:
    for kind, places in index.places.items():
        if kind.model_fields.keys() & {"write", "keep"}:
            for place in places:
                if getattr(place.entry, "write", ()) or getattr(place.entry, "keep", ()):
                    yield from (id(around.entry) for around in place.up() if isinstance(around.entry, Work))


class ProcedureView:
    """Writes for the page of ``own``."""

    def __init__(self, site: Site, own: Procedure, shared: Common) -> None:
        self.book = site
        self.own = own
        self.common = shared
        self.src_uri = site.addresses["procedure", str(own.procedure)]
        self.context = PageContext(site, self.src_uri)
        self.nb = site.notebook
        self.references = site.analysis.references

    # --- plain words ------------------------------------------------------------------------------

    def words(self, text: str | None) -> Markup:
        """Free text."""
        return self.context.words(text)

    def within(self, text: str | None) -> Markup:
        """Free text that goes on from a sentence of ours: small first letter, no full stop."""
        said = in_words.lowered(self.context.words(text), self.common.proper)
        single = said.count(". ") == 0
        return Markup(said[:-1]) if single and said.endswith(".") and not said.endswith("..") else said

    def reasons(self, *entries: Entry) -> tuple[Markup, ...]:
        """Why, to be read after the word "because"."""
        told = [in_words.lowered(self.context.words(r), self.common.proper) for e in entries for r in e.because]
        told += [self.untold(_ASKED["because"], e.at) for e in entries if "because" in e.asked]
        return tuple(told)

    def why(self, *entries: Entry) -> Markup:
        """The reasons in one line, where there is no margin for them."""
        reasons = self.reasons(*entries)
        return Markup(parts().because(reasons)) if reasons else NO_WORDS

    def inline_why(self, entry: Entry) -> Markup:
        """``because …``, inside a sentence."""
        return Markup(" ").join(filled("<i>because</i> {}", r) for r in self.reasons(entry))

    def tail(self, entry: Entry, *, told: Iterable[str] = ("because",)) -> tuple[Markup, ...]:
        """Note, source, and keys that say ``ask`` (except those ``told`` elsewhere)."""
        lines: list[Markup] = []
        if entry.note is not None:
            lines.append(in_words.sentence(self.words(entry.note)))
        if entry.source is not None:
            dated = getattr(entry, "date", None)
            when = f", {self.context.date(dated)}" if dated is not None else ""
            lines.append(in_words.sentence(filled("Source: {}{}", self.source(entry.source), when)))
        skip = set(told)
        unknown = (_ASKED.get(key, f"{key} is not told yet") for key in sorted(entry.asked - skip))
        lines += [in_words.capital(self.untold(words, entry.at)) for words in unknown]
        return tuple(lines)

    def source(self, text: str) -> Markup:
        """Where a figure comes from, in words."""
        if text in _SOURCES:
            return escape(_SOURCES[text])
        first, _, rest = text.partition(" ")
        notes = {} if self.nb.shop is None else self.nb.shop.sources
        if first in notes:
            note = notes[Text(first)] if not isinstance(first, Text) else notes[first]
            by = ", ".join(filter(None, (str(note.author or ""), self.context.date(note.date))))
            named = filled("{}{}", self.words(note.title), f" ({by})" if by else "")
            return filled("{} {}", named, self.words(rest)) if rest else named
        if text.startswith("told by "):
            teller = text.removeprefix("told by ")
            if teller in self.nb.people:
                return filled("told by {}", self.context.person(teller))
        return self.within(text)

    def untold(self, words: str, at: At) -> Markup:
        """A thing that is asked for, with a link to its question."""
        return Markup(parts().untold(words, self.question(at)))

    def question(self, at: At) -> str:
        """The address of the question that stands at this line, or of all questions."""
        return self.context.question_href(at)

    # --- names and ways ---------------------------------------------------------------------------

    def place(self, entry: Entry) -> Place:
        """Where an entry hangs."""
        found = self.book.place_of(entry)
        return found or Place(entry, "", None, None, self.own, str(self.own.procedure), None)

    def step_words(self, step: Step) -> str:
        """``step 3``."""
        return self.book.step_name(self.own, step)

    def step_link(self, step: Step) -> Markup:
        """``step 3`` with its link."""
        return filled('<a href="{}">{}</a>', self.here(self.book.anchor(step)), self.step_words(step))

    def here(self, anchor: str) -> str:
        """The address of a place on the page of this work."""
        return f"#{anchor}"

    def named(self, text: str) -> Markup:
        """A step, a procedure, a procedure/step or anything else by name; other words as they are."""
        step = step_of(self.own, text)
        if step is not None:
            return self.step_link(step)
        first, _, rest = text.partition("/")
        if first in self.nb.procedures:
            other = self.nb.procedures[first]
            inner = step_of(other, rest)
            if inner is None:
                return self.context.link("procedure", first)
            shown = f"{typeset(self.context.title('procedure', first))}, {self.book.step_name(other, inner)}"
            return self.context.link("procedure", first, shown, self.book.anchor(inner))
        target = self.references.find(text, ("tool", "material", "part", "order"))
        return self.context.link(target.kind, target.id) if target is not None else self.words(text)

    def things(self, ids: Iterable[str]) -> tuple[Markup, ...]:
        """Links to tools, materials, parts, or the words as written."""
        return tuple(self.context.any_link(id_, ("tool", "material", "part", "skill", "person")) for id_ in ids)

    def who(self, text: str) -> Markup:
        """A person with a link, ``another``, or a role."""
        if text == "another":
            return Markup("somebody else than the one who made it")
        if text in self.nb.people:
            return self.context.person(text)
        return filled("the {}", self.words(text)) if self._is_role(text) else self.words(text)

    def _is_role(self, text: str) -> bool:
        works = (self.own, *self.own.steps)
        return any(text in hands.roles for work in works for hands in work.hands)

    def route(self, then: str, here: Step | None) -> Markup:
        """Where to go then, as the end of "Then …"."""
        if then in ROUTES:
            return Markup({
                "next": "go on", "again": "do this step again" if here is not None else "look again",
                "aside": "lay it aside for a decision", "stop": "stop, the work rests", "scrap": "it is scrap",
                "none": "there is no way back",
            }[then])
        step = step_of(self.own, then)
        if step is None:
            return filled("go to {}", self.named(then))
        order = list(self.own.steps)
        if step is here:
            return Markup("do this step again")
        if here is None or here not in order or step not in order:
            return filled("go to {}", self.step_link(step))
        back = order.index(step) < order.index(here)
        return filled("go {} to {}", "back" if back else "on", self.step_link(step))

    def moment(self, leaf: Momentary) -> Markup:
        """``the end of step 3``."""
        return in_words.moment(leaf.value, self.named)

    def trend(self, leaf: Trending) -> Markup:
        """``falls 1 min for every 4 °C more of room temperature``."""
        return in_words.trend(leaf.value, self.named)

    def cadence(self, when: Cadenced | Mapping[Text, Cadenced]) -> Markup:
        """How often; a small table of it row by row."""
        if isinstance(when, ParsedValue):
            return in_words.cadence(when.value, self.named)
        rows = ((typeset(str(row)), in_words.cadence(leaf.value, self.named)) for row, leaf in when.items())
        return Markup("; ").join(filled("{}: {}", *row) for row in rows)

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
        """The one machine of this work, which nobody need be told at each setting; None where there are several."""
        named = {id_ for work in (self.own, *all_steps(self.own)) for id_ in named_things(work)}
        machines = [id_ for id_ in named if isinstance(self.nb.tools.get(id_), Machine)]
        return machines[0] if len(machines) == 1 else None

    # --- variants ---------------------------------------------------------------------------------

    @cached_property
    def dimensions(self) -> Mapping[str, tuple[str, ...]]:
        """The declared variants with their values: of this work, the shop and the shared work; what steps find."""
        found: dict[str, tuple[str, ...]] = {}
        shop = self.nb.shop.variants if self.nb.shop is not None else {}
        for name, variant in (*self.own.variants.items(), *shop.items()):
            found.setdefault(str(name), tuple(map(str, variant.values)))
        for work in (self.own, *used_procedures(self.nb, self.own)):
            for name, variant in work.variants.items():
                found.setdefault(str(name), tuple(map(str, variant.values)))
            for step in work.steps:
                for dimension, values in step.finds.items():
                    found.setdefault(str(dimension), tuple(map(str, values)))
        return found

    def is_variant(self, dimension: str) -> bool:
        """Whether a reader can choose a value of it: it is no measured name, and not a place on the piece."""
        return dimension in self.dimensions or dimension in (*_TITLED, "size", "season", "level")

    def variant(self, dimension: str, value: str) -> Markup:
        """``the deck pattern``, ``no pit``, ``zinc with 11 % aluminium``, ``room temperature 10 to 25 °C``."""
        if dimension in _TITLED:
            target = self.references.find(value, ANY)
            return escape(typeset(self.context.title(target.kind, target.id))) if target is not None else escape(value)
        if dimension == "level":
            return filled("one who {}", value if value in ("watches", "teaches") else f"works {value}")
        if self.is_variant(dimension):
            return filled("no {}", dimension) if value == "none" else filled("the {} {}", typeset(value), dimension)
        if dimension == "place":
            return filled("the {}", typeset(value))
        return filled("{} {}", dimension, in_words.spelt(typeset(value)))

    def only(self, condition: Condition | Entry) -> Only:
        """For whom a thing holds."""
        rows = condition.for_ if isinstance(condition, Entry) else condition
        if not rows:
            return EVERY
        choices = [
            in_words.listed((in_words.listed((self.variant(str(d), str(v)) for v in values), "or")
                             for d, values in row.items()))
            for row in rows
        ]
        words = filled("Only with {}" if choices[0].startswith("no ") else "Only for {}",
                       in_words.listed(choices, "or"))
        if len(rows) > 1:
            return Only(words)
        return Only(words, {str(d): tuple(map(str, vs)) for d, vs in rows[0].items() if self.is_variant(str(d))})

    def meant(self, entry: Entry, words: Markup) -> Markup:
        """Words inside a sentence that may hold only for a variant."""
        return meant(self.only(entry), words)


def meant(only: Only, words: Markup) -> Markup:
    """Words inside a sentence, with the variant they hold for in front."""
    if only is EVERY:
        return words
    marks = Markup(parts().only_for(only.values))
    if not only.words:
        return filled("<span{}>{}</span>", marks, words)
    return filled('<span{}><i class="bl-for">{}:</i> {}</span>', marks, only.words, words)


@cache
def parts() -> Any:
    """The macros of the theme's parts, called one by one."""
    return render().get_template("components.j2").module


def each_only(rows: Iterable[Condition]) -> Iterator[tuple[str, str]]:
    """(dimension, value) of every ``for``."""
    for condition in rows:
        for row in condition:
            for dimension, values in row.items():
                for value in values:
                    yield str(dimension), str(value)
