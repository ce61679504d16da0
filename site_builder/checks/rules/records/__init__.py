"""Rules on the books: their numbers and dates, whom and what they name, what was made and measured.

The law of sign-offs and the seals are not here.
"""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records import (
    date_backward,
    gauge_late,
    more_than_made,
    number_gap,
    own_sign_off,
    own_teacher,
    reading_outside,
    reading_unit,
    record_what,
    record_who,
)

RULES: tuple[Rule, ...] = (
    number_gap.RULE,
    date_backward.RULE,
    record_who.RULE,
    record_what.RULE,
    own_sign_off.RULE,
    own_teacher.RULE,
    more_than_made.RULE,
    reading_unit.RULE,
    gauge_late.RULE,
    reading_outside.RULE,
)
