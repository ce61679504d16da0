"""The facts of a part: metal, sizes, how many, how long, how many reach the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import listed
from site_builder.handbook.pages.readings import Fact, facts_of
from site_builder.handbook.pages.sayings import valued
from site_builder.handbook.pages.work_graph import Ways
from site_builder.notebook.model.shop import Part
from site_builder.notebook.way import PieceAccount, with_parts
from site_builder.views.counts import span

NAMED = 3
"""As many procedures are named one by one; of more only the number is told."""


def part_facts(
    context: PageContext, id_: str, part: Part, told: PieceAccount | None, all_ways: Ways
) -> tuple[Fact, ...]:
    """In the order in which a newcomer asks."""
    return tuple(_facts(context, id_, part, told, all_ways))


def _facts(context: PageContext, id_: str, part: Part, told: PieceAccount | None, all_ways: Ways) -> Iterator[Fact]:
    if part.material:
        yield Fact("Made of", words=Markup(", ").join(context.link("material", str(m)) for m in part.material))
    if part.supplier:
        yield Fact("Bought from", words=context.words(part.supplier))
    if part.chosen:
        yield Fact("Always", words=Markup(", ").join(
            Markup("{} {}").format(str(name), context.words(value)) for name, value in part.chosen.items()))
    for whole, entry in context.book.notebook.parts.items():
        count = next((number for one, number in entry.of.items() if one == id_), None)
        if count is not None:
            yield Fact(Markup("In one {}").format(_small(context, whole)), words=valued(context, count))
    yield from facts_of(context, part.sizes)
    way = all_ways.get(id_, ())
    if told is not None and part.of:
        yield Fact("Time of hands to put together", words=_time(context, told, way))
        yield Fact("With all its parts", words=_whole(context, id_, all_ways))
        yield Fact("Of 100 put together", words=_reach(context, told, way))
    elif told is not None:
        yield Fact("Time of hands in one", words=_time(context, told, way))
        yield Fact("Of 100 begun", words=_reach(context, told, way))


def _whole(context: PageContext, id_: str, all_ways: Ways) -> Markup:
    least, most, all_told = with_parts(context.book.notebook, all_ways, id_)
    more = "" if all_told else ", without what is not yet told"
    return Markup("{} of hands in one{}").format(_about(least, most), more)


def _about(least: Fraction, most: Fraction) -> str:
    low, high = span(least), span(most)
    if low == high:
        return f"about {low}"
    number, blank, unit = low.partition("\u00a0")
    return f"{number} to {high}" if high.endswith(blank + unit) and number.isdigit() else f"{low} to {high}"


def _small(context: PageContext, whole: str) -> str:
    title = context.title("part", whole).partition(",")[0]
    return title[:1].lower() + title[1:]


def _time(context: PageContext, told: PieceAccount, way: Sequence[str]) -> Markup:
    if len(told.untimed) == len(way):
        return Markup("not yet told")
    return Markup("{}, setting up and waiting not counted{}").format(
        _about(told.least, told.most), _without(context, told.untimed)
    )


def _reach(context: PageContext, told: PieceAccount, way: Sequence[str]) -> Markup:
    if len(told.uncounted) == len(way):
        return Markup("not yet told")
    left = round(told.of_hundred)
    count = "all" if told.of_hundred == 100 else f"about {left}"
    return Markup("{} come to the end of this way, by the losses written{}").format(
        count, _without(context, told.uncounted)
    )


def _without(context: PageContext, untold: Sequence[str]) -> Markup:
    """Which procedures are not in the sum."""
    if not untold:
        return Markup("")
    if len(untold) > NAMED:
        return Markup(". {} procedures do not tell and are left out").format(len(untold))
    names = listed(context.link("procedure", one) for one in untold)
    return Markup(". {} {} not tell and {} left out").format(
        names, "does" if len(untold) == 1 else "do", "is" if len(untold) == 1 else "are")


