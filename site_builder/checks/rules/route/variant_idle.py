from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.variants import Declared, chosen, declared, needed
from site_builder.checks.rules.values.tables import every_rows
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Work
from site_builder.notebook.names import KNOWN_DIMENSIONS
from site_builder.quantity import Word, references


def check(analysis: Analysis) -> Iterator[Found]:
    known = {name: places for name, places in declared(analysis).items() if name not in KNOWN_DIMENSIONS}
    if not known or analysis.notebook.unread:
        return
    used = _used(analysis)
    idle = {name: _values(places) - used.get(name, set()) for name, places in known.items()}
    if not any(idle.values()):
        return
    named, skilled = _named_in_values(analysis), _rows_of_skills(analysis)
    for name, places in known.items():
        if name in named:
            continue
        first = places[0]
        apart = [value for one in places for value in one.values if value in idle[name] - skilled]
        if name not in used and skilled.isdisjoint(_values(places)):
            yield Found(
                first.name.at, f"Nothing goes by the {name}: no step, no value and no table asks for it.",
                f"Write `for: {{{name}: …}}` at what holds only in one case, or a table `by: {name}`.", first.owner,
            )
        elif len(set(apart)) > 1:  # one alone is the plain case, from which the others depart
            listed = " and ".join(f"`{value}`" for value in dict.fromkeys(apart))
            yield Found(
                first.name.at, f"Nothing tells {listed} of the {name} apart: all of the work is the same for them.",
                f"Write `for: {{{name}: {apart[0]}}}` at what holds only then, or make one value of them.", first.owner,
            )


def _values(places: Iterable[Declared]) -> set[str]:
    return {str(value) for one in places for value in one.values}


def _used(analysis: Analysis) -> Mapping[str, set[str]]:
    """By dimension, the values that a `for`, a row of a table or an order asks for."""
    found: dict[str, set[str]] = defaultdict(set)
    for name, values, _ in needed(analysis):
        found[name].update(map(str, values))
    for name, value, _ in chosen(analysis):
        found[name].add(str(value))
    for rows in every_rows(analysis):
        if rows.by is not None:
            found[rows.by.name].update(map(str, rows.names))
    return found


def _named_in_values(analysis: Analysis) -> set[str]:
    """Names that stand in values: `colour: finish` prints what was chosen."""
    found: set[str] = set()
    for leaf, _, _ in analysis.index.values:
        if isinstance(leaf.value.what, Word):
            found.add(leaf.value.what.text)
        else:
            found.update(one.name for one in references(leaf.value))
    return found


def _rows_of_skills(analysis: Analysis) -> set[str]:
    """The rows of tables of skills, which do not tell of which dimension they are."""
    return {row for work, _ in analysis.index.under(Work) for row in _rows(work.skill)}


def _rows(skill: object) -> set[str]:
    if not isinstance(skill, Mapping):
        return set()
    return {*map(str, skill), *(row for inner in skill.values() for row in _rows(inner))}


RULE = Rule(
    code="variant-idle",
    level=Level.WARNING,
    summary="A choice on which nothing depends.",
    reason="A choice is asked for, somebody makes it, and then the work is the same. Either it is not a choice "
    "or something was not told.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
variants: {pattern: {values: [harbour, deck], decided: start of pour}}
steps:
  - {id: pour, do: Pour.}
  - {do: Knock out the core., for: {pattern: deck}}
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
variants: {▸pattern: {values: [harbour, deck], decided: start of pour}}
steps:
  - {id: pour, do: Pour.}
  - {do: Knock out the core.}
""",
    check=check,
)
