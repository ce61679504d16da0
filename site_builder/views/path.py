"""Paths of the notebook (procedure / step / limit) as links that a reader understands."""

from __future__ import annotations

from site_builder.notebook.references import step_of
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, say

_KINDS = ("procedure", "part", "material", "tool")


def named_value(view: NotebookView, path: str) -> Prose:
    """``flatness of the sole (Grind the sole flat)``, leading to its step."""
    first, slash, rest = path.partition("/")
    target = view.analysis.references.find(first, _KINDS)
    if target is None or not slash:
        return place_of_work(view, path)
    step, _, last = rest.rpartition("/")
    return say("{} ({})", last, view.link(target.kind, first, None, _anchor(view, first, step)))


def place_of_work(view: NotebookView, path: str) -> Prose:
    """``Deburr the foot, step 3``, or the words as written where they lead nowhere."""
    first, _, rest = path.partition("/")
    target = view.analysis.references.find(first, _KINDS)
    if target is None:
        return view.words(path)
    title = view.title(target.kind, first)
    procedure = view.notebook.procedures.get(first)
    step = step_of(procedure, rest.partition("/")[0])
    if procedure is None or step is None:
        return view.link(target.kind, first)
    named = f"{title}, {view.step_name(procedure, step)}"
    return view.link("procedure", first, named, view.anchor(step))


def _anchor(view: NotebookView, procedure: str, step: str) -> str:
    found = step_of(view.notebook.procedures.get(procedure), step)
    return view.anchor(found) if found is not None else ""
