"""A telling brought to the desk: the words, the voice, who tells, and whether they agree to be heard."""

from __future__ import annotations

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Written, write
from site_builder.bench.choice import Choice
from site_builder.bench.screens.telling import not_written
from site_builder.bench.tellings.brought import AGREED, DECLINED, LATER, Brought, NotBrought, brought
from site_builder.bench.visit import DESK, Route, Visit
from site_builder.quantity import NotationError, parse_date


def bring(visit: Visit) -> Response:
    """The form, and what it brings."""
    wrong: NotBrought | None = None
    if visit.request.method == "POST":
        form = visit.form
        words, _ = _file(visit, "words")
        voice, voice_name = _file(visit, "voice")
        given = Brought(form.get("title", ""), words or form.get("typed", "").encode(), form.get("teller", ""),
                        form.get("date", "").strip(), form.get("place", ""), voice, voice_name,
                        form.get("agrees", ""))
        try:
            _known(visit, given)
            name, amendment = brought(visit.here.root, visit.reading.survey.notebook, given)
        except NotBrought as why:
            wrong = why
        else:
            made = write(visit.here.root, amendment, visit.writer or DESK, visit.here.now())
            return redirect(f"/telling/{name}", 303) if isinstance(made, Written) else not_written(
                visit, made, "/telling/-new")
    people = [Choice(id_, visit.names.person(id_)) for id_ in visit.reading.survey.notebook.living]
    answers = [Choice(AGREED, "Yes, it may be heard in the handbook"), Choice(DECLINED, "No, the words alone"),
               Choice(LATER, "Not asked yet", "nothing of it is copied into the handbook until then")]
    return visit.page("telling/bring.j2", 422 if wrong else 200, wrong=wrong, people=people, answers=answers,
                      form=visit.form)


def _file(visit: Visit, field: str) -> tuple[bytes, str]:
    """What a file field brought, and the ending that its name says."""
    sent = visit.request.files.get(field)
    if sent is None:
        return b"", ""
    with sent.stream:
        return sent.stream.read(), sent.filename or ""


def _known(visit: Visit, given: Brought) -> None:
    if given.teller and given.teller not in visit.reading.survey.notebook.people:
        raise NotBrought("teller", "Choose somebody of the shop.")
    if given.date:
        try:
            parse_date(given.date)
        except NotationError:
            raise NotBrought("date", "Write the day as 2026-11-28, or the year alone.") from None


bring.desk_only = bring.large = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (("/telling/-new", ("GET", "POST"), bring),)
