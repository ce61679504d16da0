"""What a rule is: a code, a level, why it matters, and an example that passes or fails by a line."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from types import ModuleType

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.finding import Found, Level

Check = Callable[[Analysis], Iterable[Found]]

ONLY_PASSING, ONLY_FAILING, MARK = "✓ ", "✗ ", "▸"


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the catalogue.

    ``example`` is a small notebook, its files introduced by ``=== path`` lines. A line that begins with ``✓`` stands
    only in the one that passes, with ``✗`` only in the one that fails. In that one the sign ``▸`` stands before each
    letter at which the finding is expected. Both are run by the tests and shown by ``benchlore explain`` and in the
    handbook. Where no notebook brings a finding about, every line begins with ``✓``.

    ``check`` is None for what the reader itself finds while it loads the files.
    """

    code: str
    level: Level
    summary: str
    reason: str
    example: str
    check: Check | None = None

    @property
    def passes(self) -> str:
        """The notebook in which nothing is found."""
        lines = (line for line in self.example.split("\n") if not line.startswith(ONLY_FAILING))
        return "\n".join(line.removeprefix(ONLY_PASSING).replace(MARK, "") for line in lines)

    @property
    def fails(self) -> str:
        """The notebook in which it is found, with the marks."""
        lines = (line for line in self.example.split("\n") if not line.startswith(ONLY_PASSING))
        return "\n".join(line.removeprefix(ONLY_FAILING) for line in lines)


def rules_in(module: ModuleType) -> tuple[Rule, ...]:
    """The rules that a module of one topic defines, in their order."""
    return tuple(value for value in vars(module).values() if isinstance(value, Rule))
