"""What an inspection becomes after a result: ``After one bad piece check every piece until 10 pass``."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.notebook.model.judging import Check, Shift
from site_builder.quantity import Each, Full, Outcome
from site_builder.views.counts import number
from site_builder.views.prose import Prose, prose, say, sentences
from site_builder.views.scope import Scope

_BAD = {"failed": "bad"}


def shifts(scope: Scope, check: Check) -> Iterator[Prose]:
    """When it is looked at more often, and when less often again: in one sentence where the one undoes the other."""
    passing = _until(check)
    if passing is not None:
        yield say("{} until {} pass", _told(scope, check.tighten[0]), passing)
        return
    for shift in (*check.tighten, *check.relax):
        more = [scope.inline_why(shift), *scope.tail(shift)]
        yield scope.meant(shift, sentences([_told(scope, shift), *more]))


def _until(check: Check) -> str | None:
    """How many must pass before the plan is the full one again, where nothing else is said of either change."""
    if len(check.tighten) != 1 or len(check.relax) != 1:
        return None
    back, full = check.relax[0].after, check.relax[0].when
    if full is None or full.value.items != (Full(),) or back is None or check.tighten[0].when is None:
        return None
    if any(one.model_fields_set - {"at", "after", "when"} for one in (*check.tighten, *check.relax)):
        return None
    if not isinstance(back.value, Outcome) or back.value.count is None or set(back.value.results) - {"good", "clean"}:
        return None
    return back.value.count.text


def _told(scope: Scope, shift: Shift) -> Prose:
    after = prose("a while")
    if shift.after is not None:
        after = _outcome(shift.after.value) if isinstance(shift.after.value, Outcome) else scope.moment(shift.after)
    if shift.when is None:
        return say("After {} check {}", after, scope.untold("not told yet", shift.at))
    items = shift.when.value.items
    if items == (Full(),):
        return say("After {} go back to the full plan", after)
    if len(items) == 1 and isinstance(items[0], Each):
        return say("After {} check every {}", after, items[0].noun)
    return say("After {} check {}", after, scope.cadence(shift.when))


def _outcome(result: Outcome) -> Prose:
    """``one bad piece``, ``20 clean pieces``."""
    count = "each" if result.count is None else result.count.text
    spelt = number(1) if count == "1" else count
    return prose(f"{spelt} {' or '.join(_BAD.get(one, one) for one in result.results)} {result.noun}")
