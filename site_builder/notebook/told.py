"""What each procedure tells: which keys are written anywhere in it, and which things it works with.

An empty list is an answer too: `materials: []` says that nothing is used up.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from site_builder.notebook.index import Index
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.references import References

_USING = frozenset({"tool", "material", "with_"})
"""Keys with which a thing is taken in hand; what is only refused or worn does not count."""


@dataclass(slots=True)
class Told:
    """What one procedure tells, its steps and the acts within them included."""

    procedure: Procedure
    keys: set[str] = field(default_factory=set)
    """Keys written anywhere, as the attributes of the model are called."""
    asked: set[str] = field(default_factory=set)
    """Keys written with nothing after them, or with `ask`."""
    things: dict[str, None] = field(default_factory=dict)
    """Ids of tools and materials in order of first use, those of shared procedures behind."""
    uses: dict[str, None] = field(default_factory=dict)
    """Ids of the shared procedures used."""
    shared: bool = False
    """Other procedures use this one."""

    def knows(self, *keys: str) -> bool:
        """True where one of these keys is written, or is itself a question already."""
        return not (self.keys.isdisjoint(keys) and self.asked.isdisjoint(keys))


def what_is_told(index: Index, references: References) -> Mapping[str, Told]:
    """By id of the procedure."""
    told = {id_: Told(procedure) for id_, procedure in index.notebook.procedures.items()}
    for kind in (Procedure, Step):
        for place in index.places.get(kind, ()):
            here = told.get(place.owner_id) if place.procedure is not None else None
            if here is None:
                continue
            here.keys |= place.entry.model_fields_set
            if place.entry.asked:
                here.asked |= place.entry.asked
            if isinstance(place.entry, Step) and place.entry.use is not None:
                here.uses[str(place.entry.use)] = None
    for link in references.links:
        target = link.target
        if (target is not None and link.key in _USING and target.kind in ("tool", "material")
                and link.place.procedure is not None):
            told[link.place.owner_id].things[target.id] = None
    own = {id_: tuple(here.things) for id_, here in told.items() if here.things}
    for here in told.values():
        if here.uses:
            _take_over(here, told, own)
    return told


def _take_over(here: Told, told: Mapping[str, Told], own: Mapping[str, tuple[str, ...]]) -> None:
    """The things of shared procedures; all that they tell, where nothing but them is done."""
    only_shared = all(step.use is not None and step.do is None for step in here.procedure.steps)
    seen: set[str] = set()
    todo = list(here.uses)
    while todo:
        id_ = todo.pop(0)
        used = told.get(id_)
        if used is None or id_ in seen or used is here:
            continue
        seen.add(id_)
        used.shared = True
        here.things |= dict.fromkeys(own.get(id_, ()))
        if only_shared:
            here.keys |= used.keys
            here.asked |= used.asked
        todo += used.uses
