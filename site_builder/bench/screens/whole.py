"""A thing as a whole: another name, everywhere at once, or taken out of the notebook."""

from __future__ import annotations

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Amendment, CannotRename, Change, Plain, id_for, look_up, rename
from site_builder.bench.acting import Not, act
from site_builder.bench.drafting import Draft
from site_builder.bench.forms.new_things import TOOLS, taken_in
from site_builder.bench.homes import Home
from site_builder.bench.screens.lines import home
from site_builder.bench.visit import Route, Visit

_NAMED = {**dict.fromkeys(TOOLS, "tool"), "procedure": "procedure", "material": "material", "skill": "skill",
          "change": "change", "order": "order", "person": "person", "part": "part"}
"""Kinds of things whose name may be another, as references know them."""


def name(visit: Visit, about: str) -> Response:
    """Another name, wherever the thing is named."""
    own, wrong, no = _own(visit, about), "", None
    title = visit.names.spoken(about)
    new = " ".join(visit.form.get("name", "").split())
    if visit.request.method == "POST":
        if not new or new == title:
            wrong = "Write the new name." if not new else "That is its name already."
        else:
            try:
                amendment, id_ = _renamed(visit, own, title, new)
            except CannotRename as problem:
                wrong = str(problem)
            else:
                made = act(visit, amendment, anyway=bool(visit.form.get("anyway")))
                if not isinstance(made, Not):
                    return redirect(f"/line/{id_}?kept={made.kept}", 303)
                no = made
    uses = visit.reading.survey.references.uses.get((_NAMED[own.kind], about), ())
    return visit.page("line/name.j2", 422 if wrong or no else 200, own=own, title=title, new=new or title, wrong=wrong,
                      no=no, uses=len({one.place.owner_id for one in uses}))


def _renamed(visit: Visit, own: Home, title: str, new: str) -> tuple[Amendment, str]:
    """The new words, and a new id made of them, as one act. Raises CannotRename."""
    said = f"{title} is called {new}"
    key = "name" if own.kind == "person" else "title"
    taken = taken_in(visit.reading.survey.notebook) - {own.about}
    id_ = id_for(new.partition(" ")[0] if own.kind == "person" else new, taken, own.kind)
    stands = own.stands
    words = Change(own.file, (*own.base, key), title_of(own), new) if isinstance(stands, dict) else \
        Change(own.file, own.base, stands, new)
    if id_ == own.about:
        return Amendment(said, (words,)), id_
    ids = rename(visit.reading.survey.references, _NAMED[own.kind], own.about, id_, said)
    return Amendment(said, (words, *_after(ids, words)), ids.renamings, ids.words), id_


def _after(ids: Amendment, words: Change) -> tuple[Change, ...]:
    """The changes of a renaming as they are made after the new words were written."""
    made: list[Change] = []
    for one in ids.changes:
        held = words.path[: len(one.path)] == one.path and one.file == words.file
        if held and isinstance(one.was, dict | str):
            was, shall = _with(one.was, words.path[len(one.path):], words), one.shall
            new = _new_place(one, words)
            shall = _with(shall, new, words) if shall is not None else None
            made.append(Change(one.file, one.path, was, shall, one.after))
        else:
            made.append(one)
    return tuple(made)


def _new_place(one: Change, words: Change) -> tuple[str | int, ...]:
    """Where the words stand in what the renaming makes of a mapping: under the key that is new in it."""
    rest = words.path[len(one.path):]
    if rest and isinstance(one.was, dict) and isinstance(one.shall, dict) and rest[0] not in one.shall:
        fresh = next(key for key in one.shall if key not in one.was)
        rest = (fresh, *rest[1:])
    stands = look_up(one.shall, rest[:-1]) if rest and one.shall is not None else None
    if rest and look_up(one.shall or "", rest) is None and isinstance(stands, str):
        return rest[:-1]
    if rest and isinstance(look_up(one.shall or "", rest), dict):  # the short form became a long one
        return (*rest, "name" if "people" in one.path else "title")
    return rest


def _with(tree: Plain, path: tuple[str | int, ...], words: Change) -> Plain:
    if not path:
        return words.shall or ""
    assert isinstance(tree, dict)
    return {key: _with(value, path[1:], words) if key == path[0] else value for key, value in tree.items()}


def title_of(own: Home) -> Plain | None:
    """The words that name a thing, as they stand."""
    stands = own.stands
    return stands.get("name" if own.kind == "person" else "title") if isinstance(stands, dict) else stands


def out(visit: Visit, about: str) -> Response:
    """Taken out of the notebook, unless a book names it; what names it is told first."""
    own, no = _own(visit, about), None
    names, book = visit.names, visit.reading.survey.notebook
    uses = visit.reading.survey.references.uses.get((_NAMED[own.kind], about), ())
    named = dict.fromkeys(names.thing(one.place.owner_id) for one in uses)
    in_books = any(about == str(text).split("/")[0] for records in book.books.values() for record in records
                   for value in record.fields().values() for text in (value if isinstance(value, tuple) else (value,)))
    if visit.request.method == "POST" and not in_books:
        if own.base == ():
            amendment = Amendment(f"{names.spoken(about)} was taken out", (Change(own.file, (), own.tree, None),))
        else:
            draft = Draft(own.file, own.tree)
            draft.put(own.base, None)
            amendment = draft.amendment(f"{names.spoken(about)} was taken out")
        made = act(visit, amendment, anyway=bool(visit.form.get("anyway")))
        if not isinstance(made, Not):
            return redirect("/", 303)
        no = made
    return visit.page("line/out.j2", 422 if no else 200, own=own, title=names.spoken(about), named=[*named], no=no,
                      in_books=in_books)


def _own(visit: Visit, about: str) -> Home:
    own = home(visit, about)
    if not visit.writer or own.kind not in _NAMED:
        raise NotFound()
    return own


name.desk_only = out.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (
    ("/line/<about>/name", ("GET", "POST"), name),
    ("/line/<about>/out", ("GET", "POST"), out),
)
