"""Questions about the shop as a whole."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.archiving import agreed_voices, answer
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.shop import Change, Order


def products_asked(analysis: Analysis) -> Iterator[Found]:
    shop = analysis.notebook.shop
    if shop is not None and not shop.products and "products" not in shop.asked:
        yield Found(
            shop.title.at, "What leaves the shop, and of which parts is it put together?",
            "Add `products:`, each with `title` and `of` (its parts with their number), and `parts:`.",
            str(shop.shop),
        )


PRODUCTS_ASKED = Rule(
    "products-asked", Level.QUESTION, "A shop that does not say what leaves it.",
    "From the product down to its parts, and from each part to the work on it: that is the map a newcomer starts "
    "from.",
    """\
=== procedures/shop.yml
shop: quay-street
title: ▸The shop in Quay Street
✓ products: {lantern: {title: Storm lantern, supplier: Pellmoor}}
""", products_asked,
)


_QUESTIONS = {
    "product": ("What is delivered", "the id of a product"),
    "pieces": ("How many are wanted", "the number"),
    "due": ("By when must it be there", "the day, as `2027-05-14`"),
    "customer": ("For whom is it", "an id under the shop's `customers`"),
}


def order_unsaid(analysis: Analysis) -> Iterator[Found]:
    for order, place in analysis.index.of(Order):
        for key, (question, wanted) in _QUESTIONS.items():
            if getattr(order, key) is None and key not in order.asked:
                yield Found(
                    order.title.at, f"{question}: “{order.title}”?", f"Add `{key}:` with {wanted}.", place.owner_id
                )


ORDER_UNSAID = Rule(
    "order-unsaid", Level.QUESTION, "An order that does not say what, how many, by when or for whom.",
    "Only with all four can the season be reckoned: what has to be begun, when, and how many more than are ordered.",
    """\
=== procedures/orders/spring.yml
order: spring
title: ▸Spring delivery
product: lantern
pieces: 260
due: 2027-05-14
✓ customer: lamp-office
""", order_unsaid,
)


def change_unsaid(analysis: Analysis) -> Iterator[Found]:
    for change, place in analysis.index.of(Change):
        told = change.model_fields_set | change.asked
        if "what" not in told:
            yield Found(
                change.title.at, f"What was done before, and what is done since: “{change.title}”?",
                "Add `what:` with both in a line.", place.owner_id,
            )
        if "because" not in told:
            yield Found(
                change.title.at, f"Why was it changed: “{change.title}”?", "Add `because:`.", place.owner_id
            )
        if told.isdisjoint(("results", "evidence")):
            yield Found(
                change.title.at, f"What shows that it is better so: “{change.title}”?",
                "Add `results:` with `old` and `new` for what was counted, or `evidence:`.", place.owner_id,
            )


CHANGE_UNSAID = Rule(
    "change-unsaid", Level.QUESTION,
    "A change to the way of working without its figures, its ground or what was changed.",
    "Without old and new side by side, a change is a fashion. In ten years somebody will change it back.",
    """\
=== procedures/changes/finer-belt.yml
change: finer-belt
title: ▸P80 in place of P60
what: Belt P80, was P60.
because: The P60 left scratches.
✓ results: {filler for one foot: {old: 9 g, new: 6 g}}
""", change_unsaid,
)


def body_asked(analysis: Analysis) -> Iterator[Found]:
    for skill, place in analysis.index.of(Skill):
        if "hazards" not in skill.model_fields_set and "hazards" not in skill.asked:
            yield Found(
                skill.title.at, f"What does “{skill.title}” do to a body over the years?",
                "Add `hazards:` with what one does against it; `hazards: []` if nothing.", place.owner_id,
            )


BODY_ASKED = Rule(
    "body-asked", Level.QUESTION, "A skill that does not say what the work does to a body.",
    "A wrist, a back or an ear goes slowly, and when one notices it is too late to have known.",
    """\
=== skills/filing.yml
skill: filing
title: ▸Filing
✓ hazards: {hazard: sore wrist, word: caution, avoid: "Half a day, then other work."}
""", body_asked,
)


def archive_unsaid(analysis: Analysis) -> Iterator[Found]:
    shop = analysis.notebook.shop
    if shop is None:
        return
    asked = {str(one) for one in shop.asked} | {str(one) for one in (shop.archive.asked if shop.archive else ())}
    shown = [one for one in analysis.pictures if one.path is not None and one.facts is not None]
    placed = [one for one in shown if one.facts is not None and one.facts.has_location]
    if placed and answer(shop, "places") is None and not asked & {"archive", "places"}:
        yield Found(shop.title.at, f"“{placed[0].name}” tells where it was taken. May an archive of the shop keep the "
                    "place?", "Add `archive: {places: yes}`, or `no`: then only a copy without the place is kept.")
    agreed = set(agreed_voices(analysis.index))
    heard = [one for one in shown if one.facts is not None and one.facts.kind in ("sound", "film")
             and one.path not in agreed]
    if heard and answer(shop, "voices") is None and not asked & {"archive", "voices"}:
        yield Found(shop.title.at, f"Do all who are heard in “{heard[0].name}” and in other recordings agree that an "
                    "archive keeps them?", "Ask them. Then add `archive: {voices: yes}`, or `no`: then they stay out.")


ARCHIVE_UNSAID = Rule(
    "archive-unsaid", Level.QUESTION,
    "Whether an archive may keep the place where a photo was taken, or people’s voices, is not said.",
    "What `benchlore keep` makes is copied and outlives everybody who could be asked. Until the shop says so, "
    "originals that tell their place and recordings of people stay out of it.",
    """\
=== procedures/shop.yml
shop: corvane
title: ▸The shop
✓ archive: {places: no}
pictures: {file: sole.jpg, shows: The sole on the belt}
=== procedures/photos/sole.jpg photo 400x300 with its place
""", archive_unsaid,
)
