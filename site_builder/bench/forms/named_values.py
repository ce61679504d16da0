"""Values that stand bare under a name, as ``of: {sole: 1}``: as if each were an entry of one key."""

from __future__ import annotations

from typing import ClassVar

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import Amount, Count, Words


class BareValue(Entry):
    """What stands bare under a name; it never becomes longer."""

    MAIN: ClassVar[str] = "value"


class BareWords(BareValue):
    """Words under a name."""

    value: Words
    """What it is."""


class BareCount(BareValue):
    """A number under a name."""

    value: Count
    """How many."""


class BareAmount(BareValue):
    """An amount under a name."""

    value: Amount
    """How much."""
