"""A notebook made from the model itself: every text that any kind of mapping can hold, each with a word of its own.

A mapping stands in each place where the model lets one stand; none stands within one of its own kind, except that a
step holds acts, which are steps. What is no text (figures, dates, words of a closed list, names of other files) is
written so that it can be read, and is not looked for.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import product
from pathlib import Path
from string import ascii_lowercase
from typing import Annotated, Any, get_args, get_origin

import yaml
from pydantic.fields import FieldInfo

from site_builder.notebook.kinds import models
from site_builder.notebook.model import limit as limits
from site_builder.notebook.model import parsed_values as leaves
from site_builder.notebook.model import picture, procedure
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.entry import _Condition as ConditionMark
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.limit import By, Limit
from site_builder.notebook.model.parsed_values import OneOf
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.reference_keys import kinds_for

Path_ = tuple[str, ...]
"""Where a text stands: the kind of file and the keys that lead to it."""

_IDS = {
    "tool": "machine-one", "material": "material-one", "part": "part-one", "procedure": "procedure-one",
    "skill": "skill-one", "person": "anna", "change": "change-one", "order": "order-one", "customer": "customer-one",
    "value": "part-one/length", "route": "next", "trouble": "", "path": "procedure-one",
}
"""What each kind of reference leads to here."""

FOLDERS = {
    "shop": "procedures/shop.yml", "procedure": "procedures/part-one/procedure-one.yml",
    "change": "procedures/changes/change-one.yml", "order": "procedures/orders/order-one.yml",
    "people": "skills/people.yml", "skill": "skills/skill-one.yml", "machine": "tools/machines/machine-one.yml",
    "hand-tool": "tools/hand/hand-tool-one.yml", "gauge": "tools/gauges/gauge-one.yml",
    "tooling": "tools/tooling/tooling-one.yml", "protection": "tools/protection/protection-one.yml",
    "sample": "tools/gauges/sample-one.yml", "material": "tools/materials/material-one.yml",
}
"""The file of each kind. A plan of a season and the books are written by the program."""


@dataclass
class Written:
    """The files, and each word with the place where it stands."""

    files: dict[str, Any] = field(default_factory=dict)
    words: dict[str, Path_] = field(default_factory=dict)


def every_text(*, conditions: bool = False) -> Written:
    """The notebook; with ``conditions`` each mapping holds ``for`` one thing alone, and only that is looked for."""
    maker = _Maker(conditions)
    files = maker.written.files
    for kind, file in FOLDERS.items():
        files[file] = maker.entry(models()[kind], (kind,), ())
    steps = files[FOLDERS["procedure"]]["steps"]
    steps.append({"do": "Go on.", "for": dict.fromkeys(("fineness", "colour"), "coarse")})
    files["procedures/part-one/procedure-two.yml"] = {
        "procedure": "procedure-two", "title": "Another work", "steps": [{"use": "procedure-one"}]}
    return maker.written


def write(written: Written, folder: Path) -> None:
    """All files, as YAML without anything that a notebook refuses."""
    for name, tree in written.files.items():
        file = folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(yaml.dump(tree, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=110), "utf-8")


DEEPEST = 4
"""So many mappings stand one within the other; what would stand deeper is written in its short form."""

NOT_SHOWN: Mapping[tuple[str, str], str] = {
    ("Hazard", "brief"): "the same told in fewer words, for pages without room",
    ("Hazard", "family"): "a heading under which pages gather hazards; the hazard itself stands there",
    ("Hazard", "kind"): "what first aid and protection are asked for by; the words of the hazard are shown",
    ("Shop", "sources"): "the name is an id; the title is shown",
    ("Picture", "file"): "the picture itself is shown",
    ("Shop", "recordings"): "who may be heard; a voice is played or it is not",
    ("Shop", "archive"): "what may be kept; the page on thirty years says what follows from it",
}
"""Kind and key of what is meant not to be shown, with the reason."""


class _Plain(yaml.SafeDumper):
    def ignore_aliases(self, _data: Any) -> bool:
        return True


class _Maker:
    def __init__(self, conditions: bool) -> None:
        self.conditions = conditions
        self.written = Written()
        self._fresh = ("zz" + "".join(letters) for letters in product(ascii_lowercase, repeat=4))

    def word(self, path: Path_) -> str:
        word = next(self._fresh)
        if not self.conditions:
            self.written.words[word] = path
        return word

    def entry(self, model: type[Entry], path: Path_, above: tuple[type[Entry], ...]) -> dict[str, Any]:
        out: dict[str, Any] = {}
        model.model_rebuild()
        kind = path[0] if len(path) == 1 else ""
        names = list(model.model_fields.items())
        names.sort(key=lambda pair: (pair[1].alias or pair[0]) != kind)
        for name, held in names:
            key = held.alias or name
            if name in ("at", "asked") or ((model.__name__, key) in NOT_SHOWN and key not in ("file", "sources")):
                continue
            if key in ("opens", "closes") and not {"wait", "windows"} & set(path):
                continue
            if key == "by" and model is not By:
                continue
            value = self._value(model, name, key, held, (*path, key), (*above, model))
            if value not in (None, [], {}):
                out[key] = value
        return out

    def _value(
        self, model: type[Entry], name: str, key: str, held: FieldInfo, path: Path_, above: tuple[type[Entry], ...],
    ) -> Any:
        if key == "for":
            if not self.conditions or len(path) < 3:
                return None
            word = next(self._fresh)
            self.written.words[word] = path
            return {"moisture": word}
        if len(path) == 2 and key == path[0] and key != "people":
            return f"{key}-one"
        if (model.__name__, key) in GIVEN:
            return GIVEN[model.__name__, key]
        kinds = kinds_for(model, name)
        if kinds is not None:
            first = kinds[0].rstrip("?")
            if kinds[0].endswith("?") and first == "person":
                return "anna"
            return _IDS[first] or None
        annotated = Annotated[(held.annotation, *held.metadata)] if held.metadata else held.annotation
        return self._made(annotated, path, above)

    def _made(self, kind: Any, path: Path_, above: tuple[type[Entry], ...]) -> Any:
        if get_origin(kind) is Annotated:
            inner, *marks = get_args(kind)
            for mark in marks:
                if isinstance(mark, OneOf):
                    return mark.words[0]
                if isinstance(mark, ConditionMark):
                    return None
                if isinstance(mark, procedure._Finding):
                    return {self.word(path): {self.word(path): self.entry(Check, path, above)}}
                if isinstance(mark, procedure._Skill):
                    return "skill-one"
                if isinstance(mark, limits._Is):
                    return "aim 52 mm; min 41; max 67"
                if isinstance(mark, limits._When):
                    return f"after the ringing of {self.word(path)}"
                if isinstance(mark, picture._Spot):
                    return [0.5, 0.5]
                if isinstance(mark, leaves._Reads):
                    return self._leaf(kind, path)
            return self._made(inner, path, above)
        if isinstance(kind, type) and issubclass(kind, Entry):
            allowed = 2 if kind is Step and path[-1] == "also" and path.count("also") == 1 else 1
            if len(above) >= DEEPEST or sum(issubclass(one, kind) or issubclass(kind, one) for one in above) >= allowed:
                return self._short(kind, path, above)
            return self.entry(kind, path, above)
        arguments = [one for one in get_args(kind) if one is not type(None)]
        if get_origin(kind) is tuple:
            one = self._made(arguments[0], path, above)
            if path[-1] in _TABLED and len(above) <= 2 and isinstance(one, dict):
                return [one, self._table(path, above)]
            return [] if one is None else [one]
        if len(arguments) == 2 and issubclass(get_origin(kind) or object, Mapping):
            return {NAMED.get(path[-1]) or self.word(path): self._made(arguments[1], path, above)}
        if path[-2:] == ("variants", "values"):
            return ["coarse", self.word(path)]
        if arguments:
            return self._made(arguments[0], path, above)
        raise TypeError(f"Nothing is made of {kind} at {' / '.join(path)} yet.")

    def _table(self, path: Path_, above: tuple[type[Entry], ...]) -> dict[str, Any]:
        """A limit that is a small table: each row a limit, with all that may stand beside."""
        row, whole = (self.entry(Limit, (*path, place), above) for place in ("a row of it", "the whole of it"))
        return {**whole, "is": {"coarse": row, "fine": "8 mm"}, "by": [self.entry(By, (*path, "by"), (*above, Limit))]}

    def _short(self, model: type[Entry], path: Path_, above: tuple[type[Entry], ...]) -> Any:
        """The main key alone."""
        for name, held in model.model_fields.items():
            if model.MAIN and (held.alias or name) == model.MAIN:
                value = self._value(model, name, model.MAIN, held, (*path, model.MAIN), (*above, model))
                return value[0] if isinstance(value, list) and value else value
        return None

    def _leaf(self, kind: Any, path: Path_) -> Any:
        makes: list[tuple[Any, Callable[[str], str] | str]] = [
            (leaves.Words, lambda word: f"Here {word} is told."),
            (leaves.MomentText, lambda word: f"the ringing of {word}"),
            (leaves.CadenceText, lambda word: f"after the ringing of {word}"),
            (leaves.TrendText, lambda word: f"rises with {word}"),
            (leaves.Amount, lambda word: word), (leaves.TabledAmount, lambda word: word),
            (leaves.Ref, lambda word: word),
            (leaves.Count, "3"), (leaves.DateText, "2026-02-11"), (leaves.Id, f"id-{len(self.written.words)}"),
        ]
        for one, make in makes:
            if kind == one:
                return make if isinstance(make, str) else make(self.word(path))
        raise TypeError(f"Nothing is made of {kind} at {' / '.join(path)} yet.")


_TABLED = ("conditions", "settings", "limits", "properties", "sizes")

GIVEN: Mapping[tuple[str, str], Any] = {
    ("Picture", "file"): "photo.jpg", ("By", "name"): "fineness",
    ("Shop", "format"): "1", ("Step", "use"): None, ("Upkeep", "use"): None, ("Role", "skill"): "skill-one",
    ("Skill", "lessons"): "40 h", ("Person", "key"): None,
    ("Person", "born"): "1960", ("Person", "joined"): "1990", ("Person", "left"): None,
}
NAMED = {"variants": "fineness","parts": "part-one", "products": "product-one", "customers": "customer-one",
         "people": "anna", "of": "part-one",
         "made": "part-one", "sources": "a-book", "composition": "material-one"}

