"""What a step or a procedure gathers from what it uses: tools, materials, hazards, protection, time.

Nobody writes "wear ear defenders" twice: the harm and the protection of a step are the union of its
own, its tools' and its materials', and those of the shared procedures it uses.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.small import MaterialUse, ToolUse
from site_builder.notebook.model.things import Machine, Thing
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.references import all_steps
from site_builder.notebook.tree import Text

WORD_ORDER = ("danger", "warning", "caution", "notice")
"""Signal words from the gravest down; a hazard without one comes last."""


@dataclass(frozen=True, slots=True)
class From:
    """Something gathered, and the thing or work it came from."""

    item: Entry | str
    origin: Entry
    origin_id: str


def used_procedures(nb: Notebook, own: Procedure) -> tuple[Procedure, ...]:
    """The shared procedures that this one uses, directly or through others, each once."""
    found: dict[str, Procedure] = {}
    todo = [own]
    while todo:
        here = todo.pop()
        for step in all_steps(here):
            if step.use is not None and step.use in nb.procedures and str(step.use) not in found:
                used = nb.procedures[step.use]
                if used is not own:
                    found[str(step.use)] = used
                    todo.append(used)
    return tuple(found.values())


def works(nb: Notebook, own: Procedure, *, with_used: bool = True) -> tuple[Work, ...]:
    """The procedure, its steps and acts, and those of the shared procedures it uses."""
    out: list[Work] = [own, *all_steps(own)]
    if with_used:
        for used in used_procedures(nb, own):
            out += [used, *all_steps(used)]
    return tuple(out)


def tool_uses(nb: Notebook, own: Procedure, *, with_used: bool = True) -> tuple[ToolUse, ...]:
    """Every tool once, in order of first use; tools named only as gauges or in settings too."""
    found: dict[str, ToolUse] = {}
    for work in works(nb, own, with_used=with_used):
        for use in work.tools:
            found.setdefault(str(use.tool), use)
        for name in _named_tools(work):
            if name in nb.tools and str(name) not in found:
                found[str(name)] = ToolUse.model_validate({"tool": name})
    return tuple(found.values())


def _named_tools(work: Work) -> Iterator[Text]:
    for group in (work.settings, work.limits, work.conditions):
        for limits in group.values():
            for limit in limits:
                for _, cell in limit.cells():
                    yield from cell.with_
                    if cell.tool is not None:
                        yield cell.tool
                if limit.is_ is not None:
                    yield from limit.with_
                    if limit.tool is not None:
                        yield limit.tool
    for check in (*work.ready, *work.feel, *work.checks):
        yield from check.with_


def named_things(work: Work) -> Iterator[str]:
    """The ids of the tools and materials that this one piece of work names itself, some more than once."""
    yield from (str(use.tool) for use in work.tools)
    yield from map(str, _named_tools(work))
    yield from (str(use.material) for use in work.materials)


def material_uses(nb: Notebook, own: Procedure, *, with_used: bool = True) -> tuple[MaterialUse, ...]:
    """Every material once, in order of first use."""
    found: dict[str, MaterialUse] = {}
    for work in works(nb, own, with_used=with_used):
        for use in work.materials:
            found.setdefault(str(use.material), use)
    return tuple(found.values())


def things_of(nb: Notebook, own: Procedure, *, with_used: bool = True) -> tuple[tuple[str, Thing], ...]:
    """Tools and materials used, with their groups: what a group says holds for its members."""
    ids = [str(u.tool) for u in tool_uses(nb, own, with_used=with_used)]
    ids += [str(u.material) for u in material_uses(nb, own, with_used=with_used)]
    return _with_groups(nb, ids)


def _with_groups(nb: Notebook, ids: Iterable[str]) -> tuple[tuple[str, Thing], ...]:
    found: dict[str, Thing] = {}
    for id_ in ids:
        if id_ in nb.things:
            found[id_] = nb.things[id_]
            for group_id in nb.groups.get(id_, ()):
                found[group_id] = nb.things[group_id]
    return tuple(found.items())


def harm_untold(nb: Notebook, thing: Thing) -> bool:
    """Whether nobody has said yet what a thing can do: it is asked, or it is a machine and no hazard stands anywhere.

    "Cannot hurt here" is an answer; so is what the groups or members of a machine say.
    """
    if "hazards" in thing.answered:
        return False
    if "hazards" in thing.asked:
        return True
    around = (*nb.groups.get(str(thing.id), ()), *map(str, thing.members))
    return isinstance(thing, Machine) and not thing.hazards and not any(
        nb.things[one].hazards for one in around if one in nb.things)


def hazards_of(nb: Notebook, own: Procedure) -> tuple[From, ...]:
    """Every hazard of the work, gravest first: its own, its tools', its materials'."""
    out: list[From] = []
    for work in works(nb, own):
        origin = work if isinstance(work, Procedure) else own
        out += [From(h, origin, str(origin.procedure)) for h in work.hazards]
    for id_, thing in things_of(nb, own):
        out += [From(h, thing, id_) for h in thing.hazards]
    return tuple(sorted(out, key=_gravity))


def step_hazards(step: Step) -> tuple[Hazard, ...]:
    """The hazards that are special to a step and the acts within it."""
    return (*step.hazards, *(h for inner in step.also for h in inner.hazards))


def nevers_of(nb: Notebook, own: Procedure) -> tuple[From, ...]:
    """Every prohibition of the work that belongs to the whole of it, its tools or materials."""
    out: list[From] = [From(n, own, str(own.procedure)) for n in own.never]
    for used in used_procedures(nb, own):
        out += [From(n, used, str(used.procedure)) for n in used.never]
    for id_, thing in things_of(nb, own):
        out += [From(n, thing, id_) for n in thing.never]
    return tuple(out)


def wear_of(nb: Notebook, own: Procedure) -> tuple[From, ...]:
    """Protection to wear: the union over hazards, tools and materials, each once."""
    found: dict[str, From] = {}
    for gathered in hazards_of(nb, own):
        if isinstance(gathered.item, Hazard):
            for id_ in gathered.item.wear:
                found.setdefault(str(id_), From(str(id_), gathered.origin, gathered.origin_id))
    for thing_id, thing in things_of(nb, own):
        for id_ in thing.wear:
            found.setdefault(str(id_), From(str(id_), thing, thing_id))
    return tuple(found.values())


def ages_of(thing: Thing) -> tuple[Limit, ...]:
    """The age limits of a tool or material: its own, and those of what can hurt at it."""
    return (*thing.age, *(limit for hazard in thing.hazards for limit in hazard.age))


def least_ages(nb: Notebook, own: Procedure) -> tuple[tuple[Limit, str], ...]:
    """The age limits of the tools and materials used, with the id of the thing."""
    return tuple((limit, id_) for id_, thing in things_of(nb, own) for limit in ages_of(thing))


def skills_of(own: Procedure) -> tuple[Text, ...]:
    """The skills that a procedure names, each once; a table gives all of its rows."""
    found: dict[Text, None] = {}

    def take(skill: object) -> None:
        if isinstance(skill, Text):
            found.setdefault(skill)
        elif isinstance(skill, dict):
            for row in skill.values():
                take(row)

    for work in (own, *all_steps(own)):
        take(work.skill)
    return tuple(found)


def _gravity(gathered: From) -> int:
    word = gathered.item.word if isinstance(gathered.item, Hazard) else None
    return WORD_ORDER.index(word) if word is not None else len(WORD_ORDER)


