"""What a rule is: a code, a level, why it matters, an example that passes and one that fails."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.finding import Found, Level

Check = Callable[[Analysis], Iterable[Found]]


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the catalogue.

    ``passes`` and ``fails`` are small notebooks: files introduced by ``=== path`` lines. In ``fails`` the
    sign ``▸`` stands before each letter at which the finding is expected. Both are run by the tests and
    shown by ``benchlore explain`` and in the handbook. ``fails`` is empty only where no notebook brings
    it about.

    ``check`` is None for what the reader itself finds while it loads the files.
    """

    code: str
    level: Level
    summary: str
    reason: str
    passes: str
    fails: str
    check: Check | None = None
