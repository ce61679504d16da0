"""Which days of the notebook have happened when they are written down, and which may lie ahead.

Every key that holds a day stands in one of the two; a test asks for it when a new key is added.
"""

from __future__ import annotations

HAPPENED = frozenset({
    ("Person", "born"), ("Person", "joined"), ("Paper", "date"), ("Saying", "date"), ("Time", "date"),
    ("Yield", "date"), ("Calibration", "date"), ("Upkeep", "date"), ("Revision", "date"), ("Sheet", "date"),
    ("SourceNote", "date"), ("Change", "date"), ("Material", "opened"),
    ("Season", "date"), ("Telling", "date"),
})  # fmt: skip
"""By the entry and its key: nobody writes these down before they are past."""

AHEAD = frozenset({
    ("Order", "due"), ("Calendar", "closed"), ("Person", "left"), ("Person", "absent"),
    ("Order", "not before"), ("Season", "starts"), ("Season", "due"), ("Season", "ends"), ("Season", "bound"),
    ("Season", "nine of ten"), ("Season", "latest"), ("PlannedStint", "date"), ("Pin", "date"),
    ("DecidedLesson", "date"),
    ("Record", "date"),  # the books have a law of their own
})  # fmt: skip
"""Days that may lie ahead."""
