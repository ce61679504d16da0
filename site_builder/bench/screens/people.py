"""PINs, made at the desk by the one whose PIN it is."""

from __future__ import annotations

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.bench.visit import Route, Visit


def pins(visit: Visit) -> Response:
    """Who has a PIN and who has none yet."""
    living = visit.reading.survey.notebook.living
    return visit.page("pins.j2", people=[(id_, visit.names.person(id_), visit.bench.pins.has(id_)) for id_ in living])


def pin(visit: Visit, who: str) -> Response:
    """A PIN made, or changed by whoever knows the old one."""
    if who not in visit.reading.survey.notebook.living:
        raise NotFound()
    held, wrong = visit.bench.pins.has(who), ""
    if visit.request.method == "POST":
        new = visit.form.get("new", "")
        if held:
            wrong = visit.bench.pins.wrong(who, visit.form.get("old", ""))
        if not wrong and new != visit.form.get("again", ""):
            wrong = "The two are not the same. Type it once more."
        if not wrong:
            wrong = visit.bench.pins.put(who, new)
        if not wrong:
            return redirect("/pins", 303)
    return visit.page("pin.j2", 422 if wrong else 200, who=who, held=held, wrong=wrong)


pins.desk_only = pin.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (("/pins", ("GET",), pins), ("/pins/<who>", ("GET", "POST"), pin))
