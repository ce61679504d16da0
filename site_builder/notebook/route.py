"""The route of the work: what comes before what, which work goes round in a loop, what has no way in.

An edge runs from a procedure to the one that comes after it. A cycle among the `after` of procedures is
an error; a loop is written with `repeat` or `then` and is kept apart.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.references import References, all_steps


@dataclass(frozen=True, slots=True)
class BackEdge:
    """Work that leads back to earlier work, with the words for how often."""

    start: str
    end: str
    times: str


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
            if earlier != later and earlier not in before[later]:
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
                out.setdefault((start, end), BackEdge(start, end, _times(nb.procedures[start])))
    return list(out.values())


def _times(procedure: Procedure) -> str:
    for work in (procedure, *all_steps(procedure)):
        if work.repeat is not None and work.repeat.times is not None and work.repeat.from_ is not None:
            return str(work.repeat.times)
    return ""


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
