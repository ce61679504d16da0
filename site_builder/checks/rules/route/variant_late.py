from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.steps import number_of
from site_builder.checks.rules.route.variants import Declared, chosen, declared, needed
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import By
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.references import step_of
from site_builder.notebook.tree import Text
from site_builder.quantity import Event

Need = tuple[Text, Place]
"""The name of a dimension as written in a `for` or a `by`, and where."""

_END = 0.5
"""The end of a step is half a step behind its start, which is its number."""


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="variant-late",
    level=Level.ERROR,
    summary="A choice that is made after the work that depends on it.",
    reason="At that moment nobody can know which it will be. The one who does the work guesses.",
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the foot
steps:
  - do: Ring every pit with chalk.
    finds: {pit: {none: Nothing to ring., deep: The bottom is dark.}}
  - {do: Set it aside., for: {pit: deep}}
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the foot
steps:
  - {do: Set it aside., for: {▸pit: deep}}
  - do: Ring every pit with chalk.
    finds: {pit: {none: Nothing to ring., deep: The bottom is dark.}}
""",
    check=check,
)
