"""Two steps of one, and one of two."""

from __future__ import annotations

import re

from werkzeug.exceptions import NotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import Amendment, Plain, join_steps, split_step
from site_builder.bench.acting import Not, act
from site_builder.bench.forms.daily import HEADS
from site_builder.bench.homes import Home
from site_builder.bench.screens.lines import home
from site_builder.bench.visit import Route, Visit


def split(visit: Visit, about: str) -> Response:
    """The words of a step divided; what hangs on it stays with the first."""
    own, held, number = _step(visit, about, 0)
    words = _words(held[number])
    first, _, second = words.partition(". ") if ". " in words else (words, "", "")
    texts = [visit.form.get(name, "") for name in ("first", "second")] if visit.request.method == "POST" else [
        first + ("." if second else ""), second]
    wrong = ""
    if visit.request.method == "POST":
        if all(one.strip() for one in texts):
            return _written(visit, own, number, split_step(
                f"{visit.names.thing(about)}: two steps of step {number + 1}", own.file, ("steps",), held, number,
                texts[0], texts[1]), "split")
        wrong = "Both steps need their words."
    return visit.page("line/split.j2", 422 if wrong else 200, own=own, number=number, texts=texts, wrong=wrong,
                      title=visit.names.thing(about))


def join(visit: Visit, about: str) -> Response:
    """This step and the next as one; what cannot be put together without choosing is named."""
    own, held, number = _step(visit, about, 1)
    words = visit.form.get("words", "") if visit.request.method == "POST" else " ".join(
        one if re.search(r"[.!?]$", one) else f"{one}." for one in map(_words, held[number: number + 2]))
    wrong = ""
    if visit.request.method == "POST":
        made = join_steps(f"{visit.names.thing(about)}: one step of {number + 1} and {number + 2}", own.file,
                          ("steps",), held, number, words) if words.strip() else ""
        if isinstance(made, Amendment):
            return _written(visit, own, number, made, "join")
        wrong = (f"Both steps say something else under “{HEADS.get(made, made)}”. Take it out of one of them first."
                 if made else "The step needs its words.")
    return visit.page("line/join.j2", 422 if wrong else 200, own=own, number=number, words=words, wrong=wrong,
                      title=visit.names.thing(about))


def _step(visit: Visit, about: str, more: int) -> tuple[Home, list[Plain], int]:
    own = home(visit, about)
    held = own.tree.get("steps") if isinstance(own.tree, dict) else None
    number = visit.request.args.get("step", "")
    if not visit.writer or not isinstance(held, list) or not number.isdigit() or int(number) + more >= len(held):
        raise NotFound()
    return own, held, int(number)


def _words(step: Plain) -> str:
    return " ".join(str(step.get("do", "") if isinstance(step, dict) else step).split())


def _written(visit: Visit, own: Home, number: int, amendment: Amendment, way: str) -> Response:
    made = act(visit, amendment, anyway=bool(visit.form.get("anyway")))
    if isinstance(made, Not):
        again = tuple((name, visit.form.get(name, "")) for name in ("first", "second", "words") if name in visit.form)
        return visit.page("line/not.j2", 422, no=made, own=own, title=visit.names.thing(own.about), again=again,
                          action=f"/line/{own.about}/{way}?step={number}")
    return redirect(f"/line/{own.about}?kept={made.kept}#step-{number + 1}", 303)


split.desk_only = join.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (
    ("/line/<about>/split", ("GET", "POST"), split),
    ("/line/<about>/join", ("GET", "POST"), join),
)
