"""What one procedure takes of a material for a batch."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.batch.span import NONE, Span
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.small import MaterialUse


@dataclass(frozen=True, slots=True)
class Taken:
    """The amount in base units, and the line that says it.

    ``back`` is what of it goes back and is used again, as ``share`` tells, ``thrown`` whole pieces among it; ``new``
    is what is needed besides, what burns off among it. Without a ``share`` nothing goes back and all of it is new.
    """

    procedure: str
    use: MaterialUse
    amount: Span
    back: Span = NONE
    new: Span = NONE
    share: Written | None = None
    thrown: int = 0

    @property
    def needed(self) -> Span:
        """What must be there for the batch, besides what comes back of itself."""
        return self.amount if self.share is None else self.new
