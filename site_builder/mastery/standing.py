"""Which sign-offs stand, and what each of them showed: the book read with its corrections."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from site_builder.notebook.model.records import SignOff
from site_builder.notebook.notebook import Notebook


def taken_back(notebook: Notebook, today: date) -> Mapping[int, SignOff]:
    """Numbers of entries that a later one withdraws or corrects, with that later entry."""
    found: dict[int, SignOff] = {}
    for entry in notebook.sign_offs:
        for earlier in (entry.withdraws, entry.corrects):
            if earlier is not None and earlier.isdigit() and past(entry, today):
                found[int(earlier)] = entry
    return found


def standing(notebook: Notebook, today: date) -> Iterator[SignOff]:
    """The entries that hold on a day: not in the future, not taken back, and not a mere withdrawal."""
    gone = taken_back(notebook, today)
    for entry in notebook.sign_offs:
        if entry.number not in gone and entry.withdraws is None and past(entry, today):
            yield entry


def shown_items(notebook: Notebook, today: date) -> Mapping[tuple[str, str, str], SignOff]:
    """(learner, skill, checklist item) to the first standing entry that says it was shown."""
    found: dict[tuple[str, str, str], SignOff] = {}
    for entry in standing(notebook, today):
        for item in entry.items:
            found.setdefault((str(entry.learner), str(entry.skill), str(item)), entry)
    return found


def past(entry: SignOff, today: date) -> bool:
    """Whether an entry is of this day or an earlier one; an undated one is."""
    return entry.date is None or entry.date.value.first <= today
