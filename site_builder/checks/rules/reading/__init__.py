"""What the reader finds while it loads the files."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.reading import (
    files,
    keys,
)

RULES: tuple[Rule, ...] = (
    *rules_in(files),
    *rules_in(keys),
)
