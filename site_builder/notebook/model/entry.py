"""What every mapping of the notebook shares: short form, reason, variant, source, note, place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache, cached_property
from types import UnionType
from typing import Annotated, Any, ClassVar, Self, Union, get_args, get_origin

from pydantic import BaseModel, ConfigDict, Field, GetJsonSchemaHandler, model_validator
from pydantic.json_schema import JsonSchemaValue, SkipJsonSchema
from pydantic_core import CoreSchema, core_schema

from site_builder.notebook.finding import At
from site_builder.notebook.model.parsed_values import (
    NOTHING,
    Amount,
    JsonSchema,
    Named,
    ParsedValue,
    Ref,
    Several,
    Words,
    fault,
)
from site_builder.notebook.tree import Map, Seq, Text
from site_builder.quantity import Value

NOWHERE = At("", 1, 1)
_EMPTY = ("", "ask")
_AT, _ASKED = "\0at", "\0asked"  # no key that a person can write


class _Condition:
    """Annotation: one ``for`` mapping or a list of them; each name with one value or several."""

    def __get_pydantic_core_schema__(self, _source: Any, _handler: Any) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    @staticmethod
    def _read(data: Any) -> tuple[dict[Text, tuple[Text, ...]], ...]:
        if isinstance(data, tuple):
            return data
        choices = data if isinstance(data, Seq) else [data]
        out = []
        for choice in choices:
            if not isinstance(choice, Map):
                raise fault(
                    "names-wanted", "`for` says a name and its value: `for: {finish: gloss}`.",
                    "Write the dimension, a colon and the value.", getattr(choice, "at", None),
                )
            row: dict[Text, tuple[Text, ...]] = {}
            for name, value in choice.items():
                values = value if isinstance(value, Seq) else _either(value)
                for one in values:
                    if not isinstance(one, Text):
                        raise fault("text-wanted", "A value of the dimension stands here.", "Write one word.", one.at)
                row[name] = tuple(values)
            out.append(row)
        return tuple(out)

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: GetJsonSchemaHandler) -> JsonSchema:
        one = {"type": "object", "additionalProperties": {"type": ["string", "number", "array"]}}
        return {"anyOf": [one, {"type": "array", "items": one}]}


def _either(value: Any) -> list[Any]:
    """``rye or wheat`` as its two values, each at its own place; in a list a text with "or" in it stays whole."""
    if not isinstance(value, Text) or " or " not in value:
        return [value]
    found, begin = [], 0
    for piece in value.split(" or "):
        at = value.at_letter(begin)
        one = Text(piece.strip())
        one.path, one.line, one.column, one.offset = at.path, at.line, at.column, min(value.offset, 0)
        found.append(one)
        begin += len(piece) + len(" or ")
    return found


Condition = Annotated[tuple[dict[Text, tuple[Text, ...]], ...], _Condition()]


class Entry(BaseModel):
    """A mapping of the notebook. A bare text in its place is its main key."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", arbitrary_types_allowed=True, use_attribute_docstrings=True,
        ignored_types=(type(cache(lambda: None)),),
    )

    MAIN: ClassVar[str] = ""
    """The key that a bare text stands for."""

    RINGS: ClassVar[tuple[tuple[str, ...], tuple[str, ...]]] = ((), ())
    """Keys a writer meets on the first day and in the first month; the rest comes rarely."""

    STANDS_FOR_A_VALUE: ClassVar[bool] = False
    """Whether it can itself say `ask`."""

    because: Several[Words] = ()
    """Why: a reason, or several."""

    for_: Condition = Field(default=(), alias="for")
    """Holds only in this variant: `{finish: gloss}`; in either of two: `{finish: gloss or matt}`."""

    source: Words | None = None
    """Where it comes from: an id under `sources`, `memory`, `measured`, `maker`, `told by <person>`."""

    note: Words | None = None
    """A word for the reader."""

    told: Several[Ref] = ()
    """Where it was told: a telling and the seconds in it (`cast-the-arm#t=754.2,759`), or its sentences (`…#c004`)."""

    answered: Named[Words] = Field(default=NOTHING, alias="asked")
    """What was asked and has no answer to write: `{troubles: not known; edda; 2026-11-28}`, `ask tilde`, `does not
    matter`, `cannot hurt`; who said it, and when."""

    at: SkipJsonSchema[At] = Field(default=NOWHERE, alias=_AT)
    asked: SkipJsonSchema[frozenset[Text]] = Field(default=frozenset(), alias=_ASKED)

    @model_validator(mode="before")
    @classmethod
    def _open(cls, data: Any) -> Any:
        if isinstance(data, Text):
            main = cls.MAIN
            if not main:
                raise fault("keys-wanted", "Keys stand here, one a line: `key: value`.", cls._first_key(), data.at)
            if data in _EMPTY and main not in _ask_keys(cls):
                untold = {main: _stand_in(data, None)} if main in _needed_words(cls) else {}
                return {**untold, _AT: data.at, _ASKED: frozenset({_at_key(data, main) if untold else data})}
            return {main: data, _AT: data.at}
        if isinstance(data, Map):
            opened: dict[str, Any] = {str(key): value for key, value in data.items()}
            opened[_AT] = data.at
            data.known = _keys(cls)
            asked: set[Text] | None = None
            for key, value in data.items():
                if type(value) is Text and value in _EMPTY and key in _keys(cls) and key not in _ask_keys(cls):
                    if key in _needed_words(cls):
                        opened[key] = _stand_in(value, next(iter(data.values())) if key == "title" else None)
                    else:
                        del opened[key]
                    asked = asked or set()
                    asked.add(key)
            if asked:
                opened[_ASKED] = frozenset(asked)
            return opened
        if isinstance(data, Seq):
            if cls.MAIN and _is_list(cls, cls.MAIN):  # `pattern: [harbour, deck]`
                return {cls.MAIN: data, _AT: data.at}
            raise fault("keys-wanted", "One thing stands here, not a list.", "Write one.", data.at)
        return data

    @classmethod
    def _first_key(cls) -> str:
        first = next((f.alias or n for n, f in cls.model_fields.items() if f.is_required()), "")
        return f"Begin with `{first}:`." if first else "Write the first key and a colon."

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        schema = handler(core)
        if not cls.MAIN:
            return schema
        resolved = handler.resolve_ref_schema(schema)
        long_form = dict(resolved)
        resolved.clear()
        resolved["title"] = long_form.pop("title", cls.__name__)
        if "description" in long_form:
            resolved["description"] = long_form.pop("description")
        resolved["anyOf"] = [{"type": ["string", "number", "boolean", "null"]}, long_form]
        return schema

    def fields(self) -> Mapping[str, Any]:
        """Every field and its value. What was worked out of them since, and is kept with them, is left out."""
        known = type(self).model_fields
        held = self.__dict__
        return held if len(held) == len(known) else {key: held[key] for key in known if key in held}

    def with_changes(self, **changes: Any) -> Self:
        """A copy with some keys replaced."""
        copied = self.model_copy(update=changes)
        for worked_out in copied.__dict__.keys() - type(self).model_fields.keys():
            del copied.__dict__[worked_out]  # from the keys as they were
        object.__setattr__(copied, "copied_from", self.original)
        return copied

    @cached_property
    def copied_from(self) -> Self | None:
        """The entry of the notebook of which this is a copy with some keys replaced."""
        return None

    @property
    def original(self) -> Self:
        """The entry as it stands in the notebook, also of a copy."""
        return self if self.copied_from is None else self.copied_from


