"""Where in the shop a piece of work is done: at a machine, else at the craft it belongs to.

Nobody writes this down twice: it follows from the machines that the work names. A thing is met where it is used,
unless its own ``where`` names a machine.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from site_builder.notebook.gather import named_things, skills_of, tool_uses
from site_builder.notebook.index import Place
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.things import Machine, Thing, Tooling
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.references import all_steps

_REFERENCE = re.compile(r"\[\[([^\[\]|]+)")


@dataclass(frozen=True, slots=True)
class WorkPlace:
    """A machine (``tool``), or where no machine is told the ``skill``, else the ``procedure`` itself."""

    kind: str
    id: str


ANYWHERE = WorkPlace("shop", "anywhere")
"""Of what no work names: protection, and what only lies about."""


@dataclass(frozen=True)
class WorkPlaces:
    """The places of a shop; ``order`` is that of the work."""

    notebook: Notebook
    order: tuple[str, ...]

    @cached_property
    def of_procedure(self) -> Mapping[str, tuple[WorkPlace, ...]]:
        """Where each procedure is done, from the surest sign to the weakest."""
        nb = self.notebook
        told = {id_: self._machines(str(use.tool) for use in tool_uses(nb, nb.procedures[id_], with_used=False))
                for id_ in self.order}
        by_tooling, by_skill = self._shared(told, self._tooling), self._shared(told, _skills)
        found = {id_: told[id_] or by_tooling[id_] for id_ in self.order}
        for id_ in reversed(self.order):  # whoever uses shared work may itself stand at a place found from its use
            if not found[id_]:
                found[id_] = _each(place for user in self._users.get(id_, ()) for place in found[user])
        return {id_: found[id_] or by_skill[id_] or self._at_the_craft(id_) for id_ in self.order}

    @cached_property
    def of_thing(self) -> Mapping[str, tuple[WorkPlace, ...]]:
        """Where each tool and material is met."""
        nb = self.notebook
        met: dict[str, dict[WorkPlace, None]] = {}
        for id_ in self.order:
            procedure = nb.procedures[id_]
            for work in (procedure, *all_steps(procedure)):
                named = [*named_things(work)]
                places = self._machines(named) or self.of_procedure[id_]
                for one in named:
                    for thing in (one, *nb.groups.get(one, ())):
                        met.setdefault(thing, {}).update(dict.fromkeys(places))
        found = {id_: self._own(id_, thing) or tuple(met.get(id_, ())) for id_, thing in nb.things.items()}
        of_members = {id_: _each(place for one in thing.members for place in found.get(str(one), ()))
                      for id_, thing in nb.things.items()}
        return {id_: found[id_] or of_members[id_] or (ANYWHERE,)
                for id_, thing in nb.things.items()}

    @cached_property
    def of_skill(self) -> Mapping[str, tuple[WorkPlace, ...]]:
        """Where each skill is practised."""
        nb = self.notebook
        asking: dict[str, list[str]] = {}
        for id_ in self.order:
            for skill in _skills(nb.procedures[id_]):
                asking.setdefault(skill, []).append(id_)
        found: dict[str, tuple[WorkPlace, ...]] = {}
        for skill, entry in nb.skills.items():
            covered = [str(one) for one in entry.covers if one in nb.procedures]
            covered = [id_ for id_ in covered if id_ not in self._users] or covered  # other crafts do shared work too
            places = _each(place for id_ in covered or asking.get(skill, []) for place in self.of_procedure[id_])
            found[skill] = places or (WorkPlace("skill", skill),)
        return found

    def of(self, place: Place) -> tuple[WorkPlace, ...]:
        """Where an entry is met: by its step, its procedure, its tool, its skill."""
        owner = place.owner
        if isinstance(owner, Procedure):
            at_step = self._machines(named_things(place.step)) if place.step is not None else ()
            return at_step or self.of_procedure[place.owner_id]
        if isinstance(owner, Thing):
            return self.of_thing[place.owner_id]
        if isinstance(owner, Skill):
            return self.of_skill[place.owner_id]
        return ()

    @cached_property
    def all(self) -> tuple[WorkPlace, ...]:
        """Every place at which something is done or met, in the order of the work."""
        groups = (self.of_procedure, self.of_skill, self.of_thing)
        return _each(place for group in groups for places in group.values() for place in places)

    # --- signs ---------------------------------------------------------------------------------------------

    def _machines(self, ids: Iterable[str]) -> tuple[WorkPlace, ...]:
        return _each(WorkPlace("tool", id_) for id_ in ids if isinstance(self.notebook.tools.get(id_), Machine))

    def _own(self, id_: str, thing: Thing) -> tuple[WorkPlace, ...]:
        """A machine is its own place, a group is where its members are; another thing may name one under ``where``."""
        if isinstance(thing, Machine) and not thing.members:
            return (WorkPlace("tool", id_),)
        said = str(thing.where or "")
        return self._machines([said.strip(), *(name.strip() for name in _REFERENCE.findall(said))])

    @cached_property
    def _users(self) -> Mapping[str, tuple[str, ...]]:
        found: dict[str, list[str]] = {}
        for id_ in self.order:
            for step in all_steps(self.notebook.procedures[id_]):
                if step.use is not None and str(step.use) in self.notebook.procedures:
                    found.setdefault(str(step.use), []).append(id_)
        return {id_: tuple(dict.fromkeys(users)) for id_, users in found.items()}

    def _tooling(self, procedure: Procedure) -> tuple[str, ...]:
        """Moulds, chucks, belts: what goes with one machine."""
        tools = self.notebook.tools
        return tuple(str(use.tool) for use in tool_uses(self.notebook, procedure, with_used=False)
                     if isinstance(tools.get(use.tool), Tooling))

    def _shared(
        self, told: Mapping[str, tuple[WorkPlace, ...]], signs: Callable[[Procedure], tuple[str, ...]]
    ) -> Mapping[str, tuple[WorkPlace, ...]]:
        """The one place of all other work with the same sign; none where they differ."""
        of = {id_: signs(self.notebook.procedures[id_]) for id_ in self.order}
        at: dict[str, dict[WorkPlace, None]] = {}
        for id_, names in of.items():
            for name in names:
                at.setdefault(name, {}).update(dict.fromkeys(told[id_]))
        found = {id_: _each(place for name in names for place in at[name]) for id_, names in of.items()}
        return {id_: places if len(places) == 1 else () for id_, places in found.items()}

    def _at_the_craft(self, id_: str) -> tuple[WorkPlace, ...]:
        skills = [one for one in _skills(self.notebook.procedures[id_]) if one in self.notebook.skills]
        return tuple(WorkPlace("skill", one) for one in skills) or (WorkPlace("procedure", id_),)


def _skills(procedure: Procedure) -> tuple[str, ...]:
    return tuple(map(str, skills_of(procedure)))


def _each(places: Iterable[WorkPlace]) -> tuple[WorkPlace, ...]:
    return tuple(dict.fromkeys(places))
