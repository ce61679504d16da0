"""After the work: what else uses this, what is written down and kept, how this way of working came about."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_signs import kept
from site_builder.handbook.pages.procedure_view import ProcedureView
from site_builder.handbook.pages.procedure_views import Grid, Row
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.judging import Keep
from site_builder.notebook.model.limit import Table
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.references import Link, all_steps
from site_builder.notebook.tree import Text

_ELSEWHERE = frozenset({"done", "covers", "procedure", "measured", "felt", "during"})
"""References that the page tells in another place (order, skill) or that are entries of the books."""
_WORDS = {"use": "does it as one of its steps", "then": "leads back here when something goes wrong",
          "from_": "goes round from here"}


def used_by(view: ProcedureView) -> tuple[Markup, ...]:
    """Other work that uses this, comes back to it, or takes a figure from it."""
    found: dict[tuple[str, str, str], list[Markup]] = {}
    for link in view.references.used_in("procedure", str(view.own.procedure)):
        owner = link.place.owner
        if link.key in _ELSEWHERE or not isinstance(owner, Procedure):
            continue
        name = "" if link.target is None or link.target.value is None else link.target.value.name
        words = f"takes {name} from here" if name else _WORDS.get(link.key, "names it")
        spots = found.setdefault((link.place.owner_id, link.key, words), [])
        spot = _spot(view, link, owner)
        if spot is not None and spot not in spots:
            spots.append(spot)
    lines = []
    for (id_, _, words), spots in found.items():
        where = filled(" ({})", in_words.listed(spots)) if spots else ""
        lines.append(filled("{} {}{}.", view.context.link("procedure", id_), words, where))
    return tuple(lines)


def _spot(view: ProcedureView, link: Link, owner: Procedure) -> Markup | None:
    step = link.place.step
    if step is None:
        return None
    name = view.book.step_name(owner, step)
    return view.context.link("procedure", link.place.owner_id, name, view.book.anchor(step))


def use_places(view: ProcedureView) -> list[tuple[str, str | None]]:
    """Where shared work is done: (words, address)."""
    found: dict[str, tuple[str, str | None]] = {}
    for link in view.references.used_in("procedure", str(view.own.procedure)):
        if link.key == "use" and isinstance(link.place.owner, Procedure) and link.place.owner_id not in found:
            step = link.place.step
            anchor = view.book.anchor(step) if step is not None else ""
            words, _ = view.context.pair("procedure", link.place.owner_id)
            found[link.place.owner_id] = (words, view.context.href("procedure", link.place.owner_id, anchor))
    return list(found.values())


# --- written down and kept --------------------------------------------------------------------------------


def in_the_book(view: ProcedureView) -> Grid | None:
    """Everything that is written down or kept, with the place where it arises."""
    rows: list[tuple[Markup, Markup, Markup]] = []
    for work in (view.own, *all_steps(view.own)):
        if id(work) not in view.common.noted:
            continue
        where = view.step_link(work) if isinstance(work, Step) else Markup("The whole work")
        found = list(_written(work))
        texts = [(name, view.within(w)) for name, w in found if isinstance(w, Text)]
        notes = (filled("{}: {}", name, w) if name else w for name, w in texts)
        written = in_words.capital(Markup("; ").join(dict.fromkeys(notes)))
        keeps = Markup(" ").join(kept(view, k) for _, k in found if isinstance(k, Keep))
        if written or keeps:
            rows.append((in_words.capital(where), written, keeps))
    if not rows:
        return None
    columns = ("Where", "Write down", "Keep")
    used = [n for n in range(3) if any(row[n] for row in rows)]
    return Grid(caption=Markup("What goes into the book and on to the shelf"), columns=tuple(columns[n] for n in used),
                rows=tuple(Row(tuple(row[n] for n in used)) for row in rows))


_Noted = tuple[str, Text | Keep]


def _written(entry: Entry, name: str = "") -> Iterator[_Noted]:
    """What stands under `write` and `keep`, here and in all that hangs here, with the name of the limit it is of."""
    for one in (*getattr(entry, "write", ()), *getattr(entry, "keep", ())):
        yield name, one
    for key, value in entry.__dict__.items():
        if key not in ("steps", "also", "keep", "write"):
            yield from _inside(value, name)


def _inside(value: object, name: str) -> Iterator[_Noted]:
    if not value or isinstance(value, str):
        return
    if isinstance(value, Entry):
        if not isinstance(value, Work):
            yield from _written(value, name)
    elif isinstance(value, tuple):
        for one in value:
            yield from _inside(one, name)
    elif isinstance(value, dict):
        for key, one in value.items():
            yield from _inside(one, str(key))
    elif isinstance(value, Table):
        for _, cell in value.cells():
            yield from _inside(cell, name)


# --- how it came about ------------------------------------------------------------------------------------


def came_about(view: ProcedureView) -> tuple[tuple[str, Markup, Markup], ...]:
    """(date, who, what), newest first; what led to it is linked."""
    rows = []
    for revision in reversed(view.own.revisions):
        who = view.context.person(str(revision.who)) if revision.who is not None else Markup("")
        what = view.words(revision.what)
        extra: list[str | Markup] = [view.inline_why(revision), *view.tail(revision.with_changes(date=None))]
        if revision.change is not None:
            link = view.context.link("change", str(revision.change), Markup("The change and its evidence"))
            extra.append(link)
        rows.append((view.context.date(revision.date), who, in_words.joined_sentences([what, *extra])))
    return tuple(rows)
