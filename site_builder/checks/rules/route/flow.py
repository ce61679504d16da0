"""Where the work goes after each step when nothing goes wrong."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.route.steps import number_of
from site_builder.notebook.model.judging import End
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.references import Link

_LEADING = ("then", "from_", "done", "felt")


@dataclass(slots=True)
class Flow:
    """The ways through the top steps of one procedure; steps go by their numbers.

    ``always`` are the ends (`until`) of steps that never go on with the next one: the number of the step, and
    the links that say where to. ``led`` are the steps that anything leads to, ``sent`` the links out of each
    step or, under None, out of the procedure as a whole, that are taken only if need be.
    """

    id: str
    procedure: Procedure
    always: dict[int, list[Link]] = field(default_factory=dict)
    led: set[int] = field(default_factory=set)
    sent: dict[int | None, list[Link]] = field(default_factory=lambda: defaultdict(list))

    def target(self, number: int, link: Link) -> int | None:
        """The step a link out of a step leads to; None where it leaves the procedure or the piece."""
        if link.text in ("next", "again"):
            return number + (link.text == "next")
        here = link.target is not None and link.target.id == self.id
        return number_of(self.procedure, link.target.step) if here and link.target is not None else None


def flows(analysis: Analysis) -> Iterator[Flow]:
    """The flow of every procedure in which the end of a step says where to go on."""
    leading: dict[str, list[Link]] = defaultdict(list)
    turning: dict[str, dict[int, tuple[Step, list[Link]]]] = defaultdict(dict)
    for link in analysis.references.links:
        if link.key not in _LEADING or link.target is None:
            continue
        leading[link.target.id if link.target.kind == "procedure" else link.place.owner_id].append(link)
        around = link.place.parent
        if isinstance(link.place.entry, End) and around is not None and around.key == "steps":
            step = around.entry
            if isinstance(step, Step) and link.place.key == "until" and around.procedure is not None:
                turning[around.owner_id].setdefault(id(step), (step, []))[1].append(link)
    for id_, steps in turning.items():
        yield _flow(analysis, id_, steps, leading[id_])


def _flow(analysis: Analysis, id_: str, turning: dict[int, tuple[Step, list[Link]]], leading: list[Link]) -> Flow:
    flow = Flow(id_, analysis.notebook.procedures[id_])
    ends: set[int] = set()
    for step, links in turning.values():
        number = number_of(flow.procedure, step)
        if number is not None and len(links) == len(step.until) and _never_goes_on(step):
            flow.always[number] = links
            ends |= {id(link) for link in links}
    for link in leading:
        if link.target is not None and link.target.id == id_:
            number = number_of(flow.procedure, link.target.step)
            if number is not None:
                flow.led.add(number)
        if link.place.owner_id == id_ and link.key == "then" and id(link) not in ends:
            flow.sent[number_of(flow.procedure, link.place.step)].append(link)
    return flow


def _never_goes_on(step: Step) -> bool:
    """Whether every end of the step says where to go on, and the step is never left out."""
    if step.for_ or step.unless is not None or step.when is not None or step.repeat is not None:
        return False
    return all(end.then is not None and not end.for_ for end in step.until)
