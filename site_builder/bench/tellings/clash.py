"""What was said otherwise than it stands: both are shown, neither is written over, and somebody says what holds."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.amend import Amendment, Change, Plain, TreePath, look_up
from site_builder.amend.telling import said_otherwise, told_at
from site_builder.bench.tellings.becomes import BECOMES
from site_builder.bench.tellings.taking_up import Sent, Work, place_of, value_of
from site_builder.quantity import NotationError, Value, parse_value
from site_builder.tellings.contradiction import contradicts


@dataclass(frozen=True, slots=True)
class Clash:
    """A value that stands under the name of the one that was said."""

    path: TreePath
    was: Plain
    stands: str
    said: str

    @property
    def differs(self) -> bool:
        """Whether not both can hold; also where they cannot be compared."""
        one, other = _value(self.stands), _value(self.said)
        return one is None or other is None or contradicts(one, other) is not False


def clash_with(sent: Sent, work: Work) -> Clash | None:
    """What stands already where this would be written; None where nothing does. Raises Unreadable."""
    kind = BECOMES.get(sent.kind)
    name = " ".join(sent.name.split())
    if kind is None or kind.shape != "named" or not name:
        return None
    path = (*place_of(sent, work), kind.key, name)
    was = look_up(work.tree, path)
    stands = was if isinstance(was, str) else was.get("is") if isinstance(was, dict) else None
    if was is None or not isinstance(stands, str) or stands in ("", "ask"):
        return None
    return Clash(path, was, stands, value_of(sent))


def ask_about(clash: Clash, work: Work, who: str, told: str, on: str) -> Amendment:
    """Both stand there under ``said``: which holds becomes a question."""
    made = said_otherwise(work.file, clash.path, clash.was, clash.said, who=who, told=told, date=on)
    return Amendment(f"{work.title}: {clash.path[-1]} was said in two ways", made.changes)


def first_holds(clash: Clash, work: Work, who: str, told: str, on: str) -> Amendment:
    """What stands holds; what was said besides is kept with it."""
    return _settled(clash, work, clash.stands, {"is": clash.said, "who": who, "date": on, "told": told})


def second_holds(clash: Clash, work: Work, told: str) -> Amendment:
    """What was said now holds; what stood there is kept with it, with all that it says of where it came from."""
    before: dict[str, Plain] = {"is": clash.stands}
    limit = dict(clash.was) if isinstance(clash.was, dict) else {}
    before |= {key: limit[key] for key in ("source", "told", "date") if key in limit}
    return _settled(clash, work, clash.said, before, told)


def agrees(clash: Clash, work: Work, told: str) -> Amendment:
    """It was said again and says the same: the moment is kept with what stands."""
    made = told_at(work.file, clash.path, clash.was, told, "is")
    return Amendment(f"{work.title}: {clash.path[-1]} was told again", made.changes)


def taken_back(clash: Clash, work: Work, told: str) -> Amendment:
    """``No, twelve, not ten``: the speaker takes back what stands; the new figure stands, heard at both moments."""
    limit: dict[str, Plain] = dict(clash.was) if isinstance(clash.was, dict) else {"is": clash.was}
    held = limit.get("told")
    moments = held if isinstance(held, list) else [] if held in (None, "") else [str(held)]
    shall: dict[str, Plain] = {**limit, "is": clash.said, "told": [*moments, told] if moments else told}
    return Amendment(f"{work.title}: {clash.path[-1]} is {clash.said}, the speaker took {clash.stands} back",
                     (Change(work.file, clash.path, clash.was, shall),))


def _settled(clash: Clash, work: Work, holds: str, other: dict[str, Plain], told: str = "") -> Amendment:
    limit: dict[str, Plain] = dict(clash.was) if isinstance(clash.was, dict) else {"is": clash.was}
    said = limit.get("said")
    sayings: list[Plain] = list(said) if isinstance(said, list) else [] if said is None else [said]
    limit["is"] = holds
    if told:
        limit["told"] = told
        limit.pop("source", None)
    limit["said"] = [*sayings, {key: value for key, value in other.items() if value}]
    return Amendment(f"{work.title}: of two sayings of {clash.path[-1]}, {holds} holds",
                     (Change(work.file, clash.path, clash.was, limit),))


def _value(text: str) -> Value | None:
    try:
        return parse_value(text)
    except NotationError:
        return None
