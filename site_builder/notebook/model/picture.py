"""A picture, film, sound or drawing, with numbered marks."""

from __future__ import annotations

from typing import Annotated, Any, ClassVar

from pydantic import Field, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import JsonSchema, Several, Words, fault
from site_builder.notebook.tree import Seq


class _Spot:
    """Annotation: two numbers from 0 to 1, from the top left."""

    def __get_pydantic_core_schema__(self, _source: Any, _handler: Any) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    @staticmethod
    def _read(data: Any) -> tuple[float, float]:
        if isinstance(data, tuple):
            return data[0], data[1]
        try:
            x, y = (float(part) for part in data)
            if isinstance(data, Seq) and 0 <= x <= 1 and 0 <= y <= 1:
                return x, y
        except (TypeError, ValueError):
            pass
        raise fault(
            "spot-broken", "A mark stands at `[x, y]`, each from 0 to 1 from the top left.",
            "Write two figures from 0 to 1, as `at: [0.5, 0.25]`.", getattr(data, "at", None),
        )

    def __get_pydantic_json_schema__(self, _core: CoreSchema, _handler: GetJsonSchemaHandler) -> JsonSchema:
        return {
            "type": "array", "items": {"type": ["number", "string"]}, "minItems": 2, "maxItems": 2,
        }


class Mark(Entry):
    """A numbered mark on a picture."""

    spot: Annotated[tuple[float, float], _Spot()] = Field(alias="at")
    """Where: `[x, y]` from the top left, each from 0 to 1."""


class Picture(Entry):
    """A picture (also film, sound, drawing), with what it shows."""

    MAIN: ClassVar[str] = "file"
    file: Words
    """The file, beside this one or under `photos/`."""
    shows: Words | None = None
    """What it shows; read aloud where the picture cannot be seen."""
    marks: Several[Mark] = ()
    """Numbered marks with a note each."""
