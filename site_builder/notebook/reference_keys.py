"""Which keys hold references, and to what. A key that may also hold free words is marked ``?``.

The own keys of a kind stand in the table of kinds; here stand those of what hangs on several kinds, or within one.
"""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.notebook.kinds import own_references
from site_builder.notebook.model import people, records, season, shop, small, telling
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hazard, Role
from site_builder.notebook.model.judging import Check, End, Exempt, Loop, Remedy, Trouble
from site_builder.notebook.model.limit import Limit, Saying, Window
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.model.small import MaterialUse, ToolUse
from site_builder.notebook.model.things import Thing, Upkeep

PROCEDURE = ("procedure",)
PERSON = ("person",)
TOOL = ("tool",)

_KEYS: Mapping[type[Entry], Mapping[str, tuple[str, ...]]] = {
    Limit: {"with_": TOOL, "tool": TOOL, "sum": ("value",)},
    Saying: {"with_": TOOL, "tool": TOOL, "sum": ("value",), "who": ("person?",)},
    Window: {"with_": TOOL, "tool": TOOL, "sum": ("value",)},
    Exempt: {"who": ("person?",)},
    Remedy: {"then": ("route",), "trouble": ("trouble",), "who": ("person?",)},
    Trouble: {"then": ("route",), "who": ("person?",)},
    End: {"then": ("route",)},
    Loop: {"from_": ("route",)},
    Check: {"with_": ("tool", "part"), "who": ("person?",)},
    Hazard: {"wear": TOOL},
    Role: {"skill": ("skill",)},
    Step: {"use": PROCEDURE, "then": ("route",)},
    Work: {"part": ("part",), "makes": ("part", "material", "tool"), "skill": ("skill",)},
    # what must not be used needs no page of its own: a name will do
    ToolUse: {"tool": TOOL, "or_": TOOL, "not_": ("tool?",)},
    MaterialUse: {"material": ("material", "part"), "or_": ("material", "part"), "not_": ("material?",)},
    Thing: {"members": ("tool", "material"), "skill": ("skill",), "wear": TOOL},
    Upkeep: {"who": ("person?",)},
    small.Calibration: {"who": ("person?",)},
    small.Revision: {"who": ("person?",), "change": ("change",)},
    small.Need: {"skill": ("skill",)},
    shop.Pin: {"work": PROCEDURE, "who": PERSON},
    shop.DecidedLesson: {"who": PERSON, "skill": ("skill",), "teacher": PERSON},
    season.PlannedStint: {"does": PROCEDURE, "who": PERSON, "order": ("order",)},
    telling.Recordings: {"agreed": PERSON, "declined": PERSON},
    people.Proof: {"limits": ("value",)},
    records.Record: {"who": PERSON},
    records.SignOff: {"learner": PERSON, "skill": ("skill",)},
    records.Practice: {"procedure": PROCEDURE, "teacher": PERSON, "order": ("order",)},
    records.Trial: {"felt": ("path",), "teacher": PERSON},
    records.Measurement: {"measured": ("value",), "with_": TOOL, "order": ("order",)},
    records.Incident: {"during": ("path",), "injured": PERSON, "change": ("change",)},
}


def kinds_for(model: type[Entry], key: str) -> tuple[str, ...] | None:
    """To what kinds a reference in this field of an entry may lead; None where it holds none."""
    own = own_references(model)
    if key in own:
        return own[key]
    for base in model.__mro__:
        if base in _KEYS and key in _KEYS[base]:
            return _KEYS[base][key]
    return None
