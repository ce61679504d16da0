"""A limit: every value the shop sets, keeps or accepts, and the table it may be read from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any, ClassVar

from pydantic import BeforeValidator, GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic.fields import Field
from pydantic_core import CoreSchema, core_schema

from site_builder.notebook.finding import At
from site_builder.notebook.model.entry import Entry, keys_of
from site_builder.notebook.model.parsed_values import (
    NOTHING,
    Amount,
    CadenceText,
    DateText,
    JsonSchema,
    MomentText,
    Named,
    OneOf,
    ParsedValue,
    Ref,
    Several,
    TrendText,
    Words,
    Yes,
    notation_fault,
    nouns_of,
    read_rows,
    written_text,
)
from site_builder.notebook.tree import Map, Text
from site_builder.quantity import Ask, Cadence, NotationError, Value, parse_cadence, parse_value

if TYPE_CHECKING:
    from site_builder.notebook.model.judging import End, Exempt, Inspection, Remedy


@dataclass(frozen=True, slots=True)
class Table:
    """A small table: row name to a limit or, for a further name under ``by``, another table."""

    rows: Mapping[Text, Limit | Table]
    at: At

    def cells(self) -> Iterator[tuple[tuple[Text, ...], Limit]]:
        """Every cell with the names of the rows that lead to it."""
        for name, inside in self.rows.items():
            if isinstance(inside, Table):
                for names, cell in inside.cells():
                    yield (name, *names), cell
            else:
                yield (name,), inside


class _Is:
    """Annotation: a value, or a table of values."""

    def __get_pydantic_core_schema__(self, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(read_is)

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: GetJsonSchemaHandler) -> JsonSchema:
        return {
            "description": "A value, or a table read by the names under `by`.",
            "type": ["string", "number", "null", "object"],
        }


class _When:
    """Annotation: a cadence, or a table of cadences."""

    def __get_pydantic_core_schema__(self, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(_read_when)

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: GetJsonSchemaHandler) -> JsonSchema:
        return {"type": ["string", "null", "object"], "description": "How often, or a table of it read by `by`."}


class By(Entry):
    """What a table is read by: a variant, or a measured name."""

    MAIN: ClassVar[str] = "name"
    name: Ref
    """The variant or the measured name; the rows are its values."""
    take: Annotated[Text, OneOf("highest", "lowest", "mean", "last")] | None = None
    """Which of several readings counts."""
    lasting: Amount | None = None
    """A reading counts only if it held so long."""
    after: MomentText | None = None
    """From which moment the readings count."""


class Limit(Entry):
    """A value with its sides, its gauge, its check and its doubts."""

    STANDS_FOR_A_VALUE: ClassVar[bool] = True

    MAIN: ClassVar[str] = "is"
    RINGS = (("is", "with"), ("check", "below", "above", "by", "tool"))
    is_: Annotated[ParsedValue[Value] | Table, _Is()] | None = Field(default=None, alias="is")
    """The value, or a table of it."""
    by: Several[By] = ()
    """What the table is read by."""
    given: Named[Amount] = NOTHING
    """Conditions at which the value holds exactly."""
    follows: Several[TrendText] = ()
    """How it shifts away from them."""
    sum: Several[Ref] = ()
    """The limit is on the sum of these; `minus` before one subtracts it."""
    with_: Several[Ref] = Field(default=(), alias="with")
    """The gauge it is measured with."""
    tool: Ref | None = None
    """The tool it is set on."""
    check: Several[Annotated[Inspection, Field()]] = ()
    """How often and by whom it is looked at."""
    below: Several[Annotated[Remedy, Field()]] = ()
    """What it means, and what to do, on the low side."""
    above: Several[Annotated[Remedy, Field()]] = ()
    """What it means, and what to do, on the high side."""
    unless: Annotated[Exempt, Field()] | None = None
    """The allowed departure."""
    opens: Several[Annotated[End, Field()]] = ()
    """Of a wait or a window: the sign from which it may go on, with or without a figure beside."""
    closes: Several[Annotated[End, Field()]] = ()
    """Of a wait or a window: the sign by which it is too late."""
    rather: Annotated[Text, OneOf("below", "above")] | None = None
    """Which side is the lesser evil where it must miss: `below` or `above`; the reason under `because`."""
    guide: Yes | None = None
    """Shows where one is heading; never accepts or rejects work."""
    doubt: Words | None = None
    """Why the value is not trusted."""
    said: Several[Annotated[Saying, Field()]] = ()
    """Who said what."""

    def cells(self) -> Iterator[tuple[tuple[Text, ...], Limit]]:
        """The limits inside: itself without a name, or each cell of its table."""
        if isinstance(self.is_, Table):
            yield from self.is_.cells()
        else:
            yield (), self

    @property
    def written(self) -> ParsedValue[Value] | None:
        """The value, where it is not a table."""
        return self.is_ if isinstance(self.is_, ParsedValue) else None

    @property
    def is_settled(self) -> bool:
        """Whether a value or a table holds: it is neither asked for, nor only said by somebody."""
        return self.is_ is not None and not (self.written is not None and isinstance(self.written.value.what, Ask))


def by_its_sign(data: Any) -> Any:
    """``until dry`` in place of a standing time: a sign opens it, no figure."""
    if not isinstance(data, Text) or not data.lower().startswith("until "):
        return data
    sign, opens, out = Text(data[len("until "):].strip()), Text("opens"), Map()
    for one in (sign, opens, out):
        one.path, one.line, one.column = data.path, data.line, data.column
    sign.offset = opens.offset = -1 if data.offset < 0 else data.offset
    sign.column += len("until ")
    out.flow = False
    out[opens] = sign
    return out


class Saying(Limit):
    """One of several answers to the same question, and who gave it."""

    STANDS_FOR_A_VALUE: ClassVar[bool] = False

    who: Ref | None = None
    """Who said it."""
    date: DateText | None = None
    """When."""


class Window(Limit):
    """The time between two moments: from when it may, until when it must."""

    after: Several[MomentText] = ()
    """The moment it is counted from."""
    before: MomentText | None = None
    """The moment it counts to; the start of this step if not written."""


def read_is(data: Any, info: ValidationInfo) -> ParsedValue[Value] | Table:
    """A value, or a table whose rows are limits."""
    if isinstance(data, Map):
        return _table(data, info, Limit)
    text = written_text(data)
    try:
        return ParsedValue(text, parse_value(text, nouns_of(info)))
    except NotationError as problem:
        raise notation_fault(problem, text, lambda mended: parse_value(mended, nouns_of(info))) from None


def _table(data: Map, info: ValidationInfo, limit: type[Limit]) -> Table:
    known = keys_of(limit)

    def read(row: Any) -> Limit | Table:
        if isinstance(row, Map) and not any(key in known for key in row):
            return _table(row, info, limit)
        return limit.model_validate(row, context=info.context)

    return Table(read_rows(data, read), data.at)


def _read_when(data: Any, info: ValidationInfo) -> ParsedValue[Cadence] | Mapping[Text, ParsedValue[Cadence]]:
    if isinstance(data, Map):
        return read_rows(data, lambda row: _read_cadence(row, info))
    return _read_cadence(data, info)


def _read_cadence(data: Any, info: ValidationInfo) -> ParsedValue[Cadence]:
    text = written_text(data)
    try:
        return ParsedValue(text, parse_cadence(text, nouns_of(info)))
    except NotationError as problem:
        raise notation_fault(problem, text, lambda mended: parse_cadence(mended, nouns_of(info))) from None


When = Annotated[ParsedValue[Cadence] | Mapping[Text, ParsedValue[Cadence]], _When()]
Wait = Annotated[Limit, BeforeValidator(by_its_sign)]
__all__ = ["By", "CadenceText", "Limit", "Saying", "Table", "Wait", "When", "Window", "read_is"]
