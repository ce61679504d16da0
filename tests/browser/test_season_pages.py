"""The season on a phone: what one person does this week fits one screen."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import BrowserContext


def test_the_season_is_short_on_a_phone_and_a_week_of_one_person_fits_one_screen(
    book: Path, context: BrowserContext
) -> None:
    page = context.new_page()
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto((book / "the-season/index.html").as_uri())
    assert page.evaluate("document.querySelector('.bl-lede').getBoundingClientRect().bottom") < 740
    weeks = sorted((book / "the-season/weeks").glob("*.html"))
    assert len(weeks) == 4
    for week in weeks:
        page.goto(week.as_uri())
        assert page.evaluate("document.querySelector('.bl-days').getBoundingClientRect().bottom") < 740, week.stem
        ends = page.evaluate("""() => [...document.querySelectorAll('.bl-fold')].map(one => {
          one.open = true; return one.getBoundingClientRect().height; })""")
        assert ends, week.stem
        assert max(ends) < 740, week.stem
