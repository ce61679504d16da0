"""At a glance: how long, who alone, from which age; what one reads of the head of a procedure while it is shut."""

from __future__ import annotations

from collections import Counter

from site_builder.notebook.gather import skills_of
from site_builder.views.age import least_years
from site_builder.views.prose import joined, say
from site_builder.views.scope import ProcedureScope
from site_builder.views.value import amount


def glance(scope: ProcedureScope) -> tuple[str, ...]:
    """A few words each; without links, since all of it is one thing to touch."""
    return tuple(filter(None, (_time(scope), _alone(scope), _age(scope))))


def _time(scope: ProcedureScope) -> str:
    if len(scope.own.time) != 1:
        return ""
    time = scope.own.time[0]
    named = ((time.each, "{} each"), (time.load, "{} a load"), (time.lot, "{} for the lot"),
             (time.setup, "{} to set up"))
    leaves = [(leaf, words) for leaf, words in named if leaf is not None]
    if any(isinstance(leaf, dict) for leaf, _ in leaves):
        return ""
    return joined((say(words, amount(scope, leaf)) for leaf, words in leaves), ", ").plain


def _alone(scope: ProcedureScope) -> str:
    if not skills_of(scope.own):
        return ""
    people = scope.view.analysis.holders.able_to_do(scope.own)
    names = [scope.view.title("person", one) for one in people]
    first = Counter(scope.view.title("person", one).partition(" ")[0] for one in scope.nb.people)
    short = [name.partition(" ")[0] if first[name.partition(" ")[0]] == 1 else name for name in names]
    return f"Alone: {', '.join(short)}" if short else "Nobody alone just now"


def _age(scope: ProcedureScope) -> str:
    years = {least_years(limit) for id_ in skills_of(scope.own) if id_ in scope.nb.skills
             for limit in scope.nb.skills[id_].age if not limit.for_}
    known = sorted(filter(None, years), key=float)
    return f"From {known[-1]} years" if known else ""
