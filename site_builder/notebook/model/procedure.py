"""A procedure and its steps. A procedure is a big step: what may hang on one may hang on the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Annotated, Any, ClassVar

from pydantic import Field, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hands, Hazard, Never, Point
from site_builder.notebook.model.judging import Check, End, Exempt, Keep, Loop, Trouble
from site_builder.notebook.model.limit import Limit, Wait, When, Window
from site_builder.notebook.model.parsed_values import (
    NOTHING,
    Id,
    JsonSchema,
    Lotwise,
    Named,
    OneOf,
    Ref,
    Several,
    Words,
    fault,
    read_rows,
    written_text,
)
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.small import WEEKDAYS, After, MaterialUse, Revision, Time, ToolUse, Variant, Yield
from site_builder.notebook.tree import Map, Text


class _Skill:
    """Annotation: one skill, or a table of skills by variant."""

    def __get_pydantic_core_schema__(self, _source: Any, _handler: Any) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def _read(self, data: Any) -> Any:
        if isinstance(data, Map):
            return read_rows(data, self._read)
        return written_text(data)

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: GetJsonSchemaHandler) -> JsonSchema:
        return {"type": ["string", "object", "null"]}


class _Finding:
    """Annotation: `finds`, what the work itself shows: dimension, value, how it is known."""

    def __get_pydantic_core_schema__(self, _source: Any, _handler: Any) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self._read)

    @staticmethod
    def _read(data: Any, info: ValidationInfo) -> Mapping[Text, Mapping[Text, Check]]:
        if not isinstance(data, Map):
            raise fault("names-wanted", "`finds` says a dimension, its values and their signs.",
                        "Write `finds: {metal: {sound: rings clear}}`.", getattr(data, "at", None))

        def signs(values: Any) -> Mapping[Text, Check]:
            if not isinstance(values, Map):
                raise fault("names-wanted", "The values of this dimension stand here, each with a sign.",
                            "Write each value, a colon and what shows it.", getattr(values, "at", None))
            return read_rows(values, lambda sign: Check.model_validate(sign, context=info.context))

        return read_rows(data, signs)

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: GetJsonSchemaHandler) -> JsonSchema:
        values = {"type": "object", "additionalProperties": {"type": ["string", "object"]}}
        return {"type": "object", "additionalProperties": values}


SkillOrTable = Annotated[Text | Mapping[Text, Any], _Skill()]
Finds = Annotated[Mapping[Text, Mapping[Text, Check]], _Finding()]


class Work(Entry):
    """What a step and a procedure have in common."""

    part: Several[Ref] = ()
    """The part worked on; several when they are joined."""
    makes: Several[Ref] = ()
    """Part, product, mix, tooling or sample that comes of it."""
    skill: SkillOrTable | None = None
    """What one must hold to do it alone."""
    after: Several[After] = ()
    """What must be done before."""
    unless: Exempt | None = None
    """When it may be left out."""
    when: When | None = None
    """When, if not for each piece."""
    per: Lotwise | None = None
    """What goes through before the next step begins: piece, load, lot, spot, coat."""
    load: Several[Limit] = ()
    """How much at once."""
    hands: Several[Hands] = ()
    """Hands needed at once."""
    tools: Several[ToolUse] = ()
    """With what."""
    materials: Several[MaterialUse] = ()
    """Of what, and how much."""
    ready: Several[Check] = ()
    """True before the first move."""
    conditions: Named[Several[Limit]] = NOTHING
    """Around and in the work: room, weather, heat of the piece."""
    settings: Named[Several[Limit]] = NOTHING
    """What one sets: how fast, how hot, how much."""
    limits: Named[Several[Limit]] = NOTHING
    """What must come out."""
    feel: Several[Check] = ()
    """Judged by hand, eye or ear."""
    checks: Several[Check] = ()
    """Other things looked at."""
    points: Several[Point] = ()
    """What makes or breaks it."""
    never: Several[Never] = ()
    """Forbidden, each with its reason."""
    hazards: Several[Hazard] = ()
    """What can hurt."""
    also: Several[Annotated[Step, Field()]] = ()
    """Acts within it, each with `when`."""
    until: Several[End] = ()
    """When it is done."""
    repeat: Loop | None = None
    """Go back and do again."""
    time: Several[Time] = ()
    """Work time, and how it is known."""
    wait: Several[Wait] = ()
    """Standing time from the end of this to the start of the next; by the clock, or `until dry`."""
    windows: Named[Several[Window]] = NOTHING
    """Earliest and latest."""
    troubles: Several[Trouble] = ()
    """What goes wrong, why, and the way back."""
    yield_: Several[Yield] = Field(default=(), alias="yield")
    """Losses and metal back."""
    write: Several[Words] = ()
    """What is written down."""
    keep: Several[Keep] = ()
    """What is kept."""
    where: Words | None = None
    """Where, if not at home."""
    finds: Finds = NOTHING
    """What the work itself finds out, and so decides: a dimension, its values, how each is known."""
    pictures: Several[Picture] = ()
    """Pictures, films, sounds, drawings."""
    questions: Several[Words] = ()
    """What we still want to ask."""


class Step(Work):
    """One step: what the hands do, and all that hangs on it."""

    MAIN: ClassVar[str] = "do"
    RINGS = (
        ("do", "points", "because", "hazards", "until", "time"),
        ("id", "settings", "limits", "feel", "tools", "materials", "never", "repeat", "troubles", "wait", "pictures"),
    )
    do: Words | None = None
    """What the hands do."""
    id: Id | None = None
    """Needed once something points here."""
    former: Several[Id] = ()
    """Earlier ids, by which the entries of the books still find it."""
    use: Ref | None = None
    """A shared procedure in place of, or beside, `do`."""
    then: Ref | None = None
    """Where the work goes on after it, if not at the next step: a step, a procedure, or stop, aside, scrap."""


class Procedure(Work):
    """How one thing is done, in order of doing."""

    RINGS = (
        ("procedure", "title", "because", "part", "skill", "after", "tools", "materials", "time", "steps"),
        ("ready", "hazards", "limits", "conditions", "yield", "troubles", "pictures", "questions", "revisions"),
    )
    procedure: Id
    """The id; the same as the file's name."""
    title: Words
    """What is done, as an instruction."""
    variants: Named[Variant] = NOTHING
    """Dimensions that hold here."""
    steps: Several[Step]
    """The steps, in order of doing."""
    taken_in: Several[Annotated[Text, OneOf(*WEEKDAYS)]] = Field(default=(), alias="taken in")
    """Of work done outside: the days on which it is taken in, by full name."""
    revisions: Several[Revision] = ()
    """How the page changed, newest last."""
    former: Several[Id] = ()
    """Earlier ids, by which the entries of the books still find it."""

    @property
    def id(self) -> Text:
        return self.procedure

    @cached_property
    def every_step(self) -> tuple[Step, ...]:
        """Steps and the acts within them, in order; then the acts within the procedure as a whole."""
        return (*(s for step in self.steps for s in (step, *step.also)), *self.also)

    @cached_property
    def steps_by_id(self) -> Mapping[str, Step]:
        """Each step that has an id, the first of that id."""
        return {str(s.id): s for s in reversed(self.every_step) if s.id is not None}

    @cached_property
    def places(self) -> Mapping[int, int]:
        """Identity of a step to its place in the order of doing; an act within a step has none."""
        return {id(step): place for place, step in enumerate(self.steps)}

    @cached_property
    def numbers(self) -> Mapping[int, int]:
        """Identity of a step, or of an act however deep within one, to the number of the step as readers count."""
        return {id(one): number for number, step in enumerate(self.steps, 1) for one in _with_acts(step)}


def _with_acts(step: Step) -> Iterator[Step]:
    yield step
    for act in step.also:
        yield from _with_acts(act)


Work.model_rebuild(_types_namespace={"Step": Step})
Step.model_rebuild()
Procedure.model_rebuild(_types_namespace={"Step": Step})
