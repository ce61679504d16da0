"""What can hurt: the edges of the rules that their own two examples do not show."""

from __future__ import annotations

from pathlib import Path

from test_rules import findings_of


def codes(example: str, folder: Path) -> list[str]:
    return [finding.code for finding in findings_of(example, folder)]


FLYING_GRIT = """\
    hazards:
      - {hazard: flying grit, word: warning, harm: It goes into the eye., avoid: Stand beside the belt.}
"""


def test_protection_of_the_group_holds_for_its_members(tmp_path: Path) -> None:
    example = """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
hazards:
  - {hazard: flying grit, word: warning, harm: It goes into the eye., avoid: Stand beside the belt.}
=== tools/machines/grinders.yml
machine: grinders
title: All that grind
members: [belt-grinder]
wear: eye-shield
=== tools/protection/eye-shield.yml
protection: eye-shield
title: Eye shield
"""
    assert "hazard-unprotected" not in codes(example, tmp_path)
    assert "machine-harmless" not in codes(example, tmp_path)


def test_what_is_worn_for_the_work_protects_in_the_shared_steps_it_uses(tmp_path: Path) -> None:
    shared = f"""\
=== procedures/shared/dress-the-belt.yml
procedure: dress-the-belt
title: Dress the belt
steps:
  - do: Hold the stick to the belt.
{FLYING_GRIT}"""
    using = """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-grinder
steps: [{use: dress-the-belt}, Sweep it along the belt.]
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
wear: eye-shield
=== tools/protection/eye-shield.yml
protection: eye-shield
title: Eye shield
"""
    assert "hazard-unprotected" in codes(shared, tmp_path / "alone")
    assert "hazard-unprotected" not in codes(shared + using, tmp_path / "used")


def test_no_protection_is_asked_for_where_none_is_sold(tmp_path: Path) -> None:
    example = """\
=== tools/materials/packing-wool.yml
material: packing-wool
title: Packing wool
hazards:
  - {hazard: fire, word: warning, harm: It burns like straw., avoid: Not one bale more than the day needs.}
"""
    assert "hazard-unprotected" not in codes(example, tmp_path)


def test_a_note_says_why_nothing_is_worn(tmp_path: Path) -> None:
    example = """\
=== tools/machines/lathe.yml
machine: lathe
title: Lathe
hazards:
  - hazard: caught sleeve
    word: danger
    harm: It winds the arm in.
    avoid: Sleeves above the elbow.
    note: Nothing worn helps; a glove makes it worse.
"""
    assert "hazard-unprotected" not in codes(example, tmp_path)


def test_protection_asked_for_through_its_group_is_in_use(tmp_path: Path) -> None:
    example = """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
wear: masks
=== tools/protection/masks.yml
protection: masks
title: Masks
members: [dust-mask]
=== tools/protection/dust-mask.yml
protection: dust-mask
title: Dust mask
"""
    assert "protection-unused" not in codes(example, tmp_path)


def test_one_question_after_a_burn_however_many_things_burn(tmp_path: Path) -> None:
    shop = """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
accident: Call 112.
"""
    machine = """\
=== tools/machines/{0}.yml
machine: {0}
title: {0}
hazards:
  - {{hazard: splash, word: danger, harm: Molten metal burns to the bone., avoid: Nothing damp near it.}}
"""
    example = shop + machine.format("furnace") + machine.format("ladle-heater")
    asked = [f for f in findings_of(example, tmp_path) if f.code == "accident-unsaid"]
    assert [f.at.path for f in asked] == ["tools/machines/furnace.yml"]
    assert "after a burn" in asked[0].message


def test_a_shop_without_advice_is_asked_once_and_as_a_whole(tmp_path: Path) -> None:
    example = """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
=== tools/machines/furnace.yml
machine: furnace
title: Furnace
hazards:
  - {hazard: splash, word: danger, harm: Molten metal burns to the bone., avoid: Nothing damp near it.}
"""
    asked = [f for f in findings_of(example, tmp_path) if f.code == "accident-unsaid"]
    assert [f.at.path for f in asked] == ["procedures/shop.yml"]


def test_nothing_is_concluded_while_a_file_cannot_be_read(tmp_path: Path) -> None:
    example = """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
=== tools/protection/eye-shield.yml
protection: eye-shield
title: Eye shield
=== tools/machines/grinders.yml
machine: grinders
hazards: [{
"""
    found = codes(example, tmp_path)
    assert "yaml-broken" in found
    assert not {"machine-harmless", "protection-unused"} & set(found)


def test_a_word_written_down_as_unknown_is_not_asked_for_twice(tmp_path: Path) -> None:
    example = """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    hazards: {hazard: abrasion, word: ask, avoid: Hold the foot by its rim.}
    never: {do: Stand in line with the belt., because: ask}
"""
    assert not {"hazard-unworded", "never-unexplained"} & set(codes(example, tmp_path))
