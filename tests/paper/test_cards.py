"""Cards: one sheet each, with every danger and limit; and the codes by which they are known again."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.cli.main import cli
from site_builder.paper.cards import Cards, make_cards
from site_builder.paper.outdated import codes_in, looked_over
from tests.paper.conftest import NOTEBOOKS, TODAY, opened
from tests.paper.reading import read_aloud, words_on

SHOP = """=== procedures/shop.yml
shop: turnery
title: The turnery
parts:
  bowl: Bowl
=== procedures/bowl/turn-bowl.yml
procedure: turn-bowl
title: Turn the bowl
part: bowl
because: It is what people buy.
hazards:
  - hazard: Flying wood
    word: danger
    harm: It takes an eye.
    avoid: Shield down, nobody in line.
steps:
  - do: Set the speed.
    because: A fast rough blank jumps off.
    settings:
      speed: 600..900 rev/min
  - do: Turn the outside.
    limits:
      wall:
        is: 6 ±1 mm
        check: each
        below: It cracks. Scrap it.
        above: Take one more cut.
"""


def shop(folder: Path, text: str = SHOP) -> Analysis:
    write_example(text, folder)
    return analysis(folder, TODAY)


def laid(made: Cards, folder: Path) -> Path:
    assert made.printed is not None
    file = folder / "card.pdf"
    file.write_bytes(made.printed.data)
    return file


def test_a_card_tells_dangers_settings_and_limits_and_leaves_reasons_to_the_book(tmp_path: Path) -> None:
    made = make_cards(shop(tmp_path), ["turn-bowl"])
    told = "\n".join(read_aloud(laid(made, tmp_path)))
    for words in ("DANGER", "Flying wood. It takes an eye. Shield down, nobody in line.", "600 to 900", "6 ±1 mm",
                  "It cracks. Scrap it.", "Take one more cut."):
        assert words in told
    assert "jumps off" not in told
    assert [(card.procedure, card.sides, card.shortened) for card in made.cards] == [("turn-bowl", 1, False)]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_card_of_a_shop_takes_one_sheet_and_no_word_leaves_it(tmp_path: Path, paper: str) -> None:
    known = analysis(NOTEBOOKS / "trades/dyehouse", TODAY)
    made = make_cards(known, [*known.notebook.procedures], paper="a4" if paper == "a4" else "letter")
    assert not made.refused and {card.sides for card in made.cards} <= {1, 2}
    file = laid(made, tmp_path)
    with opened(file) as pdf:
        wide, high = (float(side) for side in pdf.pages[0].mediabox[2:])
        assert len(pdf.pages) >= len(made.cards)
    out = [word for _, (left, top, right, bottom), word in words_on(file)
           if left < 28 or right > wide - 28 or top < 20 or bottom > high - 20]
    assert out == []
    smallest = min(bottom - top for _, (_, top, _, bottom), word in words_on(file) if len(word) > 3)
    assert smallest >= 7.5


def test_a_card_that_cannot_fit_names_the_step_that_makes_it_too_long(tmp_path: Path) -> None:
    points = "".join(f"      - Look at place {n} of the rim, slowly and with the lamp low.\n" for n in range(260))
    long = SHOP + f"  - do: Look at the whole rim.\n    points:\n{points}"
    made = make_cards(shop(tmp_path, long), ["turn-bowl"])
    assert made.printed is None
    assert "Step 3 takes the most room: “Look at the whole rim.”" in made.refused[0].why
    assert "a card has two" in made.refused[0].why


def test_what_has_no_room_goes_to_the_book_with_its_page_and_dangers_never(tmp_path: Path) -> None:
    troubles = "".join(f"  - sign: Fault number {n}\n    cause: Cause number {n}, which is long to tell\n"
                       f"    do: Mend it, number {n}.\n" for n in range(115))
    made = make_cards(shop(tmp_path, f"{SHOP}troubles:\n{troubles}"), ["turn-bowl"])
    told = "\n".join(read_aloud(laid(made, tmp_path)))
    assert made.cards[0].shortened and made.cards[0].sides == 2
    assert "It takes an eye." in told and "It cracks. Scrap it." in told
    assert "Cause number 3," not in told
    assert "stand in the book of 25 November 2026 (A4), page " in told


def test_the_code_of_a_card_changes_with_what_stands_on_it_and_with_nothing_else(tmp_path: Path) -> None:
    first = shop(tmp_path / "a")
    code = make_cards(first, ["turn-bowl"]).cards[0].code
    other_reason = shop(tmp_path / "b", SHOP.replace("A fast rough blank jumps off.", "It is safer."))
    other_limit = shop(tmp_path / "c", SHOP.replace("6 ±1 mm", "7 ±1 mm"))
    other_danger = shop(tmp_path / "d", SHOP.replace("It takes an eye.", "It kills."))
    assert [one.holds for one in looked_over(other_reason, [code])] == [True]
    for changed in (other_limit, other_danger):
        [found] = looked_over(changed, [code])
        assert not found.holds and found.procedure == "turn-bowl" and found.now != code


def test_a_list_of_what_hangs_on_the_wall_may_have_anything_beside_the_codes(tmp_path: Path) -> None:
    known = shop(tmp_path)
    code = make_cards(known, ["turn-bowl"]).cards[0].code
    listed = f"# by the lathe\n{code.lower()}  Turn the bowl\n\nby the door: {code}, AAA-AAA-AAA\n"
    found = list(looked_over(known, codes_in(listed)))
    assert [one.holds for one in found] == [True, True, False]
    assert "of another shop" in found[2].problem or "is no code" in found[2].problem


def test_the_command_names_the_cards_on_the_wall_that_no_longer_hold(tmp_path: Path) -> None:
    known = shop(tmp_path)
    code = make_cards(known, ["turn-bowl"]).cards[0].code
    wall = tmp_path / "wall.txt"
    wall.write_text(f"{code}  by the lathe\n", "utf-8")
    asked = ["print", "--outdated", str(wall), "-n", str(tmp_path), "--today", TODAY.isoformat()]
    told = CliRunner().invoke(cli, asked)
    assert told.exit_code == 0 and "1 of 1 card holds." in told.output
    work = tmp_path / "procedures/bowl/turn-bowl.yml"
    work.write_text(work.read_text("utf-8").replace("6 ±1 mm", "7 ±1 mm"), "utf-8")
    told = CliRunner().invoke(cli, asked)
    assert told.exit_code == 1 and "0 of 1 card holds." in told.output
    assert f"{code}: Turn the bowl (turn-bowl) was changed since. Take it down and print it anew" in told.output
