"""The route of the work: what comes before what, which work goes round in a loop, what has no way in.

An edge runs from a procedure to the one that comes after it. A cycle among the `after` of procedures is
an error; a loop is written with `repeat` or `then` and is kept apart.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.judging import Loop, Remedy, Trouble
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.references import References
from site_builder.quantity import Limits


@dataclass(frozen=True, slots=True)
class BackEdge:
    """Work that leads back to earlier work, with the words for how often.

    ``usual`` says that the work is expected to go round (`times: about 2`); otherwise it goes back only
    when something went wrong.
    """

    start: str
    end: str
    times: str
    usual: bool = False
    count: Written | None = None


@dataclass(frozen=True)
class Route:
    """Procedures in the order of the work."""

    before: Mapping[str, tuple[str, ...]]
    after: Mapping[str, tuple[str, ...]]
    loops: tuple[BackEdge, ...]
    cycles: tuple[tuple[str, ...], ...]
    order: tuple[str, ...]
    """All procedures, each after those before it (cycles broken where they close)."""

    def shared(self, nb: Notebook) -> tuple[str, ...]:
        """Procedures that stand in no route because others use them."""
        used = {str(s.use) for _, s in nb.steps() if s.use is not None}
        return tuple(p for p in self.order if p in used and not self.before[p] and not self.after[p])


def build_route(references: References) -> Route:
    """The route from the `after` of every procedure."""
    nb = references.notebook
    before: dict[str, list[str]] = {p: [] for p in nb.procedures}
    for link in references.links:
        if link.key == "done" and link.target is not None and link.target.kind == "procedure":
            earlier, later = link.target.id, link.place.owner_id
            # the upkeep of a tool may come after work too, but stands on no way
            if earlier != later and earlier not in before.get(later, (earlier,)):
                before[later].append(earlier)
    after: dict[str, list[str]] = {p: [] for p in nb.procedures}
    for later, earliers in before.items():
        for earlier in earliers:
            after[earlier].append(later)
    order, cycles = _order(before)
    return Route(
        {k: tuple(v) for k, v in before.items()}, {k: tuple(v) for k, v in after.items()},
        tuple(_loops(references)), tuple(cycles), tuple(order),
    )


def _loops(references: References) -> list[BackEdge]:
    """`then` and `repeat.from` that name another procedure."""
    out: dict[tuple[str, str], BackEdge] = {}
    nb = references.notebook
    for link in references.links:
        target = link.target
        if (link.key in ("then", "from_") and target is not None and target.kind == "procedure"
                and target.id != link.place.owner_id and link.place.owner_id in nb.procedures):
            start, end = link.place.owner_id, target.id
            if _is_earlier(nb.procedures, references, end, start):
                edge = _back_edge(start, end, link.place.entry)
                if (start, end) not in out or (edge.usual and not out[start, end].usual):
                    out[start, end] = edge
    return list(out.values())


def _back_edge(start: str, end: str, carrying: Entry) -> BackEdge:
    """The way back with the count of the entry that carries it: a remedy, a trouble, a loop."""
    count = carrying.times if isinstance(carrying, Remedy | Trouble | Loop) else None
    if count is None:
        return BackEdge(start, end, "")
    what = count.value.what
    usual = isinstance(what, Limits) and what.get("about") is not None
    return BackEdge(start, end, str(count), usual, count)


def _is_earlier(procedures: Mapping[str, Procedure], references: References, first: str, then: str) -> bool:
    seen, todo = set(), [then]
    while todo:
        here = todo.pop()
        for after in procedures[here].after:
            target = references.find(str(after.done.text), ("procedure",))
            if target is not None and target.id not in seen:
                if target.id == first:
                    return True
                seen.add(target.id)
                todo.append(target.id)
    return first == then


def _order(before: Mapping[str, list[str]]) -> tuple[list[str], list[tuple[str, ...]]]:
    """Depth first without recursion; a procedure met again while still open closes a cycle."""
    order: list[str] = []
    cycles: list[tuple[str, ...]] = []
    done: set[str] = set()
    for root in before:
        if root in done:
            continue
        trail: list[str] = [root]
        rest: list[list[str]] = [list(reversed(before[root]))]
        open_: set[str] = {root}
        while trail:
            if rest[-1]:
                earlier = rest[-1].pop()
                if earlier in open_:
                    cycles.append(tuple(trail[trail.index(earlier):]))
                elif earlier not in done:
                    trail.append(earlier)
                    open_.add(earlier)
                    rest.append(list(reversed(before[earlier])))
            else:
                last = trail.pop()
                rest.pop()
                open_.discard(last)
                done.add(last)
                order.append(last)
    return order, cycles
