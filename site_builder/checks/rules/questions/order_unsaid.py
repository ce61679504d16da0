from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Order

_QUESTIONS = {
    "product": ("What is delivered", "the id of a product"),
    "pieces": ("How many are wanted", "the number"),
    "due": ("By when must it be there", "the day, as `2027-05-14`"),
    "customer": ("For whom is it", "an id under the shop's `customers`"),
}


def check(analysis: Analysis) -> Iterator[Found]:
    for order, place in analysis.index.of(Order):
        for key, (question, answer) in _QUESTIONS.items():
            if getattr(order, key) is None and key not in order.asked:
                yield Found(
                    order.title.at, f"{question}: “{order.title}”?", f"Add `{key}:` with {answer}.", place.owner_id
                )


RULE = Rule(
    code="order-unsaid",
    level=Level.QUESTION,
    summary="An order that does not say what, how many, by when or for whom.",
    reason="Only with all four can the season be reckoned: what has to be begun, when, and how many more "
    "than are ordered.",
    passes="""\
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
product: lantern
pieces: 260
due: 2027-05-14
customer: lamp-office
""",
    fails="""\
=== procedures/orders/spring.yml
order: spring
title: ▸Spring delivery
product: lantern
pieces: 260
due: 2027-05-14
""",
    check=check,
)
