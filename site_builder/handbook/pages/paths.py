"""Paths of the notebook (procedure / step / limit) as links that a reader understands."""

from __future__ import annotations

from site_builder.handbook.page_context import PageContext
from site_builder.notebook.references import step_of
from site_builder.views.prose import Prose, say

_KINDS = ("procedure", "part", "material", "tool")


def named_value(context: PageContext, path: str) -> Prose:
    """``flatness of the sole (Grind the sole flat)``, leading to its step."""
    first, slash, rest = path.partition("/")
    target = context.book.analysis.references.find(first, _KINDS)
    if target is None or not slash:
        return place_of_work(context, path)
    step, _, last = rest.rpartition("/")
    return say("{} ({})", last, context.link(target.kind, first, None, _anchor(context, first, step)))


def place_of_work(context: PageContext, path: str) -> Prose:
    """``Deburr the foot, step 3``, or the words as written where they lead nowhere."""
    first, _, rest = path.partition("/")
    target = context.book.analysis.references.find(first, _KINDS)
    if target is None:
        return context.words(path)
    title = context.title(target.kind, first)
    procedure = context.book.notebook.procedures.get(first)
    step = step_of(procedure, rest.partition("/")[0])
    if procedure is None or step is None:
        return context.link(target.kind, first)
    named = f"{title}, {context.book.step_name(procedure, step)}"
    return context.link("procedure", first, named, context.book.anchor(step))


def _anchor(context: PageContext, procedure: str, step: str) -> str:
    found = step_of(context.book.notebook.procedures.get(procedure), step)
    return context.book.anchor(found) if found is not None else ""
