"""An entry of a book as it goes through the screens: what was filled in, read from a form and carried in the next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from werkzeug.datastructures import MultiDict

from site_builder.bench.names import Names
from site_builder.skills.entry_text import Value
from site_builder.views.dates import dated_day

KEYS: Mapping[str, tuple[str, ...]] = {
    "practice": ("who", "date", "procedure", "level", "teacher", "pieces", "scrap", "rework", "took", "note"),
    "trial": ("who", "date", "felt", "teacher", "verdicts", "note"),
    "measurement": ("who", "date", "measured", "readings", "with", "note"),
    "incident": ("who", "date", "what", "during", "hazard", "injured", "harm", "aid", "note"),
    "sign-off": ("who", "date", "learner", "skill", "level", "items", "evidence", "override", "note"),
}
"""The keys of each book that the bench writes, in their order."""
_SEVERAL = ("readings", "with", "injured", "items", "evidence")
_NAMED = ("verdicts",)
_LONGEST = 2000


@dataclass(frozen=True, slots=True)
class Hidden:
    """One field of a form that only carries on what was filled in before."""

    name: str
    value: str


def one_line(text: str) -> str:
    """What was typed, in one line."""
    return " ".join(text.split())[:_LONGEST]


def fields_of(kind: str, form: MultiDict[str, str]) -> dict[str, Value]:
    """The entry that a form carries; what is empty stays out."""
    found: dict[str, Value] = {}
    for key in KEYS[kind]:
        if key in _NAMED:
            named = {one_line(name.removeprefix(f"{key}.")): one_line(form[name])
                     for name in form if name.startswith(f"{key}.") and one_line(form[name])}
            named |= {one_line(piece): one_line(said) for piece, said in zip(
                form.getlist(f"{key}-of"), form.getlist(f"{key}-is"), strict=False)
                if one_line(piece) and one_line(said)}
            if named:
                found[key] = named
        elif key in _SEVERAL:
            several = [one_line(one) for one in form.getlist(key) if one_line(one)]
            if several:
                found[key] = several
        elif one_line(form.get(key, "")):
            found[key] = one_line(form[key])
    return found


def carried(fields: Mapping[str, Value]) -> Iterator[Hidden]:
    """The same as hidden fields of the next form."""
    for key, value in fields.items():
        if isinstance(value, str):
            yield Hidden(key, value)
        elif isinstance(value, Mapping):
            yield from (Hidden(f"{key}.{name}", one) for name, one in value.items())
        else:
            yield from (Hidden(key, one) for one in value)


def oath(kind: str, fields: Mapping[str, Value], names: Names, today: date) -> list[str]:
    """What is signed, in full sentences, as one would say it aloud."""
    who, day = names.person(str(fields.get("who", ""))), dated_day(today)
    if kind == "practice":
        made = f"{who} made {_pieces(fields)} at “{names.thing(str(fields.get('procedure')))}” on {day}."
        eye = {"beside": "with {} beside", "within call": "with {} within call", "watches": "watching {}"}
        told = eye.get(str(fields.get("level", "")), "")
        beside = names.person(str(fields["teacher"])) if "teacher" in fields else "the teacher"
        lines = [made, *([f"It was done {told.format(beside)}."] if told else [])]
        return lines + ([f"It took {fields['took']}."] if "took" in fields else [])
    if kind == "trial":
        verdicts = fields.get("verdicts")
        pairs = verdicts.items() if isinstance(verdicts, Mapping) else ()
        told = "; ".join(f"{piece}: {said}" for piece, said in pairs)
        return [f"{who} judged by feel on {day}, without seeing anybody else’s verdict: {told}."]
    if kind == "measurement":
        readings = fields.get("readings", ())
        told = "; ".join(readings) if not isinstance(readings, str) else readings
        name = str(fields.get("measured", "")).rpartition("/")[2]
        return [f"{who} measured on {day}. {name[:1].upper()}{name[1:]}: {told}."]
    if kind == "incident":
        hurt = fields.get("injured", ())
        people = names.people([hurt] if isinstance(hurt, str) else [*hurt]) if hurt else ""
        end = f"Hurt: {people}." if people else "Nobody was hurt."
        return [f"{who} tells what happened on {day}: {fields.get('what', '')}", end]
    return []


def _pieces(fields: Mapping[str, Value]) -> str:
    def of(key: str) -> int:
        text = str(fields.get(key, "0"))
        return int(text) if text.isascii() and text.isdigit() else 0

    good = of("pieces") - of("scrap") - of("rework")
    told = [f"{good} good at the first go"] + ([f"{of('rework')} done again"] if of("rework") else [])
    told += [f"{of('scrap')} spoiled"] if of("scrap") else []
    return f"{fields.get('pieces', '0')} pieces ({', '.join(told)})"
