"""What was told: transcripts, moments, and whose voice may be played."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.tellings import (
    cue_none,
    telling_file_none,
    told_none,
    told_outside,
    transcript_broken,
    voice_unasked,
)

RULES: tuple[Rule, ...] = (
    transcript_broken.RULE,
    telling_file_none.RULE,
    cue_none.RULE,
    told_none.RULE,
    told_outside.RULE,
    voice_unasked.RULE,
)
