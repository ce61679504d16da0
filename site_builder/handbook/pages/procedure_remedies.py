"""What to do when something is not as it should be: remedies, allowed departures, pictures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_view import ProcedureView
from site_builder.handbook.pages.procedure_views import NO_WORDS, Pictures, Shot
from site_builder.notebook.model.harm import Point
from site_builder.notebook.model.judging import Exempt, Remedy, Trouble
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.references import all_steps
from site_builder.notebook.tree import Text


def remedies(view: ProcedureView, entries: Iterable[Remedy], here: Step | None) -> Markup:
    """Several remedies, one after the other."""
    return Markup(" ").join(view.meant(entry, remedy(view, entry, here)) for entry in entries)


def remedy(view: ProcedureView, entry: Remedy | Trouble, here: Step | None, *, way: bool = True) -> Markup:
    """``A thick primer splits. Strip it and start again. Then go to …, at most 3 times.``

    ``way`` is False where the way back has a column of its own.
    """
    said: list[str | Markup] = []
    if entry.means is not None:
        said.append(view.words(entry.means))
    if entry.do is not None:
        said.append(view.words(entry.do))
    elif "do" in entry.asked:
        said.append(view.untold("what to do is not told yet", entry.at))
    if way:
        said.append(way_back(view, entry, here))
        if isinstance(entry, Remedy) and entry.trouble is not None:
            said.append(_see(view, entry.trouble))
    said += _hands_and_book(view, entry)
    reason = view.inline_why(entry)
    if reason:
        said.append(reason)
    return in_words.joined_sentences([*said, *view.tail(entry, told=("because", "do", "then", "cause"))])


def way_back(view: ProcedureView, entry: Remedy | Trouble, here: Step | None) -> Markup:
    """``Then go back to step 4, at most 3 times``."""
    times = in_words.how_often(entry.times.value) if entry.times is not None else ""
    if "then" in entry.asked:
        return view.untold("where to go then is not told yet", entry.at)
    if entry.then is None:
        return filled("This {}", times) if times else NO_WORDS
    way = view.route(str(entry.then), here)
    if entry.then == "aside" and entry.who is not None:
        way = filled("{} by {}", way, view.who(str(entry.who)))
    told = in_words.capital(way) if entry.then == "none" else filled("Then {}", way)
    return filled("{}, {}", told, times) if times else told


def _see(view: ProcedureView, trouble_id: Text) -> Markup:
    for work in (view.own, *all_steps(view.own)):
        for trouble in work.troubles:
            if trouble.id == trouble_id:
                sign, anchor = in_words.capital(view.within(trouble.sign)), view.trouble_anchors[id(trouble)]
                return filled('See <a href="{}">“{}”</a>.', view.here(anchor), sign)
    return view.words(trouble_id)


def _hands_and_book(view: ProcedureView, entry: Remedy | Trouble) -> list[Markup]:
    said = []
    if entry.who is not None and entry.then != "aside":
        said.append(filled("This is for {}", view.who(str(entry.who))))
    if entry.write:
        said.append(filled("Write down {}", in_words.listed(map(view.within, entry.write))))
    return said


def exemption(view: ProcedureView, entry: Exempt, lead: str = "Unless") -> Markup:
    """``Unless the wide place lies under the ring. Edda Corvane decides. Write down the batch.``"""
    said: list[str | Markup] = []
    if entry.sign is not None:
        said.append(filled("{} {}", lead, view.within(entry.sign)))
    elif "sign" in entry.asked:
        said.append(filled("{} {}", lead, view.untold("when is not told yet", entry.at)))
    if entry.who is not None:
        said.append(filled("{} allows it", view.who(str(entry.who))))
    if entry.write:
        said.append(filled("Write down {}", in_words.listed(map(view.within, entry.write))))
    if entry.because:
        said.append(view.inline_why(entry))
    return view.meant(entry, in_words.joined_sentences([*said, *view.tail(entry, told=("because", "sign"))]))


def pictures(view: ProcedureView, found: Sequence[Picture]) -> Pictures | None:
    """Pictures, films and sounds, one under the other."""
    return Pictures(shots=tuple(shot(view, picture) for picture in found)) if found else None


def shot(view: ProcedureView, picture: Picture) -> Shot:
    """One picture with its marks; where it could not be published, its words remain."""
    element = view.context.picture(picture)
    caption = view.words(picture.shows) if picture.shows else NO_WORDS
    marks = tuple((*mark.spot, _mark(view, mark.note, view.inline_why(mark))) for mark in picture.marks)
    kind = {"film": "Film", "sound": "Sound"}.get(view.context.kind_of(picture), "picture") if element else "lost"
    if not element:
        element = filled("<i>{}</i>", f"The picture {Path(str(picture.file)).name} is not in the notebook.")
    lines = (view.inline_why(picture), *view.tail(picture))
    return Shot(kind, element, caption, marks, tuple(filter(None, lines)), view.only(picture))


def _mark(view: ProcedureView, note: Text | None, reason: Markup) -> Markup:
    told = view.words(note) if note is not None else escape("marked, not told why")
    return filled("{} {}", told, reason) if reason else told


def point_pictures(view: ProcedureView, points: Iterable[Point]) -> Pictures | None:
    """The pictures of several key points."""
    return pictures(view, [picture for point in points for picture in point.pictures])
