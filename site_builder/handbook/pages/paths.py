"""Paths of the notebook (procedure / step / limit) as links that a reader understands."""

from __future__ import annotations

from markupsafe import Markup

from site_builder.handbook.pen import Pen
from site_builder.notebook.references import step_of

_KINDS = ("procedure", "part", "material", "tool")


def named_value(pen: Pen, path: str) -> Markup:
    """``flatness of the sole (Grind the sole flat)``, leading to its step."""
    first, slash, rest = path.partition("/")
    target = pen.book.survey.references.find(first, _KINDS)
    if target is None or not slash:
        return place_of_work(pen, path)
    step, _, last = rest.rpartition("/")
    return Markup("{} ({})").format(last, pen.link(target.kind, first, None, _anchor(pen, first, step)))


def place_of_work(pen: Pen, path: str) -> Markup:
    """``Deburr the foot, step 3``, or the words as written where they lead nowhere."""
    first, _, rest = path.partition("/")
    target = pen.book.survey.references.find(first, _KINDS)
    if target is None:
        return pen.words(path)
    title = pen.title(target.kind, first)
    procedure = pen.book.notebook.procedures.get(first)
    step = step_of(procedure, rest.partition("/")[0])
    if procedure is None or step is None:
        return pen.link(target.kind, first)
    named = f"{title}, {pen.book.step_name(procedure, step)}"
    return pen.link("procedure", first, named, pen.book.anchor(step))


def _anchor(pen: Pen, procedure: str, step: str) -> str:
    found = step_of(pen.book.notebook.procedures.get(procedure), step)
    return pen.book.anchor(found) if found is not None else ""
