"""Single texts of the notebook, each typed by the place where it stands.

A leaf keeps the text as written and its place, so that any later message can point at it.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Generic, TypeVar, get_args

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationError, ValidationInfo
from pydantic_core import CoreSchema, InitErrorDetails, PydanticCustomError, core_schema

from site_builder.notebook.finding import At
from site_builder.notebook.nearest import nearest
from site_builder.notebook.tree import Map, Seq, Text
from site_builder.quantity import (
    Cadence,
    DateSpan,
    Moment,
    NotationError,
    Trend,
    Value,
    parse_cadence,
    parse_date,
    parse_moment,
    parse_trend,
    parse_value,
)
from site_builder.quantity.signs import MOST_LETTERS

T = TypeVar("T")
NO_NOUNS: frozenset[str] = frozenset()
JsonSchema = dict[str, Any]

ID = re.compile(r"[a-z][a-z0-9-]*\Z")


_GERMAN = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss", "æ": "ae", "ø": "oe", "å": "aa"})


def id_from(text: str) -> str:
    """The id that a title or a name comes nearest to: ``Bürste, groß`` as ``buerste-gross``; empty if none does."""
    low = unicodedata.normalize("NFC", text).lower().translate(_GERMAN)
    plain = unicodedata.normalize("NFKD", low).encode("ascii", "ignore").decode()
    id_ = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")
    return id_ if ID.match(id_) else ""


def fault(code: str, message: str, fix: str = "", at: At | None = None) -> PydanticCustomError:
    """An error of the model; ``load`` turns it into a finding at the right place."""
    return PydanticCustomError(
        "notebook", "{message}", {"code": code, "message": message, "fix": fix, "at": at}
    )


def notation_fault(
    problem: NotationError, text: Text, parse: Callable[[str], object] | None = None
) -> PydanticCustomError:
    """The same for a value that cannot be read; the mend is the whole text as it should be written.

    With ``parse`` what is wrong with the mended text is mended too, so that it can be written as it is told.
    """
    if len(text) > MOST_LETTERS:
        alone = "Write the value alone, and the words beside it under `note`."
        return fault(problem.code, problem.message, alone, text.at)
    if not problem.fix:
        message, do = _message_and_mend(problem.message)
        return fault(problem.code, message, do, text.at_letter(problem.start))
    whole = _mended(str(text), problem)
    for _ in range(_AGAIN if parse is not None else 0):
        try:
            parse(whole)  # type: ignore[misc]
        except NotationError as more:
            if not more.fix:
                break
            whole = _mended(whole, more)
        else:
            break
    message = problem.message.replace(f"`{problem.fix}`", f"`{whole}`")
    return fault(problem.code, message, f"Write `{whole}`.", text.at_letter(problem.start))


def _mended(text: str, problem: NotationError) -> str:
    return text[: problem.start] + problem.fix + text[problem.end :]


def _message_and_mend(told: str) -> tuple[str, str]:
    """A message that ends with what to write, in two; for another one the table of values has to do."""
    found = _ENDS_WITH_ITS_MEND.fullmatch(told)
    if found is None:
        return told, "Look it up in the table of values for writers."
    lead, sign, mend = found.groups()
    mend = f"Write it like {mend}" if mend.startswith("`") else mend
    return f"{lead}{'?' if sign == '?' else '.'}", f"{mend[:1].upper()}{mend[1:]}"


_ENDS_WITH_ITS_MEND = re.compile(
    r"([^:;.?]+)([:;.?]) ((?:write|Write|Where it holds|If you count in|words go)\b.*|`[^`]+`\.)", re.DOTALL)
_AGAIN = 3
"""So many faults of one short text are mended one after the other."""



def nouns_of(info: ValidationInfo) -> frozenset[str]:
    """The words that this shop counts in."""
    context: Mapping[str, Any] = info.context or {}
    nouns: frozenset[str] = context.get("nouns", NO_NOUNS)
    return nouns


def written_text(data: Any) -> Text:
    """The text itself, or what to say when a list or a mapping stands in its place."""
    if isinstance(data, Text):
        return data
    if isinstance(data, Seq):
        if data.flow and any(isinstance(one, Seq) for one in data):
            raise fault("yaml-broken", "A text cannot begin with `[`.", "Put a word before the link.", data.at)
        if len(data) == 1 and isinstance(data[0], Text):
            raise fault("text-wanted", "One thing stands here, not a list.", f"Write `{data[0]}` alone.", data.at)
        raise fault("text-wanted", "A text stands here, not a list.", "Write one text.", data.at)
    if isinstance(data, Map):
        colon = "A colon inside a sentence makes a key: use a dash, or put the text after `>` on the next line."
        alone = "Write one text or value alone; what else is to be said goes under `note`."
        is_sentence = len(data) == 1 and not data.flow
        raise fault("text-wanted", "A text stands here, not keys of its own.", colon if is_sentence else alone, data.at)
    if isinstance(data, str):
        text = Text(data)
        text.path, text.line, text.column, text.offset = "", 1, 1, 0
        return text
    raise fault("text-wanted", "A text stands here.", "Write one text.")


def read_rows(data: Map, read: Callable[[Any], T]) -> dict[Text, T]:
    """Every row of a table read on its own; the faults of all rows are raised together, each at its row."""
    rows: dict[Text, T] = {}
    faults: list[InitErrorDetails] = []
    for name, row in data.items():
        try:
            rows[name] = read(row)
        except PydanticCustomError as problem:
            faults.append({"type": problem, "loc": (name,), "input": row})
        except ValidationError as problems:
            for error in problems.errors(include_url=False):
                kind: Any = error["type"]
                if kind == "notebook":
                    kind = PydanticCustomError("notebook", "{message}", error["ctx"])
                faults.append({"type": kind, "loc": (name, *error["loc"]), "input": error["input"]})
    if faults:
        raise ValidationError.from_exception_data("rows", faults)
    return rows


@dataclass(frozen=True, slots=True)
class ParsedValue(Generic[T]):
    """A text and what it means."""

    text: Text
    value: T

    @property
    def at(self) -> At:
        return self.text.at

    def __str__(self) -> str:
        return str(self.text)


Written = ParsedValue[Value]
Cadenced = ParsedValue[Cadence]
Momentary = ParsedValue[Moment]
Trending = ParsedValue[Trend]
Dated = ParsedValue[DateSpan]


class _Reads:
    """Annotation: read a text with a function; describe it to editors with a schema."""

    def __init__(self, read: Callable[[Any, ValidationInfo], Any], schema: JsonSchema) -> None:
        self.read = read
        self.schema = schema

    def __get_pydantic_core_schema__(self, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: GetJsonSchemaHandler) -> JsonSchema:
        return dict(self.schema)


def _words(data: Any, _info: ValidationInfo) -> Text:
    return written_text(data)


def _id(data: Any, _info: ValidationInfo) -> Text:
    text = written_text(data)
    if not ID.match(text):
        better = id_from(text)
        raise fault(
            "id-broken", f"`{text}` is not an id: small letters, digits and hyphens, a letter first.",
            f"Write `{better}`." if better else "Choose a short name in small letters.",
        )
    return text


def _notation(
    parse: Callable[[str, frozenset[str]], Any],
) -> Callable[[Any, ValidationInfo], Any]:
    def read(data: Any, info: ValidationInfo) -> Any:
        text = written_text(data)
        try:
            return ParsedValue(text, parse(text, nouns_of(info)))
        except NotationError as problem:
            raise notation_fault(problem, text, lambda mended: parse(mended, nouns_of(info))) from None

    return read


def _tabled(data: Any, info: ValidationInfo) -> Any:
    """One amount; a table is one entry a row by now, unless nothing says what it is read by."""
    if isinstance(data, Map):
        raise fault("by-unknown", "A table of amounts stands here, and `by` does not say what each of its levels is.",
                    "Add `by: pattern` beside it, with the variant or the measured name that its rows are values of.",
                    data.at)
    return _notation(parse_value)(data, info)


_VALUE_SCHEMA: JsonSchema = {
    "type": ["string", "number", "null"],
    "description": "A value: `18 m/s`, `25 ±0.1 mm`, `12..30 °C`, `max 0.1 mm`, "
    "`aim 45 µm; min 30; max 70`, `about 6 min`, `ask`.",
}
_COUNT_SCHEMA: JsonSchema = {
    "type": ["string", "number", "null"], "description": "A count: `2`, `about 2; max 5`, `ask`.",
}
_CADENCE_SCHEMA: JsonSchema = {
    "type": "string",
    "description": "How often: `start`, `each piece`, `every 10 pieces`, `3 of 50 pieces`, `first and last`.",
}
_WORDS_SCHEMA: JsonSchema = {"type": ["string", "number", "boolean", "null"]}

Words = Annotated[Text, _Reads(_words, _WORDS_SCHEMA)]
Id = Annotated[Text, _Reads(_id, {"type": "string", "pattern": "^[a-z][a-z0-9-]*$"})]
Ref = Annotated[Text, _Reads(_words, {"type": "string", "description": "An id, or a path with `/`."})]
Amount = Annotated[Written, _Reads(_notation(lambda t, n: parse_value(t, n)), _VALUE_SCHEMA)]
TabledAmount = Annotated[
    Written, _Reads(_tabled, {**_VALUE_SCHEMA, "type": ["string", "number", "null", "object"]})
]
Count = Annotated[Written, _Reads(_notation(lambda t, n: parse_value(t, n, True)), _COUNT_SCHEMA)]
CadenceText = Annotated[Cadenced, _Reads(_notation(lambda t, n: parse_cadence(t, n)), _CADENCE_SCHEMA)]
MomentText = Annotated[
    Momentary,
    _Reads(_notation(lambda t, _n: parse_moment(t)), {"type": "string", "description": "A step or an event."}),
]
TrendText = Annotated[
    Trending,
    _Reads(
        _notation(lambda t, _n: parse_trend(t)),
        {"type": "string", "description": "`falls 1 min per 4 °C of room temperature`, `rises with humidity`."},
    ),
]
DateText = Annotated[
    Dated,
    _Reads(
        _notation(lambda t, _n: parse_date(t)),
        {"type": ["string", "number"], "description": "`2026-03-02`, `2026-03`, `1987`, or a span `a..b`."},
    ),
]


_MEANT = {
    "hand": "touch", "finger": "touch", "fingers": "touch", "feel": "touch", "eye": "sight", "eyes": "sight",
    "see": "sight", "look": "sight", "looking": "sight", "ear": "sound", "ears": "sound", "hear": "sound",
    "hearing": "sound", "nose": "smell", "tongue": "taste", "heat": "warmth", "feeling": "touch", "heft": "weight",
    "own": "alone", "unaided": "alone", "independent": "alone", "independently": "alone", "self": "alone",
    "call": "within call", "nearby": "within call", "supervised": "beside", "helped": "beside", "assisted": "beside",
    "watched": "watches", "watching": "watches", "observes": "watches", "teacher": "teaches", "teach": "teaches",
    "teaching": "teaches", "deadly": "danger", "attention": "caution", "note": "notice", "warn": "warning",
    "accepted": "kept", "adopted": "kept", "worked": "kept", "rejected": "dropped", "abandoned": "dropped",
    "trial": "on trial", "running": "on trial", "founder": "yes", "y": "yes", "n": "no", "never": "no",
    "batch": "lot", "each": "piece", "pieces": "piece", "loads": "load", "lots": "lot", "measured": "measurement",
    "max": "highest", "maximum": "highest", "min": "lowest", "minimum": "lowest", "average": "mean",
}  # fmt: skip


def _nearest(text: str, words: tuple[str, ...]) -> str:
    """The word that was meant: in other letters, begun, misspelt, or another that says the same (`on his own`)."""
    low = text.lower().strip()
    begun = [word for word in words if len(low) > 1 and word.lower().startswith(low)]
    if len(begun) == 1:
        return begun[0]
    meant = _MEANT.get(low) or next((_MEANT[one] for one in re.findall("[a-z]+", low) if _MEANT.get(one) in words), "")
    return meant if meant in words else nearest(low, words)


class OneOf:
    """Annotation: one word of a list."""

    def __init__(self, *words: str) -> None:
        self.words = words

    def __get_pydantic_core_schema__(self, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(data: Any) -> Text:
            text = written_text(data)
            if text not in self.words:
                listed = ", ".join(f"`{w}`" for w in self.words)
                near = _nearest(text, self.words)
                fix = f"Write `{near}`." if near else "Write one of these words."
                raise fault("word-unknown", f"`{text}` is none of {listed}.", fix, text.at)
            return text

        return core_schema.no_info_plain_validator_function(read)

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: GetJsonSchemaHandler) -> JsonSchema:
        also = [True, False] if "true" in self.words else []  # what editors read a bare yes or true as
        return {"enum": [*self.words, *also, None]}


class _Several:
    """Annotation on ``tuple[X, ...]``: where a list may stand, one thing may stand alone."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_before_validator_function(
            lambda data: data if isinstance(data, (Seq, tuple)) else (data,), handler(source)
        )

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchema:
        array = handler(core)
        items = array.get("items", {})
        return {"anyOf": [items, {"type": "array", "items": items}]}


