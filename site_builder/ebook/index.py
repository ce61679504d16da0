"""The index at the end: tools, materials, skills, troubles and words by letter, each leading to where it is told."""

from __future__ import annotations

from collections.abc import Iterable

from site_builder.ebook.press import templates
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.prose_html import turn_to
from site_builder.handbook.site import Page, Site
from site_builder.notebook.references import all_steps
from site_builder.views.prose import Prose, capital, say, toned
from site_builder.views.scope import ProcedureScope
from site_builder.views.typeset import typeset

INDEX = "index-of-things.md"
Group = tuple[str, str, list[Prose]]


def index_page(site: Site) -> Page:
    """One page."""
    context = PageContext(site, INDEX)
    nb = site.notebook
    groups: list[Group] = [
        ("procedures", "Procedures", _named(site, "procedure", nb.procedures)),
        ("tools", "Tools", _named(site, "tool", nb.tools)),
        ("materials", "Materials", _named(site, "material", nb.materials)),
        ("skills", "Skills", _named(site, "skill", nb.skills)),
        ("people", "People", _named(site, "person", nb.people)),
        ("troubles", "Troubles", _troubles(site)),
        ("words", "Words", _sorted(site.views.link("word", word, capital(typeset(word))) for word in nb.words)),
    ]
    turn_to(context)
    html = templates().get_template("index.xhtml.j2").render(groups=[group for group in groups if group[2]])
    return Page(INDEX, "Index", html)


def _named(site: Site, kind: str, ids: Iterable[str]) -> list[Prose]:
    return _sorted(capital(site.views.link(kind, id_)) for id_ in ids)


def _troubles(site: Site) -> list[Prose]:
    """What one sees, and the work in which it happens."""
    found: list[Prose] = []
    for id_, own in site.notebook.procedures.items():
        scope = ProcedureScope(site.views, own)
        for work in (own, *all_steps(own)):
            for one in work.troubles:
                sign = capital(scope.view.plain(one.sign))
                link = site.views.link("procedure", id_, sign, scope.trouble_anchors[id(one)])
                found.append(say("{}, {}", link, toned("at", site.views.title("procedure", id_))))
    return _sorted(found)


def _sorted(entries: Iterable[Prose]) -> list[Prose]:
    return sorted(entries, key=lambda said: said.plain.casefold())
