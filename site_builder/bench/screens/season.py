"""Will we make it: the season asked at the desk, answered in one sentence with its reasons, kept if one likes."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from site_builder.amend import remove_file, tree_in, write
from site_builder.bench.season_asked import SeasonAsked
from site_builder.bench.visit import DESK, Route, Visit
from site_builder.plans.make import Made
from site_builder.plans.plan_file import newest
from site_builder.plans.plan_file import write as keep
from site_builder.plans.told import answer, chances, how_good, kept_answer, narrow_told
from site_builder.plans.what_if import Otherwise
from site_builder.plans.words import brings, day_told

_LOOK_AGAIN = "3"
"""Seconds after which the page asks how far it is."""


class Planned(NamedTuple):
    """An order, when it is due, and what its newest plan says."""

    id: str
    title: str
    due: str
    says: str


class WorkLine(NamedTuple):
    """A work of a plan: who does it, how many, from when to when, and when it must begin at the latest."""

    title: str
    who: str
    told: str


def season(visit: Visit) -> Response:
    """What can be asked, and what was answered last."""
    book = visit.reading.survey.notebook
    asked = visit.bench.season
    if asked is not None and not asked.done.is_set():
        return redirect("/season/answer", 303)
    orders = [Planned(id_, str(one.title), str(one.due or ""), _last(visit, id_)) for id_, one in book.orders.items()
              if one.due is None or one.due.value.last >= visit.here.today] or [
        Planned(id_, str(one.title), str(one.due or ""), _last(visit, id_)) for id_, one in book.orders.items()]
    wrong = ""
    if visit.request.method == "POST" and orders:
        form = visit.form
        order = form.get("order", "") if form.get("order") in book.orders else orders[0].id
        otherwise, wrong = _otherwise(visit) if form.get("what") == "if" else (None, "")
        if not wrong:
            visit.bench.season = SeasonAsked(visit.here.root, visit.here.today, order, otherwise)
            return redirect("/season/answer", 303)
    return visit.page("season/ask.j2", 422 if wrong else 200, orders=orders, wrong=wrong, typed=visit.form, people=[
        (id_, visit.names.person(id_)) for id_ in book.living])


def _last(visit: Visit, order: str) -> str:
    kept = newest(visit.reading.survey.notebook.seasons, order)
    if kept is None:
        return ""
    on = f"Planned on {day_told(kept.date.value.first)}. " if kept.date is not None else ""
    return f"{on}{kept_answer(kept)}"


def _otherwise(visit: Visit) -> tuple[Otherwise, str]:
    """What is to be otherwise, or what is wrong with it."""
    form = visit.form
    gone = form.get("gone", "") or None
    days: dict[str, date | None] = {}
    for key in ("since", "until", "due"):
        try:
            days[key] = date.fromisoformat(form[key].strip()) if form.get(key, "").strip() else None
        except ValueError:
            return Otherwise(), f"“{form[key].strip()}” is no day. Write it as 2027-02-01."
    count = form.get("pieces", "").strip()
    if count and not (count.isascii() and count.isdigit() and 0 < int(count) <= 1_000_000):
        return Otherwise(), f"“{count}” is no number of pieces. Write it as 300."
    asked = Otherwise(gone=gone, since=days["since"], until=days["until"], due=days["due"],
                      pieces=int(count) if count else None)
    if asked == Otherwise(since=asked.since, until=asked.until):
        return asked, "Say what is to be otherwise: somebody away, other pieces, or another day."
    return asked, ""


def answered(visit: Visit) -> Response:
    """How far it is; the one sentence with its reasons; the plan kept, or the question stopped."""
    asked = visit.bench.season
    if asked is None:
        return redirect("/season", 303)
    if visit.request.method == "POST":
        if visit.form.get("stop"):
            asked.stop()
        elif asked.done.is_set() and asked.made is not None and asked.known is not None and not asked.kept:
            path = keep(visit.here.root, asked.known, asked.made)
            asked.kept = path.relative_to(visit.here.root).as_posix()
        elif asked.kept and visit.form.get("out"):
            was = tree_in(visit.here.root, asked.kept)
            if was is not None:
                write(visit.here.root, remove_file("A plan of the season", asked.kept, was), visit.writer or DESK,
                      visit.here.now())
            asked.kept = ""
        return redirect("/season/answer", 303)
    if not asked.done.is_set():
        waiting = visit.page("season/waits.j2", asked=asked, title=_title(visit, asked))
        waiting.headers["Refresh"] = _LOOK_AGAIN
        return waiting
    made, known = asked.made, asked.known
    told: tuple[str, ...] = asked.told or ()
    if made is not None and known is not None:
        told = tuple(filter(None, (answer(known, made), how_good(made).partition(" It was laid by")[0], chances(made))))
    narrow = [(narrow_told(known, one), brings(one.days)) for one in made.narrow[:5]] if made and known else []
    return visit.page("season/answer.j2", asked=asked, title=_title(visit, asked), told=told, made=made, narrow=narrow,
                      works=[*_works(visit, made)] if made is not None else [])


def _title(visit: Visit, asked: SeasonAsked) -> str:
    order = visit.reading.survey.notebook.orders.get(asked.order)
    return str(order.title) if order is not None else asked.order


def _works(visit: Visit, made: Made) -> Iterator[WorkLine]:
    """Each work of the order in the order in which it begins."""
    days, plan = made.wants.days, made.season.plan or ()
    for work in dict.fromkeys(stint.work for stint in plan):
        means, own = made.wants.means[work], [stint for stint in plan if stint.work == work]
        if means.order != made.wants.order:
            continue
        people = dict.fromkeys(stint.person for stint in own if stint.person)
        first, last = (day_told(days.on(day)) for day in (own[0].day, own[-1].day))
        late = made.latest.get(work)
        told = f"{sum(stint.pieces for stint in own)}, " + (f"on {first}" if first == last else f"{first} to {last}")
        told += f"; to begin at the latest on {day_told(days.on(late))}" if late is not None else ""
        yield WorkLine(visit.names.thing(means.procedure), ", ".join(map(visit.names.first, people)), told)


season.desk_only = answered.desk_only = True  # type: ignore[attr-defined]

ROUTES: tuple[Route, ...] = (
    ("/season", ("GET", "POST"), season),
    ("/season/answer", ("GET", "POST"), answered),
)