class Names(dict[Text, Any]):
    """A mapping that cannot be changed."""

    def _refuse(self, *_: Any, **__: Any) -> Any:
        raise TypeError("the notebook is frozen")

    __setitem__ = __delitem__ = update = pop = popitem = setdefault = clear = _refuse

    def __deepcopy__(self, _memo: Any) -> Names:
        return self

    def __hash__(self) -> int:  # type: ignore[override]
        # hashable, so that the model takes an empty one as it is instead of copying it for every entry
        return hash(tuple(self))


class _Named:
    """Annotation on ``Mapping[Text, X]``: names of the shop's own, each with its value."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        inner = handler.generate_schema(get_args(source)[1])

        def must_be_map(data: Any) -> Any:
            if isinstance(data, Map) or not isinstance(data, (Seq, Text)):
                return data
            raise fault(
                "names-wanted", "Names with values stand here, one a line: `name: value`.",
                "Write a name, a colon, a blank and the value.", data.at,
            )

        return core_schema.no_info_after_validator_function(
            Names,
            core_schema.no_info_before_validator_function(
                must_be_map, core_schema.dict_schema(core_schema.any_schema(), inner)
            ),
        )

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchema:
        return {**handler(core), "type": ["object", "null"]}


Several = Annotated[tuple[T, ...], _Several()]
Named = Annotated[Mapping[Text, T], _Named()]

NOTHING: Mapping[Text, Any] = Names()

SignalWord = Annotated[Text, OneOf("danger", "warning", "caution", "notice")]
Sense = Annotated[Text, OneOf("touch", "sight", "sound", "smell", "taste", "weight", "warmth")]
LevelWord = Annotated[Text, OneOf("watches", "beside", "within call", "alone", "teaches")]
Lotwise = Annotated[Text, OneOf("piece", "load", "lot", "spot", "coat")]
Yes = Annotated[Text, OneOf("yes", "no", "true", "false")]
