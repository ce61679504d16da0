"""What the shop has laid down for all its work: its days, what varies, whom it works for, the books it goes by."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.notebook.model.shop import Customer, Shop
from site_builder.notebook.model.small import SourceNote, Variant
from site_builder.views import rhythm
from site_builder.views.dates import date_words
from site_builder.views.fact import Fact, fact
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, listed, say, sentences
from site_builder.views.rest import tailed, whole
from site_builder.views.scope import Scope
from site_builder.views.typeset import typeset

LaidDown = tuple[tuple[str, str, tuple[Fact, ...]], ...]
"""(anchor, heading, facts)."""


def laid_down(scope: Scope, shop: Shop) -> LaidDown:
    """Sections with anything to say."""
    groups = (
        ("days", "What holds for all work", tuple(_days(scope, shop))),
        ("varies", "What varies", tuple(fact(capital(typeset(str(name))), _variant(scope, one))
                                        for name, one in shop.variants.items())),
        ("customers", "Whom we work for", tuple(fact(scope.words(one.title), _customer(scope, one))
                                                for one in shop.customers.values())),
        ("sources", "Books, standards and sheets", tuple(fact(scope.words(one.title), _source(scope, one))
                                                         for one in shop.sources.values())),
    )
    return tuple(group for group in groups if group[2])


def _days(scope: Scope, shop: Shop) -> Iterator[Fact]:
    if shop.calendar is not None:
        yield fact("The shop works", whole(scope, shop.calendar))
    if shop.planning is not None:
        yield fact("A plan goes by", whole(scope, shop.planning))
    for name, entry in (("The shop", shop), ("The people", scope.nb.about_people)):
        # why there is a shop stands at the start
        why = scope.inline_why(entry) if entry is not None and entry is not shop else NO_WORDS
        about = joined((why, *scope.tail(entry))) if entry is not None else NO_WORDS
        if about:
            yield fact(name, about)


def _variant(scope: Scope, variant: Variant) -> Prose:
    said = [listed(map(scope.words, variant.values), "or")]
    if variant.decided:
        said.append(say("Decided {}", listed((rhythm.at_moment(scope.moment(leaf)) for leaf in variant.decided), "or")))
    elif "decided" in variant.asked:
        said.append(scope.untold("who decides it, and when, is not told yet", variant.at))
    return tailed(scope, variant, sentences(said), ("values", "decided"))


def _customer(scope: Scope, customer: Customer) -> Prose:
    always = joined((say("{} {}", name, scope.words(value)) for name, value in customer.chosen.items()), ", ")
    return tailed(scope, customer, say("Always {}", always) if always else say("As each order says"),
                  ("title", "chosen"))


def _source(scope: Scope, source: SourceNote) -> Prose:
    by = joined([part for part in (scope.words(source.author), say("{}", date_words(source.date))) if part], ", ")
    return tailed(scope, source, by or say("Nobody is named"), ("title", "author", "date"))
