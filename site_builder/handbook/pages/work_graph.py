"""The work as a graph to draw: parts as lanes, procedures as stops, joins, usual ways back, what is bought."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from site_builder.handbook.drawings import Bought, Edge, Lane, Loop, Stop, WorkGraph
from site_builder.handbook.page_context import PageContext
from site_builder.notebook.model.shop import Part
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.route import BackEdge, Route
from site_builder.notebook.way import NO_PART, Ways
from site_builder.quantity import Limits, Quantity, Range
from site_builder.views.free_text import plain
from site_builder.views.prose import lowered_text
from site_builder.views.typeset import typeset

MOST_STOPS = 60
"""With more, one map of everything is no help: then each part's page has its own."""


def whole_graph(context: PageContext, ways: Ways) -> WorkGraph:
    """All of the work."""
    return _graph(context, ways, [id_ for way in ways.values() for id_ in way])


def part_graph(context: PageContext, ways: Ways, part: str) -> WorkGraph:
    """The way of one part, with the work that leads into it and out of it."""
    route = context.book.analysis.route
    own = ways.get(part, ())
    near = dict.fromkeys(own)
    for id_ in own:
        near |= dict.fromkeys((*route.before[id_], *route.after[id_]))
    return _graph(context, ways, near)


def _graph(context: PageContext, ways: Ways, drawn: Iterable[str]) -> WorkGraph:
    nb, route = context.book.notebook, context.book.analysis.route
    kept = set(drawn)
    lanes = {part: [id_ for id_ in way if id_ in kept] for part, way in ways.items()}
    lanes = {part: way for part, way in lanes.items() if way}
    # Stops in the order of the work, so that what follows first is drawn first.
    stops = [_stop(context, part, id_) for part, way in lanes.items() for id_ in way]
    edges = [Edge(before, stop.id) for stop in stops for before in _just_before(route, stop.id) if before in kept]
    return WorkGraph(
        tuple(lane(context, part, only=len(lanes) == 1) for part in lanes), tuple(stops), tuple(edges),
        tuple(_loops(route, kept)), tuple(_bought(nb, lanes)),
    )


def _just_before(route: Route, id_: str) -> list[str]:
    """What comes directly before: not what comes before something else that comes before it."""
    direct = route.before[id_]
    if len(direct) < 2:
        return list(direct)
    further: set[str] = set()
    todo = [earlier for one in direct for earlier in route.before[one]]
    while todo:
        here = todo.pop()
        if here not in further:
            further.add(here)
            todo += route.before[here]
    return [one for one in direct if one not in further] or list(direct)


def lane(context: PageContext, part: str, *, only: bool = False) -> Lane:
    """A part with its metal; work that belongs to no part has a lane too."""
    if part == NO_PART:
        return Lane("no part", "The work" if only else "For all of them")
    entry = context.book.notebook.parts[part]
    metals = ", ".join(lowered_text(context.title("material", str(m))) for m in entry.material)
    return Lane(part, short_title(context, part), typeset(metals), context.href("part", part) or "")


def short_title(context: PageContext, part: str) -> str:
    """The name of a part up to the first comma: "Glass" for "Glass, drawn tube, heat-proof"."""
    return typeset(context.title("part", part).partition(",")[0])


def _small(part: Part) -> str:
    return lowered_text(plain(str(part.title)).partition(",")[0])


def _stop(context: PageContext, part: str, id_: str) -> Stop:
    procedure = context.book.notebook.procedures[id_]
    return Stop(id_, typeset(context.title("procedure", id_)), context.href("procedure", id_) or "", part or "no part",
                outside=procedure.where is not None)


def _loops(route: Route, kept: set[str]) -> Iterator[Loop]:
    for back in route.loops:
        if back.usual and back.start in kept and back.end in kept:
            yield Loop(back.start, back.end, times_words(back))


def times_words(back: BackEdge) -> str:
    """`2 or 3 times`, `3 to 4 times`, `about 2 times, at most 5`."""
    what = back.count.value.what if back.count is not None else None
    if not isinstance(what, Limits):
        return ""
    usual, most = what.get("about"), what.get("max")
    high = most.what.parts[0].number.text if most is not None and isinstance(most.what, Quantity) else ""
    if usual is not None and isinstance(usual.what, Range):
        ends = [end.parts[0].number.text for end in (usual.what.low, usual.what.high) if isinstance(end, Quantity)]
        told = " to ".join(ends)
    elif usual is not None and isinstance(usual.what, Quantity):
        told = usual.what.parts[0].number.text
        if high.isdigit() and told.isdigit() and int(high) == int(told) + 1:
            return f"{told} or {high} times"
    else:
        return ""
    times = f"about {told} {'time' if told == '1' else 'times'}"
    return f"{times}, at most {high}" if high else times


def _bought(nb: Notebook, lanes: Mapping[str, list[str]]) -> Iterator[Bought]:
    """What is bought in, at the work that takes it up; else where the whole is put together."""
    bought = [id_ for id_, part in nb.parts.items() if part.supplier is not None and id_ not in lanes]
    if not bought:
        return
    taken: dict[str, str] = {}
    for id_ in (one for way in lanes.values() for one in way):
        procedure = nb.procedures[id_]
        for work in (procedure, *procedure.steps):
            for use in work.materials:
                taken.setdefault(str(use.material), id_)
        for part in nb.parts_of(procedure):
            taken.setdefault(part, id_)
    for id_ in bought:
        stop = taken.get(id_) or _put_together(nb, lanes, id_)
        if stop is not None:
            yield Bought(_small(nb.parts[id_]), stop)


def _put_together(nb: Notebook, lanes: Mapping[str, list[str]], part: str) -> str | None:
    for whole, way in lanes.items():
        if whole != NO_PART and part in nb.parts[whole].of:
            made = [id_ for id_ in way if whole in nb.procedures[id_].makes]
            return made[0] if made else way[0]
    return None

