"""The checklist of a skill on paper: one a sheet, with boxes, and lines for initials and dates."""

from __future__ import annotations

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import HANDS, Page
from site_builder.views.checklist import checklist
from site_builder.views.prose import Ref, linked, say


def checklist_sheet(people_index: PeopleIndex, id_: str) -> Page | None:
    """The page of one skill's checklist; None where there is no checklist."""
    book, skill = people_index.book, people_index.book.notebook.skills[id_]
    src_uri = book.addresses.get(("checklist", id_))
    if src_uri is None:
        return None
    context = PageContext(book, src_uri)
    told = checklist(book.views, id_, people_index.shown, people_index.signers[id_])
    title = f"Checklist: {told.name}"
    html = pressed(
        "checklist.html.j2", context,
        kicker=say("{} · {}", linked("The hands", Ref("chapter", HANDS)), context.link("skill", id_)),
        title=title, name=told.name, unsound=unsound(book, (skill.at.path,)), papers=told.papers,
        code=told.code, age=told.age, teachers=told.teachers,
    )
    found = f"To be printed, signed on paper and brought into the book with the code {told.code}."
    return Page(src_uri, title, html, found, written_in=skill.at.path)