@cache
def _keys(model: type[Entry]) -> frozenset[str]:
    """The keys as written (aliases) that a model knows."""
    return frozenset((f.alias or n) for n, f in model.model_fields.items() if n not in ("at", "asked"))


@cache
def _needed_words(model: type[Entry]) -> frozenset[str]:
    """Names without which there is no entry: they may be asked for, and something stands there."""
    return frozenset(key for key in ("title", "name") if key in model.model_fields
                     and model.model_fields[key].is_required())


def _at_key(asked: Text, key: str) -> Text:
    """The main key, at the place where the short form says ``ask``."""
    return _placed(Text(key), asked)


def _placed(words: Text, at: Text) -> Text:
    words.path, words.line, words.column, words.offset = at.path, at.line, at.column, at.offset
    return words


def _stand_in(asked: Text, id_: Any) -> Text:
    """What stands in place of a name not told yet: where the id is known, the id in plain words."""
    named = type(id_) is Text and id_ not in _EMPTY and id_ is not asked
    return _placed(Text(id_[:1].upper() + id_[1:].replace("-", " ") if named else "Name not told yet"), asked)


@cache
def _is_list(model: type[Entry], key: str) -> bool:
    """Whether a list may stand at this key."""
    return any(
        (f.alias or n) == key and any(get_origin(arm) is tuple for arm in _arms(f.annotation))
        for n, f in model.model_fields.items()
    )


def keys_of(model: type[Entry]) -> frozenset[str]:
    """The keys, as written, that may stand in such a mapping."""
    return _keys(model)


@cache
def _ask_keys(model: type[Entry]) -> frozenset[str]:
    """Keys whose value can itself say `ask`, so that the question keeps its place."""
    return frozenset(
        (field.alias or name)
        for name, field in model.model_fields.items()
        if any(_says_ask(arm) for arm in _arms(field.annotation))
    )


def _arms(annotation: object) -> Iterator[object]:
    """What may stand at a key: each alternative, without what is said of it besides."""
    if get_origin(annotation) is Annotated:
        yield from _arms(get_args(annotation)[0])
    elif get_origin(annotation) in (Union, UnionType):
        for arm in get_args(annotation):
            yield from _arms(arm)
    else:
        yield annotation


def _says_ask(arm: object) -> bool:
    """Whether it is a value, or an entry that stands for one; of a list, whether its items are."""
    if get_origin(arm) is tuple:
        return any(_says_ask(inner) for one in get_args(arm) for inner in _arms(one))
    if get_origin(arm) is ParsedValue:
        return get_args(arm) == (Value,)
    return isinstance(arm, type) and issubclass(arm, Entry) and arm.STANDS_FOR_A_VALUE


__all__ = ["NOTHING", "NOWHERE", "Amount", "Condition", "Entry", "Named", "Several", "Text", "Words", "keys_of"]
