"""Rules on the books: their numbers and dates, whom and what they name, what was made and measured.

Then the law of sign-offs, and the seals that keep the books as they were written.
"""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records import (
    date_ahead,
    date_backward,
    former_taken,
    gauge_late,
    law_evidence,
    law_level,
    law_needs,
    law_proof,
    law_says,
    law_signer,
    law_stale,
    law_withdrawal,
    more_than_made,
    number_gap,
    own_sign_off,
    own_teacher,
    reading_outside,
    reading_unit,
    record_what,
    record_who,
    seal_beside,
    seal_broken,
    seal_none,
    verdict_unknown,
    worked_too_young,
)

RULES: tuple[Rule, ...] = (
    number_gap.RULE,
    date_ahead.RULE,
    date_backward.RULE,
    record_who.RULE,
    record_what.RULE,
    former_taken.RULE,
    own_sign_off.RULE,
    own_teacher.RULE,
    verdict_unknown.RULE,
    more_than_made.RULE,
    worked_too_young.RULE,
    reading_unit.RULE,
    gauge_late.RULE,
    reading_outside.RULE,
    seal_broken.RULE,
    seal_beside.RULE,
    seal_none.RULE,
    law_signer.RULE,
    law_says.RULE,
    law_needs.RULE,
    law_level.RULE,
    law_proof.RULE,
    law_evidence.RULE,
    law_withdrawal.RULE,
    law_stale.RULE,
)
