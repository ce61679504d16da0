"""What must never be done, and why."""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.notebook.gather import named_things, nevers_of
from site_builder.notebook.model.harm import Never as Forbidden
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.things import Material, Thing
from site_builder.notebook.references import all_steps
from site_builder.views.blocks import Item, NeverBlock
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, say, sentence
from site_builder.views.remedy import exemption
from site_builder.views.scope import ProcedureScope, Scope


def gathered_nevers(scope: ProcedureScope) -> NeverBlock | None:
    """What is forbidden at the work, its tools and materials and the shared work it uses, each once."""
    found: dict[str, Item] = {}
    for gathered in nevers_of(scope.nb, scope.own):
        if isinstance(gathered.item, Forbidden):
            origin = origin_of(scope, gathered.origin, gathered.origin_id)
            found.setdefault(str(gathered.item.do).lower(), never_item(scope, gathered.item, origin))
    return NeverBlock(items=tuple(found.values())) if found else None


def nevers_by_step(scope: ProcedureScope) -> Mapping[int, NeverBlock]:
    """The same, each at the step where it bites first (by the identity of the step): what comes with a tool where that
    is first named, what comes with shared work where that is first done, all else at the first step."""
    found: dict[int, dict[str, Item]] = {}
    seen: set[str] = set()
    for gathered in nevers_of(scope.nb, scope.own):
        if not isinstance(gathered.item, Forbidden) or not scope.own.steps:
            continue
        key = str(gathered.item.do).lower()
        if key not in seen:
            seen.add(key)
            step = _bites(scope, gathered.origin, gathered.origin_id)
            origin = origin_of(scope, gathered.origin, gathered.origin_id)
            found.setdefault(id(step), {})[key] = never_item(scope, gathered.item, origin)
    return {step: NeverBlock(items=tuple(items.values())) for step, items in found.items()}


def _bites(scope: ProcedureScope, origin: object, origin_id: str) -> Step:
    steps = scope.own.steps
    if origin is scope.own:
        return steps[0]
    for step in steps:
        works: list[Work] = [step, *step.also]
        for one in (step, *step.also):
            used = scope.nb.procedures.get(str(one.use)) if one.use is not None else None
            if used is not None:
                works += [used, *all_steps(used)]
                if used is origin:
                    return step
        named = {thing for work in works for thing in named_things(work)}
        if origin_id in named | {group for thing in named for group in scope.nb.groups.get(thing, ())}:
            return step
    return steps[0]


def never_item(scope: Scope, entry: Forbidden, origin: Prose = NO_WORDS) -> Item:
    """``Never grind steel on this belt.``, with its reason."""
    words = say("Never {}", scope.lowered(scope.words(entry.do)))
    reason = joined(capital(sentence(scope.words(r))) for r in entry.because)
    tail = [reason] if reason else []
    if not entry.because:
        tail.append(capital(scope.untold("why is not told yet", entry.at)))
    if entry.unless is not None:
        tail.append(exemption(scope, entry.unless))
    tail += scope.tail(entry)
    if origin:
        tail.append(say("With {}.", origin))
    return Item(words=sentence(words), tail=tuple(tail), only=scope.only(entry))


def step_nevers(scope: Scope, step: Step) -> list[NeverBlock]:
    """What is forbidden at a step."""
    items = tuple(never_item(scope, entry) for entry in step.never)
    return [NeverBlock(items=items)] if items else []


def origin_of(scope: Scope, origin: object, origin_id: str) -> Prose:
    """The thing or the other work from which something was gathered; none for what is told of the work itself."""
    if isinstance(origin, Thing):
        return scope.view.link("material" if isinstance(origin, Material) else "tool", origin_id)
    if isinstance(origin, Procedure) and origin is not scope.own:
        return scope.view.link("procedure", origin_id)
    return NO_WORDS
