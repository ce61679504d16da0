"""Rules on texts: what they point at, the figures hidden in them, pictures, sources, data sheets."""

from __future__ import annotations

from site_builder.checks.rule import Rule, rules_in
from site_builder.checks.rules.texts import (
    lost,
    pictures,
    sources,
    stories,
    words,
)

RULES: tuple[Rule, ...] = (
    *rules_in(lost),
    *rules_in(stories),
    *rules_in(pictures),
    *rules_in(sources),
    *rules_in(words),
)
