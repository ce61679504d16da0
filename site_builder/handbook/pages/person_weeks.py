"""The weeks of one person by the plan of the season: this one first, as it fits on a phone, then those to come."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.own_weeks import hours_told
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import SEASON, Page, Site
from site_builder.notebook.model.season import Season
from site_builder.plans.weeks import monday
from site_builder.skills.initials import first_name
from site_builder.views.dates import dated_day
from site_builder.views.prose import Ref, joined, linked, say
from site_builder.views.week import weeks_to_come


def person_week_pages(site: Site, season: Season) -> Iterator[Page]:
    """A page for everybody to whom the plan gives work."""
    for id_, person in site.notebook.people.items():
        if ("weeks", id_) in site.addresses:
            yield _page(site, season, id_, str(person.name))


def _page(site: Site, season: Season, id_: str, name: str) -> Page:
    src_uri = site.addresses["weeks", id_].partition("#")[0]
    context = PageContext(site, src_uri)
    weeks = tuple(weeks_to_come(site.views, season, id_))
    first = f"{first_name(name)}’s"
    title = f"{first} weeks"
    if weeks:
        now = "This week" if weeks[0].monday == monday(site.analysis.today) else f"{first} first week that comes"
        lede = f"{now} is that of {dated_day(weeks[0].monday)}: {hours_told(weeks[0].hours)}."
    else:
        lede = "Nothing more is planned."
    kicker = joined((linked("The season", Ref("chapter", SEASON)), context.link("person", id_)), " · ")
    html = pressed(
        "person_weeks.html.j2", context, kicker=say("{}", kicker), title=title, lede=lede,
        weeks=[(week.monday.isoformat(), f"Week of {dated_day(week.monday)}", hours_told(week.hours), week.days)
               for week in weeks])
    return Page(src_uri, title, html, lede, (), season.at.path)
