"""Where an entry hangs, also when a page tells a copy of it with some keys left out."""

from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure
from site_builder.views.notebook_view import NotebookView
from site_builder.views.scope import Scope

BELL = Path(__file__).parent.parent / "notebooks" / "hand-bell"


def test_a_copy_hangs_where_the_entry_does_from_which_it_was_made() -> None:
    read = analysis(BELL, date(2026, 11, 24))
    view = NotebookView(read)
    in_steps = [place for _, place in read.index.under(Limit) if place.step is not None]
    assert in_steps
    for place in in_steps:
        assert isinstance(place.owner, Procedure)
        scope = Scope(view, place.owner, "procedure", place.owner_id)
        copied = place.entry.with_changes(note=None).with_changes(source=None)
        assert copied is not place.entry
        assert scope.place(copied) is place


def test_what_was_worked_out_of_an_entry_is_not_handed_to_its_copy() -> None:
    own = analysis(BELL, date(2026, 11, 24)).notebook.procedures["cast-bell"]
    assert len(own.steps_by_id) > 0
    assert own.with_changes(steps=()).steps_by_id == {}
    assert own.with_changes(title=own.title) == own
