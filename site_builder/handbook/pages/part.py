"""A page for each part and product, made or bought."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.drawings import work_map
from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.order import order_lines
from site_builder.handbook.pages.part_facts import part_facts
from site_builder.handbook.pages.part_joins import joining, joins, variants
from site_builder.handbook.pages.part_way import steps_of_way
from site_builder.handbook.pages.readings import source_lines
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.uses import Uses, uses_of
from site_builder.handbook.pages.work_graph import MOST_STOPS, Ways, part_graph
from site_builder.handbook.site import WORK, Page, Site
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.shop import Part
from site_builder.notebook.way import account, ways
from site_builder.views.picture import shots


def part_pages(site: Site) -> Iterator[Page]:
    """One sheet a part, then one a product."""
    all_ways = ways(site.notebook, site.analysis.route)
    large = sum(map(len, all_ways.values())) > MOST_STOPS
    uses = uses_of(site)
    for id_, part in site.notebook.parts.items():
        yield _sheet(site, uses, all_ways, large, id_, part)


def _sheet(site: Site, uses: Uses, all_ways: Ways, large: bool, id_: str, part: Part) -> Page:
    src_uri = site.addresses["part", id_]
    context = PageContext(site, src_uri)
    title = context.title("part", id_)
    way = all_ways.get(id_, ())
    drawn = work_map(part_graph(context, all_ways, id_), f"Map of the work: {title}") if large and way else None
    sizes = [(str(name), limit) for name, limits in part.sizes.items() for limit in limits]
    html = pressed(
        "part.html.j2", context,
        kicker=Markup('<a href="{}">The work</a> · {}').format(
            context.to(WORK),
            "What leaves the shop"
            if id_ in site.notebook.products
            else "Made here"
            if way
            else "Bought in"
            if part.supplier
            else "A part",
        ),
        title=title,
        lede=Markup(" ").join(context.words(reason) for reason in part.because),
        note=context.words(part.note),
        pictures=shots(context.scope(part), (*part.pictures, *_cover(site, id_))),
        facts=part_facts(context, id_, part, account(site.notebook, way) if way else None, all_ways),
        sources=source_lines(context, sizes, part.source),
        wide=Markup(drawn.wide) if drawn else "",
        narrow=Markup(drawn.tall) if drawn else "",
        way=steps_of_way(context, way),
        joins=joins(context, id_, part, all_ways),
        variants=variants(context, id_, part, way),
        used=_used(context, uses, id_, {*way, *joining(context, id_, way)}),
        orders=order_lines(context, id_),
        figures=figure_views(context, "part", id_),
        unsound=unsound(site, (part.at.path,)),
    )
    parts = tuple(FinderPart(one, context.title("procedure", one)) for one in way)
    return Page(src_uri, title, html, context.plain(part.because[0]) if part.because else "", parts, part.at.path)


def _cover(site: Site, id_: str) -> tuple[Picture, ...]:
    """The shop's own pictures stand on the page of its only product."""
    shop = site.notebook.shop
    return tuple(shop.pictures) if shop is not None and list(site.notebook.products) == [id_] else ()


def _used(context: PageContext, uses: Uses, id_: str, told: set[str]) -> list[Markup]:
    """Other work that takes it up."""
    return [uses.said(context, use) for use in uses.of("part", id_) if use.kind == "procedure" and use.id not in told]
