"""The answer to a question as an amendment: where it belongs, in the form that stands there, with who told it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from site_builder.amend import Amendment, Change, Plain, clean, entry_at, id_for, look_up, tree_in
from site_builder.analysis.analysis import Analysis
from site_builder.bench.forms.new_things import begun_thing, taken_in
from site_builder.bench.forms.placing import ALWAYS_A_LIST
from site_builder.bench.reading_back import ReadBack, read_back
from site_builder.checks.answering import Answer, By, Spot, asked_at
from site_builder.notebook.answered import Answered
from site_builder.notebook.told_by import told_by


@dataclass(frozen=True, slots=True)
class Teller:
    """Who told it, on which day."""

    id: str
    on: date

    @property
    def source(self) -> str:
        return told_by(self.id, self.on.isoformat())


@dataclass(frozen=True, slots=True)
class Given:
    """What a form brought."""

    words: str = ""
    unit: str = ""
    name: str = ""
    chosen: tuple[str, ...] = ()
    new: str = ""
    new_kind: str = ""
    none: bool = False
    file: str = ""
    """The name of a picture or recording that was kept."""


class Unreadable(Exception):
    """The answer cannot be written; says why, and what could be."""

    def __init__(self, read: ReadBack) -> None:
        super().__init__(read.wrong)
        self.read = read


def instead(what: str, code: str, spot: Spot, said: Answered) -> Amendment:
    """Not known, ask somebody, does not matter, cannot hurt: written down beside what is open."""
    entry, key = asked_at(code, spot)
    stands = look_up(spot.tree, entry)
    if isinstance(stands, dict):
        held = stands.get("asked")
        shall: Plain = {**(held if isinstance(held, dict) else {}), key: said.text}
        return Amendment(what, (Change(spot.file, (*entry, "asked"), held, shall),))
    model = entry_at(spot.tree, entry)
    main = model.MAIN if model is not None else ""
    if not isinstance(stands, str) or not main:
        raise Unreadable(ReadBack(wrong="There is no room for that answer here. Write it at the line."))
    return Amendment(what, (Change(spot.file, entry, stands, {main: stands, "asked": {key: said.text}}),))


def answer(what: str, code: str, answer: Answer, spot: Spot, given: Given, by: Teller, survey: Analysis) -> Amendment:
    """The amendment that writes an answer. Raises Unreadable."""
    if code == "accident-unsaid":
        spot = _shop_spot(spot, survey)
    if code == "question-noted":
        return _noted(what, spot, given, by)
    if code == "value-disputed":
        return _settled(what, spot, given, by)
    if code == "products-asked":
        return _products(what, spot, given, survey)
    if answer.by is By.YES:
        return _held(what, spot, given, by)
    if code == "word-vague":
        return _said_again(what, spot, given)
    if not answer.key:
        return _value_at(what, spot, given, by, answer, survey)
    shall, more = _shall(answer, spot, given, by, survey)
    was = look_up(spot.tree, (*spot.entry, answer.key))
    made = _put(what, spot, answer.key, _together(was, shall, answer))
    return Amendment(what, (*more.changes, *made.changes)) if more is not None else made


def _shop_spot(spot: Spot, survey: Analysis) -> Spot:
    """What is done first in an accident stands on the page of the shop, wherever it was asked."""
    shop = survey.notebook.shop
    tree = tree_in(survey.notebook.root, str(shop.at.path)) if shop is not None else None
    if shop is None or not isinstance(tree, dict):
        raise Unreadable(ReadBack(wrong="The shop has no page yet on which it could stand."))
    return Spot(str(shop.at.path), (), (), tree, tree) if spot.file != str(shop.at.path) else spot


def _shall(
    answer: Answer, spot: Spot, given: Given, by: Teller, survey: Analysis,
) -> tuple[Plain, Amendment | None]:
    """What shall stand under the key, and a file that is begun for it."""
    model = entry_at(spot.tree, (*spot.entry, answer.key))
    if answer.by in (By.VALUE, By.COUNT, By.CADENCE, By.DAY):
        read = _read(given, answer.by.value)
        if answer.inner == "rated speed":
            return {answer.inner: {"is": read, "source": by.source}}, None
        if answer.inner:
            return {answer.inner: read, "source": by.source}, None
        if model is not None and model.MAIN:
            return {model.MAIN: read, "source": by.source}, None
        return read, None
    if answer.by is By.NAMED:
        name = " ".join(given.name.split())
        if not name:
            raise Unreadable(ReadBack(wrong="Say first what it is: belt speed, heat, power."))
        return {name: {"is": _read(given, "value"), "source": by.source}}, None
    if answer.by in (By.THINGS, By.THING):
        return _things(answer, given, survey)
    if answer.by is By.CHOICE:
        if not given.chosen:
            raise Unreadable(ReadBack(wrong="Choose one."))
        return given.chosen[0], None
    if answer.by is By.PICTURE:
        if not given.file:
            raise Unreadable(ReadBack(wrong="Take a picture first, or choose one from the disk."))
        return {"file": given.file, "shows": clean(given.words) or "ask", "source": by.source}, None
    lines = [clean(one) for one in clean(given.words).split("\n") if one.strip()]
    if not lines:
        raise Unreadable(ReadBack(wrong="Nothing is written yet."))
    if answer.by is By.WORDS:
        lines = [" ".join(lines)]
    items: list[Plain] = [{model.MAIN: one, "source": by.source} if model is not None and model.MAIN else one
                          for one in lines]
    alone = len(items) == 1 and not (answer.key in ALWAYS_A_LIST and isinstance(items[0], dict))
    return (items[0] if alone else items), None


def _things(answer: Answer, given: Given, survey: Analysis) -> tuple[Plain, Amendment | None]:
    ids, more = [*given.chosen], None
    title = " ".join(given.new.split())
    if title:
        begun = begun_thing(survey.notebook, title, given.new_kind, answer.of)
        if isinstance(begun, str):
            raise Unreadable(ReadBack(wrong=begun))
        ids.append(begun[0])
        more = Amendment("", (begun[1],))
    if given.none and not ids:
        return [], None
    if not ids:
        raise Unreadable(ReadBack(wrong="Choose at least one, or write down something new."))
    if answer.by is By.THING:
        return ids[-1], more
    return (ids[0] if len(ids) == 1 else [*ids]), more


def _together(was: Plain | None, shall: Plain, answer: Answer) -> Plain:
    """With what stands there already."""
    if was is None or was in ("", "ask") or answer.by in (By.THING, By.CHOICE, By.CADENCE, By.DAY):
        return shall
    if answer.by is By.NAMED or answer.inner:
        return {**was, **shall} if isinstance(was, dict) and isinstance(shall, dict) else shall
    if answer.by in (By.LINES, By.THINGS, By.PICTURE):
        old = was if isinstance(was, list) else [was]
        return [*old, *(shall if isinstance(shall, list) else [shall])]
    return shall


def _put(what: str, spot: Spot, key: str, shall: Plain) -> Amendment:
    """Under a key of the entry; a short form becomes a long one."""
    if isinstance(spot.stands, dict):
        changes = [Change(spot.file, (*spot.entry, key), spot.stands.get(key), shall)]
        held = spot.stands.get("asked")
        if isinstance(held, dict) and key in held:
            rest: Plain = {name: text for name, text in held.items() if name != key}
            changes.append(Change(spot.file, (*spot.entry, "asked"), held, rest or None))
        return Amendment(what, tuple(changes))
    model = entry_at(spot.tree, spot.entry)
    if not isinstance(spot.stands, str) or model is None or not model.MAIN:
        raise Unreadable(ReadBack(wrong="There is no room for that answer here. Write it at the line."))
    if key == model.MAIN:
        return Amendment(what, (Change(spot.file, spot.entry, spot.stands, shall),))
    return Amendment(what, (Change(spot.file, spot.entry, spot.stands, {model.MAIN: spot.stands, key: shall}),))


def _value_at(what: str, spot: Spot, given: Given, by: Teller, answer: Answer, survey: Analysis) -> Amendment:
    """A value in the place of one that was open, its source beside it."""
    was = look_up(spot.tree, spot.path)
    if not isinstance(was, str):
        raise Unreadable(ReadBack(wrong="More than a value stands here. Write it at the line."))
    shall, more = _in_its_place(given, answer, survey)
    if spot.path == spot.entry:
        model = entry_at(spot.tree, spot.entry)
        main = model.MAIN if model is not None else ""
        whole: Plain = {main: shall, "source": by.source} if main else shall
        return Amendment(what, (*more, Change(spot.file, spot.path, was, whole)))
    changes = [Change(spot.file, spot.path, was, shall)]
    if isinstance(spot.stands, dict) and len(spot.path) == len(spot.entry) + 1:
        key, held = str(spot.path[-1]), spot.stands.get("asked")
        if entry_at(spot.tree, spot.entry) is not None:
            changes.append(Change(spot.file, (*spot.entry, "source"), spot.stands.get("source"), by.source))
        if isinstance(held, dict) and key in held:
            rest: Plain = {name: text for name, text in held.items() if name != key}
            changes.append(Change(spot.file, (*spot.entry, "asked"), held, rest or None))
    return Amendment(what, (*more, *changes))


def _in_its_place(given: Given, answer: Answer, survey: Analysis) -> tuple[Plain, tuple[Change, ...]]:
    """What shall stand where ``ask`` stood, and what is begun for it."""
    if answer.by in (By.THING, By.THINGS):
        shall, more = _things(answer, given, survey)
        return shall, more.changes if more is not None else ()
    if answer.by is By.CHOICE:
        if not given.chosen:
            raise Unreadable(ReadBack(wrong="Choose one."))
        return given.chosen[0], ()
    if answer.by in (By.WORDS, By.LINES):
        lines: list[Plain] = [" ".join(one.split()) for one in clean(given.words).split("\n") if one.strip()]
        if not lines:
            raise Unreadable(ReadBack(wrong="Nothing is written yet."))
        return (" ".join(map(str, lines)) if answer.by is By.WORDS else lines[0] if len(lines) == 1 else lines), ()
    return _read(given, "value" if answer.by is By.VALUE else answer.by.value), ()


def _said_again(what: str, spot: Spot, given: Given) -> Amendment:
    """Other words in the place of those that said too little."""
    was = look_up(spot.tree, spot.path)
    shall = clean(given.words, was)
    if not isinstance(was, str) or not shall.strip():
        raise Unreadable(ReadBack(wrong="Nothing is written yet."))
    if shall == was:
        raise Unreadable(ReadBack(wrong="These are still the same words. Say how much, how long or by what sign."))
    return Amendment(what, (Change(spot.file, spot.path, was, shall),))


def _settled(what: str, spot: Spot, given: Given, by: Teller) -> Amendment:
    """Of several answers the one that holds; all of them stay, with who said them."""
    said = spot.stands.get("said") if isinstance(spot.stands, dict) else None
    number = given.chosen[0] if given.chosen else ""
    chosen = said[int(number)] if isinstance(said, list) and number.isdigit() and int(number) < len(said) else None
    value = chosen.get("is") if isinstance(chosen, dict) else chosen
    if given.words.strip():
        value = _read(given, "value")
    if not isinstance(spot.stands, dict) or not isinstance(value, str):
        raise Unreadable(ReadBack(wrong="Choose which of them holds, or write what is right."))
    return Amendment(what, (Change(spot.file, (*spot.entry, "is"), spot.stands.get("is"), value),
                            Change(spot.file, (*spot.entry, "source"), spot.stands.get("source"), by.source)))


def _products(what: str, spot: Spot, given: Given, survey: Analysis) -> Amendment:
    """What leaves the shop, a thing on each line."""
    lines = [" ".join(one.split()) for one in clean(given.words).split("\n") if one.strip()]
    if not lines or not isinstance(spot.stands, dict):
        raise Unreadable(ReadBack(wrong="Nothing is written yet."))
    taken, made = taken_in(survey.notebook), dict[str, Plain]()
    for one in lines:
        id_ = id_for(one, taken)
        taken.add(id_)
        made[id_] = one
    was = spot.stands.get("products")
    return Amendment(what, (Change(spot.file, ("products",), was, {**was, **made} if isinstance(was, dict) else made),))


def _held(what: str, spot: Spot, given: Given, by: Teller) -> Amendment:
    """A value that was doubted: it holds, or another does."""
    was = look_up(spot.tree, spot.path)
    if not isinstance(was, str):
        raise Unreadable(ReadBack(wrong="More than a value stands here. Write it at the line."))
    if given.words.strip():
        shall = _read(given, "value")
    elif given.chosen == ("yes",):
        shall = was.removeprefix("perhaps ").strip()
    else:
        raise Unreadable(ReadBack(wrong="Say whether it holds, or write what is right."))
    if spot.path == spot.entry or not isinstance(spot.stands, dict):
        model = entry_at(spot.tree, spot.path)
        main = model.MAIN if model is not None else ""
        return Amendment(what, (Change(spot.file, spot.path, was, {main: shall, "source": by.source}
                                       if main else shall),))
    changes = [Change(spot.file, spot.path, was, shall)] if shall != was else []
    if "doubt" in spot.stands:
        changes.append(Change(spot.file, (*spot.entry, "doubt"), spot.stands["doubt"], None))
    changes.append(Change(spot.file, (*spot.entry, "source"), spot.stands.get("source"), by.source))
    return Amendment(what, tuple(one for one in changes if one.was != one.shall))


def _noted(what: str, spot: Spot, given: Given, by: Teller) -> Amendment:
    """The answer to a question in words: a note of the thing, with the question taken out."""
    words = " ".join(given.words.split())
    if not words:
        raise Unreadable(ReadBack(wrong="Nothing is written yet."))
    asked = look_up(spot.tree, spot.path)
    held = look_up(spot.tree, (*spot.entry, "questions"))
    if not isinstance(spot.stands, dict) or not isinstance(asked, str):
        raise Unreadable(ReadBack(wrong="There is no room for that answer here. Write it at the line."))
    left = [one for one in held if one != asked] if isinstance(held, list) else []
    note = spot.stands.get("note")
    stop = "" if words.endswith((".", "!", "?")) else "."
    told = f"{' '.join(asked.split())} {words}{stop} ({by.source[:1].upper()}{by.source[1:]}.)"
    return Amendment(what, (
        Change(spot.file, (*spot.entry, "questions"), held, left or None),
        Change(spot.file, (*spot.entry, "note"), note, f"{note.strip()} {told}" if isinstance(note, str) else told),
    ))


def _read(given: Given, kind: str) -> str:
    read = read_back(given.words, given.unit, kind)
    if not read.notation:
        raise Unreadable(read)
    return read.notation
