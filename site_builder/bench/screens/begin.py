"""A shop begun from an empty folder: its name, who knows the craft, who learns it, what is made."""

from __future__ import annotations

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Written, write
from site_builder.bench.begun import lay_beside, shop_begun
from site_builder.bench.visit import DESK, Route, Visit


def begin(visit: Visit) -> Response:
    """Four questions; the first is enough."""
    if visit.reading.survey.notebook.shop is not None:
        return redirect("/")
    wrong = ""
    if visit.request.method == "POST":
        title = " ".join(visit.form.get("title", "").split())
        if not title:
            wrong = "Say first what the shop is called."
        else:
            begun = shop_begun(title, _lines(visit, "masters"), _lines(visit, "others"), _lines(visit, "makes"))
            made = write(visit.here.root, begun, DESK, visit.here.now())
            if isinstance(made, Written):
                lay_beside(visit.here.root, title)
                return redirect("/", 303)
            wrong = getattr(made, "why", "") or "Somebody has begun this shop meanwhile. Open the page again."
    return visit.page("begin.j2", 422 if wrong else 200, wrong=wrong, form=visit.form)


begin.desk_only = True  # type: ignore[attr-defined]


def _lines(visit: Visit, name: str) -> list[str]:
    return [line for one in visit.form.get(name, "").splitlines() if (line := " ".join(one.split()))]


ROUTES: tuple[Route, ...] = (("/begin", ("GET", "POST"), begin),)
