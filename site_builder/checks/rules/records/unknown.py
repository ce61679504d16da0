"""References out of the books that lead to nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.checks.rules.records.standing import answered
from site_builder.checks.survey import Survey
from site_builder.notebook.model.records import Record
from site_builder.notebook.references import PERSON, Link
from site_builder.notebook.validate import nearest


def lost_links(survey: Survey, *, people: bool) -> Iterator[Link]:
    """References of entries that still stand which lead to nobody (``people``), or else to no thing."""
    notebook = survey.notebook
    gone = answered(notebook)
    for link in survey.references.links:
        if (
            link.target is None
            and isinstance(link.place.owner, Record)
            and (link.kinds == PERSON) is people
            and link.place.owner_id not in gone
            and link.text.split("/")[0] not in notebook.unread
        ):
            yield link


def did_you_mean(survey: Survey, link: Link) -> str:
    """A question with the known id that looks most like the one written; empty where none is known."""
    notebook = survey.notebook
    shelves: Mapping[str, Mapping[str, object]] = {
        "person": notebook.people, "procedure": notebook.procedures, "skill": notebook.skills,
        "tool": notebook.tools, "order": notebook.orders, "change": notebook.changes,
        "path": notebook.procedures, "value": notebook.procedures,
    }
    head, slash, rest = link.text.partition("/")
    shelf = shelves.get(link.kinds[0], {})
    if not shelf or head in shelf:
        return ""
    return f"Did you mean `{nearest(head, shelf)}{slash}{rest}`? "
