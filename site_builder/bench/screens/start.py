"""The first screen: the ways in."""

from __future__ import annotations

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.bench.visit import Route, Visit


def start(visit: Visit) -> Response:
    """What one can do here."""
    if visit.device is not None:
        return redirect("/books")
    book = visit.reading.survey.notebook
    return visit.page("start.j2", questions=len(visit.reading.questions), people=len(book.living))


ROUTES: tuple[Route, ...] = (("/", ("GET",), start),)
