"""Still unwritten: the sheet of questions."""

from dataclasses import replace

import pytest
from expectation import book_of, expect, page
from markupsafe import Markup

from site_builder.checks.interview import Question, Sitting
from site_builder.handbook.book import UNWRITTEN, Book, Sheet
from site_builder.handbook.pages import unwritten
from site_builder.handbook.pages.unwritten import unwritten_sheets
from site_builder.notebook.finding import At

HOOK = "procedures/hook/bend-hook.yml"
SAID = (("petra", "30 mm"), ("arvid", "32 mm"))
SITTINGS = (
    Sitting(
        ("petra",), "bend-hook", "Bend the hook",
        (
            Question("Why six blows & not eight?", "A reason outlives a figure.", At(HOOK, 9, 5), "bend-hook", "x"),
            Question("How wide is it?", "", At(HOOK, 11, 23), "bend-hook", "y", SAID),
        ),
        ("What would you see first if it went wrong?",),
    ),
    Sitting((), "flat-bar", "Flat bar", (Question("Where from?", "", At("tools/x.yml", 2, 1), "flat-bar", "z"),), ()),
)


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> Sheet:
    monkeypatch.setattr(unwritten, "interview", lambda *_: SITTINGS)
    return page(unwritten_sheets, book_of("hook-forge"), UNWRITTEN)


def test_the_page_as_it_was_found_good(made: Sheet) -> None:
    expect(made, "still-unwritten")


def test_a_question_leads_to_the_step_that_waits_for_it(made: Sheet) -> None:
    """The step itself, and a value within it."""
    assert made.html.count('<a href="the-work/hook/bend-hook.html#bend">Bend the hook, step 2</a>') == 2


def test_the_anchor_is_the_one_that_pages_link_to(made: Sheet) -> None:
    assert 'id="q-procedures-hook-bend-hook-yml-9"' in made.html


def test_two_questions_of_one_line_have_two_anchors(monkeypatch: pytest.MonkeyPatch) -> None:
    question = SITTINGS[0].questions[0]
    twice = replace(SITTINGS[0], questions=(question, question))
    monkeypatch.setattr(unwritten, "interview", lambda *_: (twice,))
    html = page(unwritten_sheets, book_of("hook-forge"), UNWRITTEN).html
    assert 'id="q-procedures-hook-bend-hook-yml-9"' in html
    assert 'id="q-procedures-hook-bend-hook-yml-9-2"' in html


def test_numbers_run_through_all_sittings(made: Sheet) -> None:
    assert [f'<span class="bl-ask__n">{n}</span>' in made.html for n in (1, 2, 3, 4)] == [True, True, True, False]


def test_who_to_ask_is_named_at_the_top(made: Sheet) -> None:
    assert "Three things that only Petra Holm can tell." in Markup(made.html).striptags()
    assert "Whoever knows" in made.html


def test_a_notebook_without_questions_says_so() -> None:
    forge = book_of("hook-forge")
    html = page(unwritten_sheets, Book(forge.survey, ()), UNWRITTEN).html
    assert "Nothing that we know of." in html
    assert "bl-ask" not in html
