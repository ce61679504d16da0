"""What is worn where: what protection exists against, and whether those who meet a hazard wear any."""

from __future__ import annotations

from site_builder.analysis.analysis import Analysis
from site_builder.notebook import hazard_kinds
from site_builder.notebook.gather import things_of, works
from site_builder.notebook.index import Place
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.things import Thing

_IN_USE = frozenset({"tool", "material", "or_", "with_"})
"""Keys by which work takes a tool or a material in hand."""
_USED = frozenset({"use"})
"""The key by which work takes in a shared procedure."""


def can_be_worn_against(hazard: Hazard) -> bool:
    """Whether a hazard, by its kind or in its own words, strikes where something can be worn."""
    return hazard_kinds.can_be_worn_against(f"{hazard.hazard} {hazard.harm or ''}", hazard.kind)


class Worn:
    """Answers whether those who meet a hazard wear anything; each procedure is gone through once."""

    def __init__(self, analysis: Analysis) -> None:
        self.analysis = analysis
        self._procedures: dict[str, bool] = {}

    def against(self, hazard: Place) -> bool:
        """True where its thing or work lists protection, or all work does that takes the thing in hand."""
        owner = hazard.owner
        if isinstance(owner, Procedure):
            return self.in_procedure(hazard.owner_id) or self._by_all("procedure", hazard.owner_id, _USED)
        if isinstance(owner, Thing):
            return self.on_thing(hazard.owner_id) or self._by_all(kind_of(owner), hazard.owner_id, _IN_USE)
        return True  # what a skill does to a body in the long run is met by rest, not by a shield

    def in_procedure(self, id_: str) -> bool:
        """Whether a procedure, its tools or its materials ask for protection."""
        if id_ not in self._procedures:
            notebook = self.analysis.notebook
            own = notebook.procedures[id_]
            self._procedures[id_] = any(h.wear for work in works(notebook, own) for h in work.hazards) or any(
                thing.wear or any(h.wear for h in thing.hazards) for _, thing in things_of(notebook, own)
            )
        return self._procedures[id_]

    def on_thing(self, id_: str) -> bool:
        """Whether a thing or its group asks for protection."""
        notebook = self.analysis.notebook
        things = [notebook.things[one] for one in (id_, *notebook.groups.get(id_, ()))]
        return any(thing.wear or any(hazard.wear for hazard in thing.hazards) for thing in things)

    def _by_all(self, kind: str, id_: str, keys: frozenset[str]) -> bool:
        users = {
            link.place.owner_id
            for link in self.analysis.references.used_in(kind, id_)
            if link.key in keys and link.place.procedure is not None
        }
        return bool(users) and all(self.in_procedure(user) for user in users)
