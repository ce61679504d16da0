"""References out of the books that lead to nothing."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.records.standing import answered
from site_builder.checks.rules.texts.wanted import did_you_mean, may_be_unread
from site_builder.notebook.model.records import Record
from site_builder.notebook.reference_keys import PERSON, PROCEDURE
from site_builder.notebook.references import Link
from site_builder.skills.entry_dates import MEND


def lost_links(analysis: Analysis, *, people: bool) -> Iterator[tuple[Link, str]]:
    """References of entries that still stand which lead to nobody (``people``), or else to no thing.

    With each comes what to do about it.
    """
    gone = answered(analysis.notebook)
    for link in analysis.references.links:
        entry = link.place.owner
        if (
            link.target is None
            and isinstance(entry, Record)
            and (link.kinds == PERSON) is people
            and link.place.owner_id not in gone
            and not may_be_unread(analysis, link.text, link.kinds)
        ):
            kinds = PROCEDURE if link.kinds in (("value",), ("path",)) else link.kinds
            yield link, did_you_mean(analysis, link.text, kinds) + MEND.format(entry.number)
