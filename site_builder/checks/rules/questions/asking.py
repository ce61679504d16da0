"""Questions about a procedure: one shape for all that may not have been told yet.

Each is asked once a procedure, at its title. A key that was written down empty is a question already, and
an empty list (`materials: []`) is an answer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Check
from site_builder.notebook.finding import Found
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.things import Machine
from site_builder.notebook.told import Told

Worth = Callable[[Analysis, Told], bool]
"""Whether a procedure is of the kind for which the question makes sense."""


def asks_for(
    *keys: str, question: str, fix: str, worth: Worth = lambda _survey, _told: True, whole: bool = False,
    of_a_lot: str | None = None,
) -> Check:
    """A check that asks where none of the keys is written; ``{}`` in the question is the title.

    With ``whole`` the key must stand on the procedure itself; otherwise on any of its steps is enough. ``of_a_lot`` is
    the question where the work is not done piece by piece.
    """

    def check(analysis: Analysis) -> Iterator[Found]:
        for id_, told in analysis.told.items():
            own = told.procedure
            known = has_any(own, keys) if whole else told.knows(*keys)
            if not known and worth(analysis, told):
                asked = of_a_lot if of_a_lot is not None and is_by_lots(analysis, own) else question
                yield ask(own, id_, asked.format(named(own)), fix)

    return check


def is_by_lots(analysis: Analysis, own: Procedure) -> bool:
    """Whether a whole lot or load is worked at once, or what comes of it is no piece but a material."""
    return (bool(own.load) or own.per not in (None, "piece") or any(time.each is None for time in own.time)
            or any(str(made) in analysis.notebook.materials for made in own.makes))


def has_any(own: Procedure, keys: tuple[str, ...]) -> bool:
    """True where the procedure itself, not only a step of it, has one of the keys."""
    return any(key in own.model_fields_set or key in own.asked for key in keys)


def ask(own: Procedure, id_: str, question: str, fix: str) -> Found:
    """The question, at the title."""
    return Found(own.title.at, question, fix, id_)


def named(own: Procedure) -> str:
    """The title in quotes."""
    return quoted(own.title)


def at_home(_survey: Analysis, told: Told) -> bool:
    """Done in the shop; what others do elsewhere is their trade."""
    return told.procedure.where is None


def on_its_own(_survey: Analysis, told: Told) -> bool:
    """Not a shared step of other procedures, which say the rest."""
    return not told.shared


def machine_of(analysis: Analysis, told: Told) -> Machine | None:
    """The first machine that is used."""
    for id_ in told.things:
        tool = analysis.notebook.tools.get(id_)
        if isinstance(tool, Machine):
            return tool
    return None
