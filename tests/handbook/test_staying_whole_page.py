"""Staying whole: the law first, then first aid, then everything in the shop that can hurt, each once."""

from pathlib import Path

from expectation import book_of, book_written, expect, page

from site_builder.handbook.pages.staying_whole import whole_pages
from site_builder.handbook.site import WHOLE


def test_the_page_as_it_was_found_good() -> None:
    expect(page(whole_pages, book_of("hand-bell"), WHOLE), "staying-whole")


def test_the_law_stands_before_everything_else() -> None:
    html = page(whole_pages, book_of("hand-bell"), WHOLE).html
    assert html.index("The law where you work goes first.") < html.index("<h2")


def test_where_nobody_wrote_what_to_do_first_the_page_says_so(tmp_path: Path) -> None:
    html = page(whole_pages, book_written("=== procedures/shop.yml\nshop: s\ntitle: S\n", tmp_path), WHOLE).html
    assert "call the emergency number" in html
    assert "not yet told" in html


SAWS = """\
=== tools/machines/band-saw.yml
machine: band-saw
title: Band saw
hazards:
  - {hazard: noise, word: warning, harm: It deafens., avoid: Defenders on.}
  - {hazard: blade, word: danger, harm: It takes a finger., avoid: Push stick.}
=== tools/machines/frame-saw.yml
machine: frame-saw
title: Frame saw
age: min 18 y
hazards:
  - {hazard: Noise, word: warning, harm: It deafens., avoid: Defenders on.}
  - {hazard: oily floor, word: notice, harm: Boards get stained., avoid: Wipe it.}
"""


def test_what_can_hurt_stands_whole_at_each_machine_the_gravest_first(tmp_path: Path) -> None:
    html = page(whole_pages, book_written(SAWS, tmp_path), WHOLE).html
    band, frame = html.index('id="at-band-saw"'), html.index('id="at-frame-saw"')
    assert "It deafens." in html[band:frame]
    assert "It deafens." in html[frame:]
    assert html.index("<strong>DANGER</strong>", band) < html.index("<strong>WARNING</strong>", band) < frame


WORK = """\
=== procedures/shop.yml
shop: s
title: S
=== procedures/board/saw-board.yml
procedure: saw-board
title: Saw the board
tools: [band-saw, jig]
materials: oak
steps:
  - do: Saw it.
    hazards: {hazard: kick, word: danger, harm: The board comes back., avoid: Stand aside.}
=== procedures/board/oil-board.yml
procedure: oil-board
title: Oil the board
skill: oiling
tools: brush
materials: oil
steps: [Oil it.]
=== skills/oiling.yml
skill: oiling
title: Oiling
=== tools/tooling/jig.yml
tooling: jig
title: Jig
hazards: {hazard: slip, word: danger, family: what the blade throws, harm: It flies., avoid: Clamp it.}
=== tools/hand/brush.yml
hand-tool: brush
title: Brush
where: Hook beside the [[band-saw]]
hazards: {hazard: bristle, word: caution, harm: It pricks., avoid: Gloves.}
=== tools/materials/oak.yml
material: oak
title: Oak
hazards:
  {hazard: oak dust, word: warning, harm: It harms the nose., avoid: A mask and the fan., brief: {avoid: Fan on.}}
=== tools/materials/oil.yml
material: oil
title: Oil
hazards: {hazard: oily rags, word: danger, family: what burns, harm: They catch fire by themselves., avoid: Into water.}
""" + SAWS.replace("word: danger,", "word: danger, family: what the blade throws,")


def test_what_comes_with_a_tool_or_a_material_stands_at_the_machine_where_it_is_used(tmp_path: Path) -> None:
    html = page(whole_pages, book_written(WORK, tmp_path), WHOLE).html
    at = html.index('id="at-band-saw"')
    saw, craft = html[at:html.index("</details>", at)], html[html.index('id="at-oiling"'):]
    for words in ("The board comes back.", "It flies.", "It harms the nose.", "A mask and the fan.", "It pricks."):
        assert words in saw, words
    assert "They catch fire by themselves." in craft


def test_a_shut_place_names_the_danger_and_how_to_avoid_a_warning_in_few_words(tmp_path: Path) -> None:
    html = page(whole_pages, book_written(WORK, tmp_path), WHOLE).html
    at = html.index('id="at-band-saw"')
    shut = html[at:html.index("</summary>", at)]
    assert "<b>DANGER</b> blade, slip, kick" in shut
    assert "<i>Oak dust</i> → Fan on." in shut
    assert "<i>Noise</i> → Defenders on." in shut  # nobody wrote fewer words


def test_dangers_of_one_family_are_one_card_with_each_cure(tmp_path: Path) -> None:
    html = page(whole_pages, book_written(WORK, tmp_path), WHOLE).html
    card = html[html.index('id="kills-what-the-blade-throws"'):]
    card = card[:card.index("</div>")]
    assert "Push stick. Clamp it." in card
    assert 'href="#at-band-saw"' in card
    assert html.count('id="kills-') == 3  # the family of two, the kick, the rags


def test_words_written_in_a_hurry_do_not_run_together(tmp_path: Path) -> None:
    hurried = SAWS.replace("harm: It takes a finger., avoid: Push stick.", "harm: takes a finger, avoid: push stick")
    html = page(whole_pages, book_written(hurried, tmp_path), WHOLE).html
    assert "<b>Blade.</b> Takes a finger. " in html
    assert "Push stick." in html


def test_what_harms_the_work_alone_stands_elsewhere(tmp_path: Path) -> None:
    assert "stained" not in page(whole_pages, book_written(SAWS, tmp_path), WHOLE).html


def test_who_is_too_young() -> None:
    """The lathe asks for 16 years and casting for 18; the younger line comes first."""
    html = page(whole_pages, book_of("hand-bell"), WHOLE).html
    under_16, under_18 = html.index(">Under 16<"), html.index(">Under 18<")
    assert under_16 < html.index("lathe.html", under_16) < under_18 < html.index("casting.html", under_18)
