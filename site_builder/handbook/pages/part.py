"""A page for each part and product, made or bought."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.book import WORK, Book, Sheet
from site_builder.handbook.drawings import work_map
from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.order import order_lines
from site_builder.handbook.pages.part_facts import part_facts
from site_builder.handbook.pages.part_joins import joining, joins, variants
from site_builder.handbook.pages.part_way import steps_of_way
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.readings import source_lines
from site_builder.handbook.pages.shown import shown
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.uses import Uses, uses_of
from site_builder.handbook.pages.work_graph import MOST_STOPS, Ways, part_graph
from site_builder.handbook.pen import Pen
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.shop import Part
from site_builder.notebook.way import account, ways


def part_sheets(book: Book) -> Iterator[Sheet]:
    """One sheet a part, then one a product."""
    all_ways = ways(book.notebook, book.survey.route)
    large = sum(map(len, all_ways.values())) > MOST_STOPS
    uses = uses_of(book)
    for id_, part in book.notebook.parts.items():
        yield _sheet(book, uses, all_ways, large, id_, part)


def _sheet(book: Book, uses: Uses, all_ways: Ways, large: bool, id_: str, part: Part) -> Sheet:
    src_uri = book.addresses["part", id_]
    pen = Pen(book, src_uri)
    title = pen.title("part", id_)
    way = all_ways.get(id_, ())
    drawn = work_map(part_graph(pen, all_ways, id_), f"Map of the work: {title}") if large and way else None
    sizes = [(str(name), limit) for name, limits in part.sizes.items() for limit in limits]
    html = pressed(
        "part.html.j2",
        kicker=Markup('<a href="{}">The work</a> · {}').format(
            pen.to(WORK), "What leaves the shop" if id_ in book.notebook.products else
            "Made here" if way else "Bought in" if part.supplier else "A part"),
        title=title, lede=Markup(" ").join(pen.words(reason) for reason in part.because), note=pen.words(part.note),
        pictures=shown(pen, (*part.pictures, *_cover(book, id_))),
        facts=part_facts(pen, id_, part, account(book.notebook, way) if way else None, all_ways),
        sources=source_lines(pen, sizes, part.source),
        wide=Markup(drawn.wide) if drawn else "", narrow=Markup(drawn.tall) if drawn else "",
        way=steps_of_way(pen, way), joins=joins(pen, id_, part, all_ways), variants=variants(pen, id_, part, way),
        used=_used(pen, uses, id_, {*way, *joining(pen, id_, way)}), orders=order_lines(pen, id_),
        figures=figure_views(pen, "part", id_), unsound=unsound(book, (part.at.path,)),
    )
    parts = tuple(FinderPart(one, pen.title("procedure", one)) for one in way)
    return Sheet(src_uri, title, html, pen.plain(part.because[0]) if part.because else "", parts, part.at.path)


def _cover(book: Book, id_: str) -> tuple[Picture, ...]:
    """The shop's own pictures stand on the page of its only product."""
    shop = book.notebook.shop
    return tuple(shop.pictures) if shop is not None and list(book.notebook.products) == [id_] else ()


def _used(pen: Pen, uses: Uses, id_: str, told: set[str]) -> list[Markup]:
    """Other work that takes it up."""
    return [uses.said(pen, use) for use in uses.of("part", id_) if use.kind == "procedure" and use.id not in told]
