"""A page for each part and product, made or bought."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.drawings import work_map
from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.order import order_lines
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.work_graph import MOST_STOPS, part_graph
from site_builder.handbook.site import WORK, Page, Site
from site_builder.handbook.trusted import trusted
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.shop import Part
from site_builder.notebook.way import Ways, account, ways
from site_builder.views.fact import sources
from site_builder.views.part_facts import part_facts
from site_builder.views.part_joins import joining, joins, variants
from site_builder.views.part_way import steps_of_way
from site_builder.views.picture import shots
from site_builder.views.prose import Ref, joined, linked, say
from site_builder.views.scope import Scope


def part_pages(site: Site) -> Iterator[Page]:
    """One sheet a part, then one a product."""
    all_ways = ways(site.notebook, site.analysis.route)
    large = sum(map(len, all_ways.values())) > MOST_STOPS
    for id_, part in site.notebook.parts.items():
        yield _sheet(site, all_ways, large, id_, part)


def _sheet(site: Site, all_ways: Ways, large: bool, id_: str, part: Part) -> Page:
    context = PageContext(site, site.addresses["part", id_])
    scope = Scope(site.views, part, "part", id_)
    title = context.title("part", id_)
    way = all_ways.get(id_, ())
    drawn = work_map(part_graph(context, all_ways, id_), f"Map of the work: {title}") if large and way else None
    sizes = [(str(name), limit) for name, limits in part.sizes.items() for limit in limits]
    kind = "What leaves the shop" if id_ in site.notebook.products else "Made here" if way else \
        "Bought in" if part.supplier else "A part"
    told_before = {*way, *joining(scope, way)}
    html = pressed(
        "part.html.j2", context, kicker=say("{} · {}", linked("The work", Ref("chapter", WORK)), kind), title=title,
        lede=joined(map(scope.words, part.because)), note=scope.words(part.note),
        pictures=shots(scope, (*part.pictures, *_cover(site, id_))),
        facts=part_facts(scope, part, account(site.notebook, way) if way else None, all_ways),
        sources=(*sources(scope, sizes, part.source), *scope.heard(part), *scope.answers(part)),
        wide=trusted(drawn.wide) if drawn else "", narrow=trusted(drawn.tall) if drawn else "",
        way=steps_of_way(site.views, way), joins=joins(scope, part, all_ways), variants=variants(scope, part, way),
        used=[site.uses.said(use) for use in site.uses.of("part", id_)
              if use.kind == "procedure" and use.id not in told_before],
        orders=order_lines(context, id_), figures=figure_views(context, "part", id_),
        unsound=unsound(site, (part.at.path,)),
    )
    parts = tuple(FinderPart(one, context.title("procedure", one)) for one in way)
    told = context.plain(part.because[0]) if part.because else ""
    return Page(context.src_uri, title, html, told, parts, part.at.path)


def _cover(site: Site, id_: str) -> tuple[Picture, ...]:
    """The shop's own pictures stand on the page of its only product."""
    shop = site.notebook.shop
    return tuple(shop.pictures) if shop is not None and list(site.notebook.products) == [id_] else ()
