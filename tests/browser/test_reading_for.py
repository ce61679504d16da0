"""Reading a page for one variant: only what holds for it is shown and printed."""

from pathlib import Path

from playwright.sync_api import BrowserContext, Page
from sitecheck import opened

from site_builder.handbook.theme import reading_rules

OIL, ASH = "For oil leave the rim thick.", "Ash only: across the rings."
PEAR_AND_OIL = "Leave it overnight."


def seen(page: Page) -> set[str]:
    return {words for words in (OIL, ASH, PEAR_AND_OIL) if page.get_by_text(words).is_visible()}


def test_a_choice_hides_what_holds_for_others(context: BrowserContext, sample_site: Path) -> None:
    with opened(context, sample_site / "the-work" / "every-part.html") as (page, _):
        assert seen(page) == {OIL, ASH, PEAR_AND_OIL}
        page.get_by_label("waxed bowls").check()
        assert seen(page) == {ASH}
        page.get_by_label("oiled bowls").check()
        page.get_by_label("ash", exact=True).check()
        assert seen(page) == {OIL, ASH}  # the block for oil and pear needs both


def test_the_printed_page_names_the_choice_and_leaves_the_others_out(
    context: BrowserContext, sample_site: Path
) -> None:
    with opened(context, sample_site / "the-work" / "every-part.html") as (page, _):
        page.get_by_label("pear and plum").check()
        page.emulate_media(media="print")
        assert page.get_by_text("pear and plum", exact=True).is_visible()
        assert not page.get_by_text("every wood").is_visible()
        assert seen(page) == {OIL, PEAR_AND_OIL}


def test_values_of_a_shop_cannot_break_out_of_the_rule() -> None:
    from site_builder.handbook.theme import environment

    page = environment().from_string(
        '{% import "components.j2" as b %}{{ b.reading("x", [(\'"]{}</style><script>\', "words")], "all") }}'
    )
    rules = reading_rules(page.render())
    assert rules.count("<") == 2  # the style element and no other
    assert '[value="style-script"]' in rules


def test_a_page_without_a_choice_gets_no_rule() -> None:
    assert reading_rules("<p>Nothing to choose.</p>") == ""
