"""The desk: what can be done now, the work as it stands at this moment, what is open."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import history
from site_builder.bench.asking import open_questions
from site_builder.bench.visit import Route, Visit
from site_builder.bench.written_lines import as_line


@dataclass(frozen=True, slots=True)
class Shelf:
    """Things that belong together, each with how many questions are open on it."""

    title: str
    things: tuple[tuple[str, str, int], ...]


def start(visit: Visit) -> Response:
    """What one can do here, and today's notebook."""
    if visit.device is not None:
        return redirect("/books")
    book = visit.reading.survey.notebook
    if book.shop is None and not book.digests:
        return redirect("/begin")
    open_on: dict[str, int] = {}
    harm = 0
    for one in open_questions(visit.reading):
        if one.answer is not None:
            open_on[one.weighed.question.about] = open_on.get(one.weighed.question.about, 0) + 1
            harm += one.is_harm
    last = next((one for one in history(visit.here.root) if one.takes_back is None), None)
    return visit.page("start.j2", questions=sum(open_on.values()), harm=harm, people=len(book.living),
                      work=[*_work(visit, open_on)], shelves=[*_shelves(visit, open_on)],
                      last=as_line(visit, last) if last is not None else None,
                      errors=sum(one.level.value == "error" for one in visit.reading.findings))


def _work(visit: Visit, open_on: dict[str, int]) -> Iterator[Shelf]:
    """The procedures, those of a part together."""
    book = visit.reading.survey.notebook
    by_part: dict[str, list[tuple[str, str, int]]] = {}
    for id_, one in book.procedures.items():
        part = next(iter(book.parts_of(one)), "")
        by_part.setdefault(part, []).append((id_, str(one.title), open_on.get(id_, 0)))
    for part in (*(one for one in book.parts if one in by_part), ""):
        if part in by_part:
            title = visit.names.thing(part) if part else "Work for more than one part"
            yield Shelf(title if part or len(by_part) > 1 else "", tuple(by_part[part]))


def _shelves(visit: Visit, open_on: dict[str, int]) -> Iterator[Shelf]:
    """Everything else, by what it is."""
    book = visit.reading.survey.notebook
    told = (
        ("Tools", [(id_, str(one.title)) for id_, one in book.tools.items()]),
        ("Materials", [(id_, str(one.title)) for id_, one in book.materials.items()]),
        ("Skills", [(id_, str(one.title)) for id_, one in book.skills.items()]),
        ("Parts and products", [(id_, str(one.title)) for id_, one in book.parts.items()]),
        ("People", [(id_, str(one.name)) for id_, one in book.people.items()]),
        ("Changes", [(id_, str(one.title)) for id_, one in book.changes.items()]),
        ("Orders", [(id_, str(one.title)) for id_, one in book.orders.items()]),
    )
    for title, things in told:
        if things:
            yield Shelf(title, tuple((id_, words, open_on.get(id_, 0)) for id_, words in things))


ROUTES: tuple[Route, ...] = (("/", ("GET",), start),)
