"""Rules on variants that are known too late, or of which nothing hangs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.steps import number_of
from site_builder.checks.rules.route.variants import Declared, chosen, declared, needed
from site_builder.checks.rules.values.tables import every_rows
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import By
from site_builder.notebook.model.procedure import Procedure, Work
from site_builder.notebook.names import KNOWN_DIMENSIONS
from site_builder.notebook.references import step_of
from site_builder.notebook.tree import Text
from site_builder.quantity import Event, Word, references

Need = tuple[Text, Place]
"""The name of a dimension as written in a `for` or a `by`, and where."""

_END = 0.5
"""The end of a step is half a step behind its start, which is its number."""


def variant_late(analysis: Analysis) -> Iterator[Found]:
    known = declared(analysis)
    if not known or analysis.notebook.unread:
        return
    given = {str(name) for name, _, _ in chosen(analysis)}
    for name, needs in _needs(analysis).items():
        places = known.get(name, ())
        if name in given or not places:
            continue
        if any(not one.owner for one in places):
            yield from _on_the_way(analysis, places, needs)
        else:
            for id_ in dict.fromkeys(one.owner for one in places):
                own = analysis.notebook.procedures[id_]
                yield from _within(analysis, own, [one for one in places if one.owner == id_], needs)


def _needs(analysis: Analysis) -> Mapping[str, Sequence[Need]]:
    found: dict[str, list[Need]] = defaultdict(list)
    for name, _, place in needed(analysis):
        found[name].append((name, place))
    for by, place in analysis.index.of(By):
        found[by.name].append((by.name, place))
    return found


# --- within one procedure ---------------------------------------------------------------------------


def _within(analysis: Analysis, own: Procedure, places: Iterable[Declared], needs: Iterable[Need]) -> Iterator[Found]:
    """The first thing of a procedure that needs what only a later step of it decides."""
    times = [time for one in places for time in _times(own, one)]
    if not times or None in times or any(step.after for step in own.steps):  # an order of its own
        return
    decided = min(time for time in times if time is not None)
    for name, place in needs:
        number = number_of(own, place.step) if place.procedure is own else None
        if number is None:
            continue
        at_once = place.entry is place.step and place.key == "steps"
        if number + (0 if at_once else _END) < decided and not _comes_again(analysis, own, number, decided):
            step = own.steps[int(decided)]
            yield _found(name, f"step {int(decided) + 1}, “{step.do or step.use}”", place)
            return


def _times(own: Procedure, one: Declared) -> Iterator[float | None]:
    """When a dimension is decided, in steps; None where that is no step of this procedure."""
    if one.variant is None:
        number = number_of(own, one.step)
        yield None if number is None else number + _END
        return
    for moment in one.variant.decided:
        event = moment.value
        number = number_of(own, step_of(own, event.name)) if isinstance(event, Event) else None
        yield None if number is None else number + (0 if isinstance(event, Event) and event.edge == "start" else _END)


def _comes_again(analysis: Analysis, own: Procedure, number: int, decided: float) -> bool:
    """Whether the work may be led back to the step when all is decided."""
    for link in analysis.references.links:
        target = link.target
        if link.key in ("then", "from_") and target is not None and target.entry is own:
            end = number_of(own, target.step)
            start = number_of(own, link.place.step) if link.place.procedure is own else None
            if end is not None and end <= number and (start is None or start + 1 > decided):
                return True
    return False


# --- from one procedure to the next -----------------------------------------------------------------


def _on_the_way(analysis: Analysis, places: Iterable[Declared], needs: Iterable[Need]) -> Iterator[Found]:
    """Procedures that need a choice of the shop, and come before the work in which it is made."""
    deciding: list[str] = []
    for one in places:
        for moment in one.variant.decided if one.variant is not None else ():
            event = moment.value
            name = event.name.partition("/")[0] if isinstance(event, Event) else ""
            deciding.append(name)
        if one.variant is None or not one.variant.decided:
            return
    if any(name not in analysis.notebook.procedures for name in deciding):
        return
    early = frozenset.intersection(*(_before(analysis, name) for name in deciding))
    told: set[str] = set()
    for name, place in needs:
        if place.procedure is not None and place.owner_id in early and place.owner_id not in told:
            told.add(place.owner_id)
            title = analysis.notebook.procedures[deciding[0]].title
            yield _found(name, f"“{title}”, which comes later", place)


def _before(analysis: Analysis, id_: str) -> frozenset[str]:
    """Every procedure that must be past before this one."""
    seen: set[str] = set()
    todo = list(analysis.route.before[id_])
    while todo:
        here = todo.pop()
        if here not in seen:
            seen.add(here)
            todo += analysis.route.before[here]
    return frozenset(seen - {id_})


def _found(name: Text, when: str, place: Place) -> Found:
    return Found(
        name.at, f"The {name} is needed here, and decided only at {when}.",
        "Let it be decided earlier (`decided:`, or a step that `finds` it), or do later what needs it.",
        place.owner_id,
    )


VARIANT_LATE = Rule(
    "variant-late", Level.ERROR, "A choice that is made after the work that depends on it.",
    "At that moment nobody can know which it will be. The one who does the work guesses.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the foot
steps:
✗   - {do: Set it aside., for: {▸pit: deep}}
  - do: Ring every pit with chalk.
    finds: {pit: {none: Nothing to ring., deep: The bottom is dark.}}
✓   - {do: Set it aside., for: {pit: deep}}
""", variant_late,
)


def variant_idle(analysis: Analysis) -> Iterator[Found]:
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


VARIANT_IDLE = Rule(
    "variant-idle", Level.WARNING, "A choice on which nothing depends.",
    "A choice is asked for, somebody makes it, and then the work is the same. Either it is not a choice or "
    "something was not told.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
variants: {▸pattern: {values: [harbour, deck], decided: start of pour}}
steps:
  - {id: pour, do: Pour.}
✓   - {do: Knock out the core., for: {pattern: deck}}
✗   - {do: Knock out the core.}
""", variant_idle,
)
