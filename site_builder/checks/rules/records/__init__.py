"""Rules on the books: their numbers and dates, whom and what they name, what was made and measured.

Then the law of sign-offs, and the seals that keep the books as they were written."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.records import (
    doers,
    entries,
    law_of_proof,
    law_of_signing,
    readings,
    seals,
)

RULES: tuple[Rule, ...] = (
    *rules_in(entries),
    *rules_in(doers),
    *rules_in(readings),
    *rules_in(seals),
    *rules_in(law_of_signing),
    *rules_in(law_of_proof),
)
