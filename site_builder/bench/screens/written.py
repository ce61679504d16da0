"""All that was written at the bench, the latest first, each with a way to take it back."""

from __future__ import annotations

from itertools import islice

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Conflict, Written, history, take_back
from site_builder.bench.visit import DESK, Route, Visit
from site_builder.bench.written_lines import as_line

_SHOWN = 40


def written(visit: Visit) -> Response:
    """The lines, or one of them taken back."""
    if visit.request.method == "POST":
        made = take_back(visit.here.root, visit.form.get("back", ""), visit.writer or DESK, visit.here.now())
        if isinstance(made, Written):
            return redirect("/written", 303)
        said = ("These lines were changed again since. Both stand below; nothing was written over.",) \
            if isinstance(made, Conflict) else (made.why,)
        both = (made.seen, made.stands) if isinstance(made, Conflict) else None
        return visit.page("back_not.j2", 409, said=said, both=both)
    found = [*islice(history(visit.here.root), _SHOWN)]
    gone = {one.takes_back for one in found if one.takes_back}
    lines = [as_line(visit, one, one.name in gone) for one in found if one.takes_back is None]
    again = {one.takes_back: one.name for one in found if one.takes_back and one.name not in gone}
    return visit.page("written.j2", lines=lines, again=again)


written.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (("/written", ("GET", "POST"), written),)
