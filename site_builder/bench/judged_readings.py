"""A reading held against its limit while it is being entered, in the words of the notebook's own judge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from site_builder.analysis.analysis import Analysis
from site_builder.cli.entering import Refused, read_draft
from site_builder.notebook.model.records import Measurement
from site_builder.notebook.names import NamedValue, values_of
from site_builder.quantity import for_people
from site_builder.skills.entry_text import Unwritable
from site_builder.skills.readings import Outcome, cells_of
from site_builder.views.notebook_view import NotebookView
from site_builder.views.scope import scope_of
from site_builder.views.value import shown_value


@dataclass(frozen=True, slots=True)
class Against:
    """What is said of a reading: inside, outside, or why that cannot be said; and what the limit says."""

    text: str = ""
    outcome: str = ""
    """``kept``, ``outside``, ``unknown`` or, where it could not be read, ``unread``."""
    why: str = ""
    limit: tuple[str, ...] = ()


def against(views: NotebookView, measured: str, readings: Sequence[str], who: str) -> Against:
    """Judge the last of some readings. Nothing is written."""
    survey = views.analysis
    fields = {"who": who, "date": survey.today.isoformat(), "measured": measured, "readings": [*readings]}
    try:
        record, found = read_draft(survey, "measurement", fields if readings else {
            key: value for key, value in fields.items() if key != "readings"})
    except (Refused, Unwritable) as problem:
        return Against(readings[-1] if readings else "", "unread", str(problem))
    assert isinstance(record, Measurement)
    limit = _limit(survey, measured)
    told = _told(views, limit) if limit is not None else ()
    if limit is None or not record.readings:
        wrong = next((one.message for one in found), "")
        return Against(readings[-1] if readings else "", "unknown" if readings else "", wrong, told)
    judged = survey.judge.judge_reading(record.readings[-1], record, limit)
    outcome = {Outcome.KEPT: "kept", Outcome.OUTSIDE: "outside"}.get(judged.outcome, "unknown")
    return Against(for_people(record.readings[-1].value).main, outcome, judged.why, told)


def _told(views: NotebookView, limit: NamedValue) -> tuple[str, ...]:
    """What is asked for, as the page of that work says it."""
    found = ((cell, views.place_of(cell)) for cell, _ in cells_of(limit))
    scope = scope_of(views, limit.entry)
    return tuple(shown_value(scope, cell.written, place).main.plain for cell, place in found
                 if cell.written is not None and place is not None)


def _limit(survey: Analysis, measured: str) -> NamedValue | None:
    """The value that the books name so: `procedure/step/name`, or `procedure/name` for one of the whole procedure."""
    id_, _, rest = measured.partition("/")
    procedure = survey.notebook.procedures.get(id_)
    if procedure is None:
        return None
    step, _, name = rest.rpartition("/")
    found = [one for one in values_of(procedure, "procedure") if one.name == name and (
        str(one.step.id) == step if one.step is not None and step else one.step is None and not step)]
    return found[0] if len(found) == 1 else None
