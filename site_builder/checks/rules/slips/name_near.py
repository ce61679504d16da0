from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import partial

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.wanted import words_of_steps
from site_builder.checks.rules.values.known_names import TOPICS
from site_builder.checks.rules.values.names import all_names
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.judging import End
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.reference_keys import PROCEDURE
from site_builder.notebook.references import step_of
from site_builder.notebook.slips import plain, slips
from site_builder.notebook.tree import Text, text_at
from site_builder.notebook.vocabulary import Vocabulary

_LOOKED_FOR = frozenset(known.name for names in TOPICS.values() for known in names) | {
    "range", "resolution", "thickness", "belt width", "belt length", "sheet thickness", "annealing temperature",
}
_NAMED = ("properties", "settings", "limits", "conditions", "sizes")
_OWN = frozenset(("weight", "heights", "left", "massive", "shade", "grip", "nose", "ranger", "metals", "forces"))
"""Words of their own, a letter off a known name."""


def check(analysis: Analysis) -> Iterator[Found]:
    counts = Counter(all_names(analysis))
    for name, place in _names(analysis):
        if str(name) in _LOOKED_FOR or counts[str(name)] > 2:
            continue
        near = name_meant(str(name))
        if near:
            yield Found(
                name.at, f"`{name}` is a slip away from `{near}`, and nothing is told from it as it stands.",
                f"Did you mean `{near}`? If it is a name of your own, choose one that is less like it.", place.owner_id,
            )
    yield from _states(analysis, frozenset(counts))
    yield from _moments(analysis)


def name_meant(name: str) -> str:
    """The name that figures look for of which this one is a slip; empty where it is a word of its own."""
    bare = plain(name).replace("-", "")
    if name in _OWN:
        return ""
    for known in sorted(_LOOKED_FOR):
        wanted = plain(known).replace("-", "")
        if bare == wanted or _slip(bare, wanted) or _shortened(plain(name), plain(known)):
            return known
    return ""


def _shortened(name: str, known: str) -> bool:
    """`casting temp` for `casting temperature`: the same words, one of them cut short."""
    words, wanted = name.split("-"), known.split("-")
    return len(words) == len(wanted) > 1 and all(
        one == other or (len(one) > 3 and other.startswith(one)) for one, other in zip(words, wanted, strict=True)
    )


def _slip(word: str, known: str) -> bool:
    """One letter swapped, dropped, doubled or added; in a long word also one changed, or two slips."""
    if word[:1] != known[:1] or abs(len(word) - len(known)) > 2:
        return False
    count = slips(word, known)
    if count == 1:
        return len(known) > 5 or (len(known) > 3 and (len(word) != len(known) or sorted(word) == sorted(known)))
    return count == 2 and len(known) > 9


def _names(analysis: Analysis) -> Iterator[tuple[Text, Place]]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if place.name is not None and place.key in _NAMED:
                yield place.name, place
            for name in limit.given:
                yield name, place


def _states(analysis: Analysis, names: frozenset[str]) -> Iterator[Found]:
    """Names of a state that an end waits for, near to that of a value and no value themselves."""
    words = Vocabulary(sorted(names))
    for end, place in analysis.index.of(End):
        for name in end.state:
            if str(name) in names or analysis.references.values(str(name), place):
                continue
            near = next((one for one in sorted(words.like(name)) if _slip(plain(one), plain(name))), "")
            if near:
                yield Found(
                    name.at, f"Nothing that is measured is called `{name}`.", f"Did you mean `{near}`?", place.owner_id,
                )


def _moments(analysis: Analysis) -> Iterator[Found]:
    """Moments of a window, near to the id of a step or procedure and none themselves."""
    for leaf, place, key in analysis.index.leaves:
        if not isinstance(place.entry, Window) or key not in ("after", "before"):
            continue
        begun = re.match(r"(?:start|end) of ", leaf.text)
        lead = begun[0] if begun else ""
        name = str(leaf.text)[len(lead):]
        own = place.procedure
        if " " in name or step_of(own, name) is not None or analysis.references.find(name, PROCEDURE) is not None:
            continue
        here = analysis.once(("words of steps", id(own)), partial(words_of_steps, own))
        there = analysis.once("words of procedures", lambda: Vocabulary(analysis.notebook.procedures))
        near = next((one for one in (*here.like(name), *there.like(name)) if _slip(name, one)), "")
        if near:
            at = text_at(name, leaf.text.at_letter(len(lead))).at
            yield Found(
                at, f"`{name}` is no step and no procedure, so the window is counted from an event nobody knows.",
                f"Did you mean `{near}`?", place.owner_id,
            )


RULE = Rule(
    code="name-near",
    level=Level.WARNING,
    summary="A name that is a slip away from one that is looked for.",
    reason=(
        "A value under a misspelt name is read by nobody: the check that leans on it falls silent, and nothing "
        "shows that it did."
    ),
    passes="""\
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
properties: {resolution: 0.02 mm, weight: 150 g}
""",
    fails="""\
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
properties: {▸resolutoin: 0.02 mm}
=== tools/tooling/mop.yml
tooling: mop
title: Mop
properties: {▸wheelsize: 250 mm}
""",
    check=check,
)
