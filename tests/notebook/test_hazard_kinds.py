"""Kinds of hazard: one table, from which first aid and protection are asked for."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.notebook.hazard_kinds import HAZARD_KINDS, HazardKind, can_be_worn_against, injuries_in

SHOP = """\
=== procedures/shop.yml
shop: tannery
title: The tannery
accident: Call 112.
=== tools/machines/drum.yml
machine: drum
title: Liming drum
hazards:
  - hazard: the liquor splashes
    word: danger
    harm: It eats through.
    avoid: Lid on.
    kind: KIND
"""


def asked(kind: str, folder: Path) -> list[str]:
    write_example(SHOP.replace("KIND", kind), folder)
    return [f.message for f in examine(analysis(folder, date(2026, 3, 2))) if f.code == "accident-unsaid"]


def test_a_hazard_that_says_its_kind_is_asked_after(tmp_path: Path) -> None:
    assert asked("[]", tmp_path) == []
    assert asked("corrosive", tmp_path) == [
        "What is done first after something corrosive on the skin? “the liquor splashes” can lead to it."]
    assert len(asked("[corrosive, eye]", tmp_path)) == 2


def test_a_kind_that_is_none_is_told(tmp_path: Path) -> None:
    write_example(SHOP.replace("KIND", "korrosive"), tmp_path)
    found = [f for f in examine(analysis(tmp_path, date(2026, 3, 2))) if f.code == "word-unknown"]
    assert [f.at.line for f in found] == [8] and "corrosive" in found[0].fix


@pytest.mark.parametrize("kind", HAZARD_KINDS, ids=lambda kind: kind.word)
def test_what_is_said_goes_before_what_the_words_tell(kind: HazardKind) -> None:
    assert [*injuries_in(["molten lye in the eye"], [kind.word])] == ([kind.injury] if kind.injury else [])
    assert can_be_worn_against("it strikes the hand", [kind.word]) is kind.is_worn_against
