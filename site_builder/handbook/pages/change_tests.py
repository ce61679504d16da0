"""What the figures of a change mean: the difference, how sure it is, and what it costs a batch."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.notebook.model.shop import Change, Result
from site_builder.skills.changed import failures, shifts, times_of_one
from site_builder.skills.proof.wording import tell_batch, tell_failures, tell_values
from site_builder.views.docket import Batch, pieces_of
from site_builder.views.path import named_value
from site_builder.views.prose import Prose, say
from site_builder.views.typeset import typeset


def result_told(people_index: PeopleIndex, name: str, result: Result, change: Change, batch: Batch | None) -> str:
    """What a result means; empty where its figures cannot be tested."""
    counted = failures(result)
    if counted is not None:
        return typeset(tell_failures(counted, ""))
    times = times_of_one(name, result)
    pieces = _batch(people_index, change, batch)
    return typeset(tell_batch(*times, pieces)) if times is not None and pieces else ""


def shifts_told(people_index: PeopleIndex, context: PageContext, change: Change) -> Iterator[Prose]:
    """What the values that the change cites tell."""
    for one in shifts(people_index.evidence_book, change):
        if one.unit == "min" and one.what in people_index.book.notebook.procedures:
            what = f"the time a piece at {context.title('procedure', one.what)}"
        else:
            what = named_value(context.book.views, one.what).plain
        yield say("{}", typeset(tell_values(one.moved, what, one.unit)))


def _batch(people_index: PeopleIndex, change: Change, batch: Batch | None) -> int | None:
    nb = people_index.book.notebook
    found = (pieces_of(nb, nb.procedures[str(one)], batch) for one in change.covers if str(one) in nb.procedures)
    return next((pieces for pieces in found if pieces), None)
