"""The season: whether it can be in time, who does what by week, what is narrow; and the sheet for the wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import NamedTuple

from site_builder.figures.batch_orders import coming
from site_builder.handbook.drawings.weeks import NARROW, WIDE, Row, weeks_drawing
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.own_weeks import hours_told
from site_builder.handbook.pages.person_weeks import person_week_pages
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import SEASON, WALL, Page, Site
from site_builder.handbook.trusted import trusted
from site_builder.notebook.model.season import Season
from site_builder.plans.follow import follow
from site_builder.plans.in_hand import machine_loads, machines_of, plan_in_hand
from site_builder.plans.ordering import order_by
from site_builder.plans.told import kept_answer
from site_builder.plans.weeks import amounts, day_of, loads, weeks_of
from site_builder.plans.words import apart
from site_builder.skills.initials import first_name
from site_builder.views.dates import dated_day, short_day
from site_builder.views.prose import Prose, Ref, linked, prose, say
from site_builder.views.week import week_sheet

Cells = tuple[Prose | str, ...]


class Ledger(NamedTuple):
    """A table with its caption, columns and rows."""

    caption: str
    columns: tuple[str, ...]
    rows: Sequence[Cells]


def ledger(caption: str, columns: tuple[str, ...], rows: Sequence[Cells]) -> Ledger | None:
    """A table, or None where there is nothing in it."""
    return Ledger(caption, columns, rows) if rows else None


_OF_A_PLAN = ("how_good", "wall", "weeks", "drawing", "narrow", "cannot", "ways", "what_if", "chapters", "assumed",
              "made")
"""What the page shows only where a season is planned."""


def season_pages(site: Site) -> Iterator[Page]:
    """The page of the season, and this week for the wall; nothing where nothing is ordered."""
    season = plan_in_hand(site.analysis)
    if season is not None:
        yield _page(site, season)
        if season.work:
            yield _wall(site, season)
            yield from person_week_pages(site, season)
    elif site.notebook.orders:
        context = PageContext(site, SEASON)
        order = coming(site.analysis) or next(iter(site.notebook.orders))
        html = pressed(
            "season.html.j2", context, **dict.fromkeys(_OF_A_PLAN), title="The season", kicker="",
            unsound=unsound(site, ()), lede=say(
                "No season is planned yet. `benchlore season plan {}` asks whether these hands can deliver by the "
                "date, and keeps the answer here.", order))
        yield Page(SEASON, "The season", html, context.plain("No season is planned yet."))


def _how_good(season: Season) -> str:
    if season.proven in ("yes", "true"):
        return "No plan ends sooner: that is proven."
    if season.bound is None or season.ends is None:
        return ""
    bound, ends = season.bound.value.first, season.ends.value.last
    return (f"A sooner plan may be possible. Before {dated_day(bound)} it cannot be done: that is proven; what "
            f"lies between, {apart((ends - bound).days)}, is not settled.")


def _chances(season: Season) -> str:
    if season.chance is None:
        return ""
    last = season.nine_of_ten
    nine = f"; nine of ten times by {dated_day(last.value.last)}" if last is not None else ""
    return f"Played with other luck ({season.plays}), it was in time in {season.chance} of the plays{nine}."


def _page(site: Site, season: Season) -> Page:
    context = PageContext(site, SEASON)
    names = [(id_, first_name(str(person.name))) for id_, person in site.notebook.people.items()
             if ("weeks", id_) in site.addresses]
    rows = (*_people_rows(names, season), *_machine_rows(site, season))
    html = pressed(
        "season.html.j2", context,
        kicker=context.link("order", str(season.order)),
        title="The season",
        lede=prose(kept_answer(season)),
        how_good=prose(" ".join(one for one in (_how_good(season), _chances(season)) if one)),
        unsound=unsound(site, (season.at.path,)),
        wall=context.to(WALL) if season.work else "",
        weeks=[context.link("weeks", id_, f"{name}’s week") for id_, name in names],
        drawing=[trusted(weeks_drawing(rows, weeks_of(season), width)) for width in (WIDE, NARROW)] if rows else (),
        narrow=ledger("As far as hours tell, eight hours more of it bring the soonest end nearer by",
                      ("What is narrow", "Nearer by"),
                      [(prose(str(one.what)), prose(str(one.note or one.brings or "not told")))
                       for one in season.narrow]),
        cannot=[context.words(one) for one in season.cannot],
        ways=[context.words(one) for one in season.ways],
        what_if=[context.words(one) for one in season.what_if],
        chapters=(
            ("Hours of each person", "people", _people(names, season)),
            ("Hours at each machine", "machines", _machines(context, season)),
            ("Pieces of each work", "works", _works(context, season)),
            ("When to begin", "begin", _latest(context, season)),
            ("What to order by when", "order", _to_order(context, season)),
            ("What was really done", "done", _followed(context, season)),
        ),
        assumed=[context.words(one) for one in season.assumed],
        made=_made(season),
    )
    return Page(SEASON, "The season", html, kept_answer(season), (), season.at.path)


def _made(season: Season) -> str:
    on = f"Planned on {dated_day(season.date.value.first)}" if season.date is not None else "Planned"
    with_ = f" with {season.engine}" if season.engine is not None else ""
    return (f"{on}{with_}, and kept as it was. What has changed in the notebook since is not in it: "
            f"benchlore season check {season.season} tells whether it still holds.")


def _people(names: list[tuple[str, str]], season: Season) -> Ledger | None:
    by_person = loads(season)
    rows: list[Cells] = []
    for week in weeks_of(season):
        hours = [by_person[id_].get(week, 0.0) for id_, _ in names]
        rows.append((dated_day(week), *(f"{one:.0f} h" if one else "none" for one in hours)))
    return ledger("Hours for orders, week by week", ("Week of", *(name for _, name in names)), rows)


def _people_rows(names: list[tuple[str, str]], season: Season) -> Iterator[Row]:
    by_person = loads(season)
    most = max((hours for of in by_person.values() for hours in of.values()), default=0.0)
    for id_, name in names:
        yield Row(name, by_person[id_], most)


def _machine_rows(site: Site, season: Season) -> Iterator[Row]:
    by_machine = [(id_, machine_loads(site.notebook, season, id_)) for id_ in machines_of(site.notebook)]
    most = max((hours for _, of in by_machine for hours in of.values()), default=0.0)
    for id_, hours in by_machine:
        if hours:
            yield Row(site.titles["tool", id_], hours, most)


def _machines(context: PageContext, season: Season) -> Ledger | None:
    nb = context.book.notebook
    rows: list[Cells] = []
    for id_ in machines_of(nb):
        hours = machine_loads(nb, season, id_)
        if hours:
            rows.append((context.link("tool", id_), hours_told(sum(hours.values())), ", ".join(
                f"{short_day(week)}: {hours_told(one)}" for week, one in hours.items())))
    return ledger("Hours at each, by the Monday of the week", ("What", "Hours", "When"), rows)


def _works(context: PageContext, season: Season) -> Ledger | None:
    rows: list[Cells] = []
    for procedure, by_week in amounts(season).items():
        told = ", ".join(f"{short_day(week)}: {count}" for week, count in sorted(by_week.items()))
        rows.append((context.link("procedure", procedure), prose(str(sum(by_week.values()))), prose(told)))
    return ledger("Pieces of each work, by the Monday of the week", ("Work", "Pieces", "When"), rows)


def _latest(context: PageContext, season: Season) -> Ledger | None:
    begins: dict[str, date] = {}
    for stint in season.work:
        begins[str(stint.does)] = min(begins.get(str(stint.does), date.max), day_of(stint))
    rows: list[Cells] = [(context.link("procedure", str(procedure)), dated_day(begins[str(procedure)])
             if str(procedure) in begins else "not planned", dated_day(day.value.first))
            for procedure, day in season.latest.items()]
    return ledger("When each work begins", ("Work", "By this plan", "At the latest in any plan"), rows)


def _to_order(context: PageContext, season: Season) -> Ledger | None:
    """What must be ordered by when, counted back from the first work that takes it."""
    nb = context.book.notebook
    rows: list[Cells] = [(context.link(kind, id_), dated_day(by), dated_day(needed))
                         for kind, id_, by, needed in order_by(nb, season)]
    return ledger("To be ordered", ("What", "By", "Needed on"), rows)


def _followed(context: PageContext, season: Season) -> Ledger | None:
    today = context.book.analysis.today
    if season.starts is None or today < season.starts.value.first:
        return None
    rows: list[Cells] = [
        (context.link("procedure", one.procedure), f"{one.planned} of {one.whole}", str(one.done),
         "as planned" if not one.days else f"{apart(abs(one.days))} {'ahead' if one.days > 0 else 'behind'}")
        for one in follow(context.book.notebook, season, today)]
    return ledger(f"What was really done, until {dated_day(today)}", ("Work", "Planned by now", "Done", "So it is"),
                  rows)


def _wall(site: Site, season: Season) -> Page:
    """This week, by person and day, with boxes to tick."""
    context = PageContext(site, WALL)
    week = week_sheet(site.views, season)
    title = f"The week of {dated_day(week.monday)}" if week is not None else "Nothing more is planned"
    kicker = say("{}", linked("The season", Ref("chapter", SEASON)))
    lede = f"Until {dated_day(week.sunday)}. A stroke in the box when it is done." if week is not None else ""
    html = pressed("week.html.j2", context, kicker=kicker, title=title, lede=lede,
                   people=week.people if week is not None else ())
    return Page(WALL, title, html, title, (), season.at.path)
