"""The index of the book: what a reader looks up, and the places where it stands."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from site_builder.notebook.kinds import kind_of
from site_builder.notebook.references import all_steps
from site_builder.paper.as_data import target
from site_builder.paper.chapters import Gathering
from site_builder.views.glossary import word_uses
from site_builder.views.prose import Ref, capital_text
from site_builder.views.scope import ProcedureScope

_ARTICLE = re.compile(r"(?:the|an?|it)\s+", re.IGNORECASE)
_PLACES = 40
"""So many places are looked up for one word; what stands everywhere need not be looked up."""


@dataclass(frozen=True, slots=True)
class Term:
    """What is looked up; ``home`` is where it is told in full, ``at`` where else it stands."""

    words: str
    kind: str
    home: str
    at: tuple[str, ...]


def terms(gathering: Gathering, places: Collection[str]) -> tuple[tuple[str, tuple[Term, ...]], ...]:
    """(letter, terms) by alphabet, of what stands at one of the ``places`` of the book."""
    there = (term for term in _terms(gathering) if term.home in places or any(one in places for one in term.at))
    found = sorted(there, key=lambda term: (_sorted_as(term.words), term.kind))
    groups: dict[str, list[Term]] = {}
    for term in found:
        first = _sorted_as(term.words)[:1].upper()
        groups.setdefault(first if first.isalpha() else "0–9", []).append(term)
    return tuple((letter, tuple(group)) for letter, group in groups.items())


def _terms(gathering: Gathering) -> Iterator[Term]:
    nb, view, uses = gathering.nb, gathering.view, gathering.uses
    for kind, shelf in (("procedure", nb.procedures), ("part", nb.parts), ("skill", nb.skills), ("person", nb.people)):
        yield from (Term(view.title(kind, id_), kind, target(Ref(kind, id_)), ()) for id_ in shelf)
    for id_, thing in nb.things.items():
        kind = kind_of(thing)
        at = [target(Ref("procedure", use.id, view.anchor(step) if step is not None else ""))
              for use in uses.of(kind, id_) if use.kind == "procedure"
              for step in (use.steps or (None,)) if step is None or step in nb.procedures[use.id].steps]
        yield Term(view.title(kind, id_), kind, target(Ref(kind, id_)), tuple(dict.fromkeys(at))[:_PLACES])
    for id_, own in nb.procedures.items():
        scope = ProcedureScope(view, own)
        for trouble in (one for work in (own, *all_steps(own)) for one in work.troubles):
            sign = capital_text(_ARTICLE.sub("", view.plain(trouble.sign).rstrip("."), count=1))
            yield Term(sign, "trouble", target(Ref("procedure", id_, scope.trouble_anchors[id(trouble)])), ())
    used = word_uses(gathering.analysis, _PLACES)
    for word in nb.words:
        at = [target(Ref("procedure", one)) for one in used.get(word.lower(), ())[:_PLACES]]
        shown = capital_text(_ARTICLE.sub("", view.plain(word), count=1))
        yield Term(shown, "word", target(Ref("word", word)), tuple(at))


def _sorted_as(words: str) -> str:
    """As a reader seeks it: without accents, capitals and signs."""
    plain = unicodedata.normalize("NFKD", words).casefold()
    return "".join(letter for letter in plain if letter.isalnum() or letter == " ").strip() or words
