"""Rules on variants that are not what was declared."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from functools import cached_property
from heapq import nsmallest

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.variants import Declared, chosen, declared, needed
from site_builder.checks.rules.values.names import all_names
from site_builder.checks.rules.values.tables import values_of_dimension
from site_builder.notebook.conditions import exclude, figures
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.gather import used_procedures
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.names import KNOWN_DIMENSIONS
from site_builder.notebook.nearest import did_you_mean
from site_builder.notebook.tree import Text
from site_builder.notebook.vocabulary import Vocabulary


def variant_unknown(analysis: Analysis) -> Iterator[Found]:
    if analysis.notebook.unread:  # whatever is meant may be among what could not be read
        return
    known = _Known(analysis)
    for name, values, place in needed(analysis):
        yield from known.look_at(name, values, place)
    for name, value, place in chosen(analysis):
        yield from known.look_at(name, (value,), place)


class _Known:
    """The dimensions of the shop and their values."""

    def __init__(self, analysis: Analysis) -> None:
        self.analysis = analysis
        self.declared: Mapping[str, tuple[Declared, ...]] = declared(analysis)
        self.nouns = frozenset(word.lower() for word in analysis.notebook.words)

    def look_at(self, name: Text, values: Iterable[Text], place: Place) -> Iterator[Found]:
        here = [one for one in self.declared.get(name, ()) if self._reaches(one, place)]
        if here:
            yield from self._values(name, values, place, {str(v) for one in here for v in one.values})
        elif name in KNOWN_DIMENSIONS:
            yield from self._values(name, values, place, values_of_dimension(self.analysis, name))
        elif not self._is_measured(name, values, place):
            elsewhere = self.declared.get(name)
            if elsewhere:
                owner = self.analysis.notebook.procedures[elsewhere[0].owner]
                yield Found(
                    name.at, f"`{name}` is a choice within “{owner.title}” only; nobody makes it here.",
                    f"Declare `{name}` under `variants` of the shop, so that the choice is carried on.", place.owner_id,
                )
            else:
                yield Found(
                    name.at, f"Nothing that varies is called `{name}`.",
                    f"{did_you_mean(self._words.nearest(name))}Write a name that is declared under `variants`, or "
                    "measured.",
                    place.owner_id,
                )

    def _values(
        self, name: Text, values: Iterable[Text], place: Place, known: Iterable[str] | None
    ) -> Iterator[Found]:
        allowed = frozenset(known or ())
        for value in values:
            if allowed and value not in allowed:
                words = self.analysis.once(("values of", str(name), allowed), lambda: Vocabulary(sorted(allowed)))
                listed = ", ".join(f"`{one}`" for one in nsmallest(6, allowed))
                yield Found(
                    value.at, f"`{value}` is none of the values of `{name}`.",
                    f"{did_you_mean(words.nearest(value))}Write one of {listed}"
                    + (" …" if len(allowed) > 6 else "."),
                    place.owner_id,
                )

    def _reaches(self, one: Declared, place: Place) -> bool:
        """A shop's choice holds everywhere, a procedure's in itself and with what it uses or is used by.

        Things go along with the work, so for them the choices of all procedures hold.
        """
        own = place.procedure
        if not one.owner or own is None or one.owner == place.owner_id:
            return True
        nb = self.analysis.notebook
        other = nb.procedures[one.owner]
        return any(used is other for used in used_procedures(nb, own)) or any(
            used is own for used in used_procedures(nb, other)
        )

    def _is_measured(self, name: Text, values: Iterable[Text], place: Place) -> bool:
        """A name that a value has; or figures, which need no entry of their own to be read off a gauge."""
        if self.analysis.references.values(str(name), place) or name in self._measured:
            return True
        close = get_close_matches(name, self._words.like(name), 1, 0.85)
        return not close and all(figures(value, self.nouns) is not None for value in values)

    @cached_property
    def _measured(self) -> frozenset[str]:
        return frozenset(all_names(self.analysis))

    @cached_property
    def _words(self) -> Vocabulary:
        return Vocabulary(sorted({*self._measured, *self.declared, *KNOWN_DIMENSIONS}))


VARIANT_UNKNOWN = Rule(
    "variant-unknown", Level.ERROR, "A variant, or a value of one, that nothing has.",
    "What holds only in a case that never comes is never read, and the step is left out on every piece.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
variants: {pattern: {values: [harbour, deck], decided: start of pour}}
steps:
✓   - {do: Set the core for the pads., for: {pattern: deck}}
✓   - {id: pour, do: Pour.}
✗   - {do: Set the core for the pads., for: {pattern: ▸dock}}
✗   - {id: pour, do: Pour., note: Slowly., for: {▸patern: deck}}
""", variant_unknown,
)


def variant_two_hits(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if place.name is None or place.parent is None or place.rows:
                continue
            beside = getattr(place.parent.entry, place.key)[place.name]
            if len(beside) == 1 or beside[0] is limit:
                continue
            for other in beside:
                if other is limit:
                    break
                if _both_hold(limit, other):
                    yield Found(
                        limit.at, f"“{place.name}” may have two values at once: this one and that of line "
                        f"{other.at.line} can hold for the same piece.",
                        "Give each a `for:` that excludes the other, as `for: {pattern: harbour}` and "
                        "`for: {pattern: deck}`.", place.owner_id,
                    )
                    break


def _both_hold(one: Limit, other: Limit) -> bool:
    """Whether there is a case for which both are meant.

    One without `for` beside one with it holds where the other does not. What only shows the way does not
    contradict what accepts, and two tools may be set to two figures.
    """
    if bool(one.for_) != bool(other.for_) or one.guide != other.guide or one.tool != other.tool:
        return False
    return not exclude(one.for_, other.for_)


VARIANT_TWO_HITS = Rule(
    "variant-two-hits", Level.ERROR, "Two values under one name that hold for the same piece.",
    "One sets the one and one the other, and both have read the page.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
variants: {pattern: {values: [harbour, deck], decided: the order}}
limits:
  height of the foot:
✓     - {is: 42 ±0.2 mm, for: {pattern: harbour}}
✗     - {is: 42 ±0.2 mm, for: {pattern: [harbour, deck]}}
    - ▸{is: 40 ±0.2 mm, for: {pattern: deck}}
steps: Sweep it along the belt.
""", variant_two_hits,
)
