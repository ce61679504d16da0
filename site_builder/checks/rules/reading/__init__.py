"""What the reader finds while it loads the files."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.reading import key_unknown

RULES: tuple[Rule, ...] = (key_unknown.RULE,)
