"""A form as it was sent: what shall stand under each key that was changed, and what could not be read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from site_builder.amend import Change, Plain, clean, id_for
from site_builder.bench.forms.fields import Field, Fill, fields_of
from site_builder.bench.forms.filled import TOLD_BY, as_typed, name_of
from site_builder.bench.forms.new_things import begun_thing
from site_builder.bench.homes import Home
from site_builder.bench.names import Names
from site_builder.bench.reading_back import ReadBack, read_back
from site_builder.bench.saying import OPEN
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.told_by import teller_of, told_by


@dataclass
class Sent:
    """What a form asks for."""

    shall: dict[str, Plain | None] = field(default_factory=dict)
    """Key to what shall stand there; only those that were changed. None takes the key away."""
    wrong: dict[str, ReadBack] = field(default_factory=dict)
    besides: list[Change] = field(default_factory=list)
    """A thing that is begun, a mark that a step is given so that it can be named."""


def sent(model: type[Entry], tree: Plain | None, form: Mapping[str, tuple[str, ...]], names: Names, home: Home) -> Sent:
    """Read a form. What was not sent at all stays as it is."""
    entry: Mapping[str, Plain] = tree if isinstance(tree, dict) else {model.MAIN: tree} if tree is not None else {}
    found = Sent()
    for one in fields_of(model):
        if one.is_line and (name_of(one) in form or f"{name_of(one)}-there" in form):
            _read(one, entry.get(one.key), form, names, home, found)
    for one in fields_of(model):
        if one.needed and one.is_line and one.key not in found.wrong and not (
                found.shall[one.key] if one.key in found.shall else entry.get(one.key)):
            found.wrong[one.key] = ReadBack(wrong="This cannot stay empty.")
    return found


def _read(
    one: Field, stands: Plain | None, form: Mapping[str, tuple[str, ...]], names: Names, home: Home, found: Sent,
) -> None:
    """One field: changed, unchanged or unreadable."""
    items = [] if stands is None or stands in OPEN else stands if isinstance(stands, list) else [stands]
    texts = [text for text in items if isinstance(text, str)]
    if len(texts) < len(items):
        return
    values = form.get(name_of(one), ())
    if one.fill in (Fill.THING, Fill.THINGS, Fill.CHOICE, Fill.CHOICES):
        _chosen(one, texts, form, names, home, found)
        return
    typed = values[0] if values else ""
    if typed.replace("\r\n", "\n").strip() == as_typed(one, texts, names).strip():
        return
    if not typed.strip():
        found.shall[one.key] = None
    elif one.fill is Fill.LINES:
        raw = {" ".join(text.split()): text for text in texts}
        lines = [" ".join(line.split()) for line in clean(typed).split("\n") if line.strip()]
        kept: list[Plain] = [raw.get(line, line) for line in lines]
        found.shall[one.key] = kept[0] if len(kept) == 1 and not isinstance(stands, list) else kept
    elif one.fill in (Fill.WORDS, Fill.PICTURE):
        text = clean(typed, texts[0] if texts else None)
        if one.key == "source" and text.lower().startswith(TOLD_BY):
            who, on = teller_of(TOLD_BY + text[len(TOLD_BY):].strip())
            text = told_by(_person(names, who), on)
        found.shall[one.key] = text
    else:
        how = {Fill.CADENCE: "cadence", Fill.DAY: "day", Fill.COUNT: "count"}.get(one.fill, "value")
        read = read_back(typed, (form.get(f"{name_of(one)}-unit") or ("",))[0], how, names.nouns)
        if read.notation:
            found.shall[one.key] = read.notation
        else:
            found.wrong[one.key] = read


def _chosen(
    one: Field, texts: list[str], form: Mapping[str, tuple[str, ...]], names: Names, home: Home, found: Sent,
) -> None:
    chosen = [value for value in form.get(name_of(one), ()) if value]
    new = " ".join((form.get(f"{name_of(one)}-new") or ("",))[0].split())
    if new and one.free:
        chosen.append(_person(names, new))
    elif new and one.of:
        kind = (form.get(f"{name_of(one)}-kind") or ("",))[0]
        made = begun_thing(names.book, new, kind, one.of)
        if isinstance(made, str):
            found.wrong[one.key] = ReadBack(wrong=made)
            return
        chosen.append(made[0])
        found.besides.append(made[1])
    if one.fill in (Fill.THING, Fill.CHOICE):
        chosen = chosen[-1:]
    chosen = [_marked_step(value, home, found) for value in chosen]
    ordered = [text for text in texts if text in chosen] + [value for value in chosen if value not in texts]
    if ordered == texts:
        return
    listed: list[Plain] = [*ordered]
    found.shall[one.key] = None if not ordered else ordered[0] if len(ordered) == 1 else listed


def _marked_step(value: str, home: Home, found: Sent) -> str:
    """The mark of a step that was chosen by its number; one that has none is given one, made of its words."""
    number = value.removeprefix("step:")
    steps = home.tree.get("steps") if isinstance(home.tree, dict) else None
    if number == value or not number.isdigit() or not isinstance(steps, list) or int(number) >= len(steps):
        return value
    step = steps[int(number)]
    words = str(step.get("do", "") if isinstance(step, dict) else step)
    taken = {str(one["id"]) for one in steps if isinstance(one, dict) and "id" in one}
    mark = id_for(" ".join(words.split()[:4]), taken, "step")
    path = ("steps", int(number))
    found.besides.append(Change(home.file, (*path, "id"), None, mark) if isinstance(step, dict) else
                         Change(home.file, path, step, {"id": mark, "do": step}))
    return mark


def _person(names: Names, said: str) -> str:
    """The id of somebody who is called so; the words as they are where nobody is."""
    people = names.book.people
    return next((id_ for id_, one in people.items() if said.casefold() in (id_, str(one.name).casefold())), said)
