from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    shop = analysis.notebook.shop
    if shop is not None and not shop.products and "products" not in shop.asked:
        yield Found(
            shop.title.at, "What leaves the shop, and of which parts is it put together?",
            "Add `products:`, each with `title` and `of` (its parts with their number), and `parts:`.",
            str(shop.shop),
        )


RULE = Rule(
    code="products-asked",
    level=Level.QUESTION,
    summary="A shop that does not say what leaves it.",
    reason="From the product down to its parts, and from each part to the work on it: that is the map a "
    "newcomer starts from.",
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
products: {lantern: {title: Storm lantern, supplier: Pellmoor}}
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: ▸The shop in Quay Street
""",
    check=check,
)
