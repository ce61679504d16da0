"""Rules on texts: what they point at, the figures hidden in them, pictures, sources, data sheets."""

from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts import (
    asked_unread,
    do_figure,
    link_none,
    picture_cleaned,
    picture_huge,
    picture_located,
    picture_missing,
    picture_undescribed,
    picture_unreadable,
    reference_none,
    sheet_none,
    sheet_old,
    source_memory,
    source_unknown,
    story_html,
    story_link,
    story_outside,
    trouble_none,
    word_vague,
)

RULES: tuple[Rule, ...] = (
    reference_none.RULE,
    trouble_none.RULE,
    link_none.RULE,
    story_link.RULE,
    story_outside.RULE,
    story_html.RULE,
    picture_missing.RULE,
    picture_unreadable.RULE,
    picture_huge.RULE,
    picture_located.RULE,
    picture_cleaned.RULE,
    source_unknown.RULE,
    source_memory.RULE,
    sheet_old.RULE,
    do_figure.RULE,
    word_vague.RULE,
    sheet_none.RULE,
    picture_undescribed.RULE,
    asked_unread.RULE,
)
