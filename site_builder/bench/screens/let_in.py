"""Letting a phone in: the square on the desk, and what the phone is asked."""

from __future__ import annotations

import segno
from markupsafe import Markup
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.bench.visit import Route, Visit
from site_builder.handbook.trusted import trusted


def desk(visit: Visit) -> Response:
    """The square, the four words, and who was let in so far."""
    if not visit.bench.in_the_shop:
        return visit.page("words.j2", title="No phone can come in", said=(
            "The bench was started for this desk alone. Stop it and start it with benchlore bench --in-the-shop.",))
    if visit.request.method == "POST":
        gone = visit.form.get("out", "")
        if gone:
            visit.bench.devices.throw_out(gone)
            return redirect("/phones", 303)
        code = visit.bench.devices.new_code()
    else:
        code = ""
    address = f"{visit.bench.address}/in"
    return visit.page("phones.j2", code=code, address=address, fingerprint=visit.bench.fingerprint[:17],
                      square=square(f"{address}#{code.replace(' ', '-')}") if code else "",
                      devices=visit.bench.devices.all())


def door(visit: Visit) -> Response:
    """What a phone that is not let in sees: how to compare the fingerprint, and room for the four words."""
    wrong = ""
    if visit.request.method == "POST":
        cookie = visit.bench.devices.let_in(visit.form.get("code", ""), visit.form.get("name", ""))
        if cookie is not None:
            answer = redirect("/books", 303)
            answer.set_cookie("bench-device", cookie, max_age=400 * 86400, httponly=True, samesite="Strict",
                              secure=True)
            return answer
        wrong = "These words do not hold, or not any longer. Ask at the desk for a new square."
    return visit.page("door.j2", 403 if wrong else 200, wrong=wrong, fingerprint=visit.bench.fingerprint[:17])


def square(text: str) -> Markup:
    """A square to photograph (ISO/IEC 18004)."""
    code = segno.make(text, error="m", micro=False)
    side = code.symbol_size(border=4)[0]
    drawn = "".join(f"M{x} {y}h1v1h-1z" for y, row in enumerate(code.matrix_iter(border=4))
                    for x, dark in enumerate(row) if dark)
    return trusted(f'<svg viewBox="0 0 {side} {side}" width="300" height="300" role="img" '
                  f'aria-label="The square to photograph" shape-rendering="crispEdges"><path d="{drawn}" '
                  'fill="#000"/></svg>')


desk.desk_only = True  # type: ignore[attr-defined]

LET_IN = (door,)
"""What a stranger may ask for."""

ROUTES: tuple[Route, ...] = (("/phones", ("GET", "POST"), desk), ("/in", ("GET", "POST"), door))
