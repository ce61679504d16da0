"""A form as it is shown: each field with what stands there now, or with what was typed and could not be written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from site_builder.amend import Plain
from site_builder.bench.choice import Choice
from site_builder.bench.forms.daily import Asked, asked, first_and_rest
from site_builder.bench.forms.fields import Field, Fill
from site_builder.bench.homes import Home
from site_builder.bench.names import Names
from site_builder.bench.reading_back import ReadBack, read_back, same_value
from site_builder.bench.saying import OPEN, ROUTES
from site_builder.bench.shelves import shelf_choices
from site_builder.bench.spoken_values import value_words
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.told_by import teller_of, told_by

TOLD_BY = "told by "
_ONE_LINE = (Fill.WORDS, Fill.VALUE, Fill.COUNT, Fill.CADENCE, Fill.DAY)


@dataclass(frozen=True, slots=True)
class Filled:
    """One field on the screen."""

    field: Field
    asked: Asked
    text: str = ""
    chosen: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    fixed: str = ""
    """What stands there, where it is more than a field can hold."""
    wrong: ReadBack | None = None

    @property
    def name(self) -> str:
        return name_of(self.field)

    @property
    def holds_something(self) -> bool:
        return bool(self.text or self.chosen or self.fixed)


def name_of(field: Field) -> str:
    """The name of a field in what a form sends."""
    return "f-" + field.key.replace(" ", "-")


def filled(
    model: type[Entry], tree: Plain | None, names: Names, home: Home,
    typed: Mapping[str, tuple[str, ...]] | None = None, wrong: Mapping[str, ReadBack] | None = None,
) -> tuple[list[Filled], list[Filled]]:
    """The fields that are open at once and those that open at a touch; ``typed`` goes before what stands there."""
    entry: Mapping[str, Plain] = tree if isinstance(tree, dict) else {model.MAIN: tree} if tree is not None else {}
    first, rest = first_and_rest(model)

    def shown(field: Field) -> Filled:
        said = (wrong or {}).get(field.key)
        if typed is not None:
            sent = typed.get(name_of(field), ())
            return Filled(field, asked(model, field), sent[0] if sent else "", tuple(sent),
                          tuple(_choices(field, names, home, tuple(sent))), wrong=said)
        return _of_tree(model, field, entry.get(field.key), names, home, said)

    open_ones, folded = [shown(one) for one in first], [shown(one) for one in rest]
    moved = [one for one in folded if one.holds_something or one.wrong]
    return open_ones + moved, [one for one in folded if one not in moved]


def _of_tree(
    model: type[Entry], field: Field, stands: Plain | None, names: Names, home: Home, wrong: ReadBack | None,
) -> Filled:
    how = asked(model, field)
    items = [] if stands is None or stands in OPEN else stands if isinstance(stands, list) else [stands]
    texts = [one for one in items if isinstance(one, str)]
    if len(texts) < len(items) or (len(texts) > 1 and field.fill in _ONE_LINE):
        return Filled(field, how, fixed="More than a line stands here.", wrong=wrong)
    if field.fill in (Fill.THING, Fill.THINGS, Fill.CHOICE, Fill.CHOICES):
        return Filled(field, how, chosen=tuple(texts), wrong=wrong,
                      choices=tuple(_choices(field, names, home, tuple(texts))))
    return Filled(field, how, as_typed(field, texts, names), wrong=wrong)


def as_typed(field: Field, texts: list[str], names: Names) -> str:
    """What stands in a box for these texts of the file."""
    if field.fill is Fill.LINES:
        return "\n".join(" ".join(one.split()) for one in texts)
    text = texts[0].strip() if texts else ""
    if field.fill is Fill.VALUE and text:
        words = value_words(text).partition(" (")[0]
        return words if read_back(words, nouns=names.nouns).notation and same_value(words, text, names.nouns) else text
    if field.key == "source" and text.startswith(TOLD_BY):
        who, on = teller_of(text)
        return told_by(names.person(who), on)
    return text


def _choices(
    field: Field, names: Names, home: Home, chosen: tuple[str, ...],
) -> Iterator[Choice]:
    """The rows to choose from; what is chosen and is none of them stands among them."""
    rows: list[Choice] = []
    if field.fill in (Fill.CHOICE, Fill.CHOICES):
        rows = [Choice(one, one) for one in field.of]
    elif "route" in field.of:
        rows = [Choice(one, words[:1].upper() + words[1:]) for one, words in ROUTES.items()] + [*_steps(home)]
    elif field.fill in (Fill.THING, Fill.THINGS):
        rows = [*shelf_choices(names.book, field.of)]
    yield from rows
    known = {one.value for one in rows}
    yield from (Choice(one, names.spoken(one)) for one in chosen if one and one not in known)


def _steps(home: Home) -> Iterator[Choice]:
    """The steps of this procedure; one that has no mark yet is named by its number."""
    steps = home.tree.get("steps") if isinstance(home.tree, dict) else None
    for number, step in enumerate(steps if isinstance(steps, list) else [steps] if steps else []):
        own = step if isinstance(step, dict) else {"do": step}
        text = " ".join(str(own.get("do") or "").split())
        yield Choice(str(own.get("id") or f"step:{number}"), f"Step {number + 1}: {text[:60]}")
