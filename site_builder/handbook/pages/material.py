"""A page for each material: what it is, what it can do to you, what must never meet it."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.tool import parts_to_find
from site_builder.handbook.site import TOOLS, Page, Site
from site_builder.notebook.model.things import Material
from site_builder.views.prose import Ref, capital, joined, linked, say
from site_builder.views.thing import thing_view
from site_builder.views.thing_head import comes_before, kept_apart, maker_and_note, material_facts


def material_pages(site: Site) -> Iterator[Page]:
    """One sheet a material, in the order of the notebook."""
    asunder = kept_apart(site.notebook)
    for id_, material in site.notebook.materials.items():
        yield _sheet(site, asunder.get(id_, ()), id_, material)


def _sheet(site: Site, asunder: tuple[str, ...], id_: str, material: Material) -> Page:
    context = PageContext(site, site.addresses["material", id_])
    scope = context.scope(material)
    title = context.title("material", id_)
    html = pressed(
        "thing.html.j2", context, kicker=say("{} · Materials", linked("The tools", Ref("chapter", TOOLS))), title=title,
        lede=joined(map(scope.words, material.because)), note=maker_and_note(scope, material),
        v=thing_view(scope, site.uses, material, tuple(material_facts(scope, site.uses, material))), legend=(),
        weeks=None, law=comes_before(scope, material),
        apart=[capital(scope.view.link("material", other)) for other in asunder],
        figures=figure_views(context, "material", id_), unsound=unsound(site, (material.at.path,)),
    )
    told = " ".join(filter(None, (*map(context.plain, material.because[:1]), context.plain(material.maker))))
    return Page(context.src_uri, title, html, told, parts_to_find(context, material), material.at.path)
