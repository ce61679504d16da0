"""Still unwritten: the sheet of questions."""

from dataclasses import replace

import pytest
from expectation import book_of, expect, page
from markupsafe import Markup

from site_builder.checks.interview import Question, Sitting
from site_builder.handbook import site as books
from site_builder.handbook.asking import ON_A_SHEET, ON_ONE_PAGE
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.unwritten import unwritten_pages
from site_builder.handbook.site import UNWRITTEN, Page, Site
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


def asking(monkeypatch: pytest.MonkeyPatch, sittings: tuple[Sitting, ...]) -> Site:
    """The forge's book with these questions."""
    monkeypatch.setattr(books, "interview", lambda *_: sittings)
    return replace(book_of("hook-forge"))


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> Page:
    return page(unwritten_pages, asking(monkeypatch, SITTINGS), UNWRITTEN)


def test_the_page_as_it_was_found_good(made: Page) -> None:
    expect(made, "still-unwritten")


def test_a_question_leads_to_the_step_that_waits_for_it(made: Page) -> None:
    """The step itself, and a value within it."""
    assert made.html.count('<a href="the-work/hook/bend-hook.html#bend">Bend the hook, step 2</a>') == 2


def test_the_anchor_is_the_one_that_pages_link_to(made: Page) -> None:
    assert 'id="q-procedures-hook-bend-hook-yml-9"' in made.html


def test_two_questions_of_one_line_have_two_anchors(monkeypatch: pytest.MonkeyPatch) -> None:
    question = SITTINGS[0].questions[0]
    twice = replace(SITTINGS[0], questions=(question, question))
    html = page(unwritten_pages, asking(monkeypatch, (twice,)), UNWRITTEN).html
    assert 'id="q-procedures-hook-bend-hook-yml-9"' in html
    assert 'id="q-procedures-hook-bend-hook-yml-9-2"' in html


def test_numbers_run_through_all_sittings(made: Page) -> None:
    assert [f'<span class="bl-ask__n">{n}</span>' in made.html for n in (1, 2, 3, 4)] == [True, True, True, False]


def test_who_to_ask_is_named_at_the_top(made: Page) -> None:
    assert "Three things that only Petra Holm can tell." in Markup(made.html).striptags()
    assert "Whoever knows" in made.html


def test_a_notebook_without_questions_says_so() -> None:
    forge = book_of("hook-forge")
    html = page(unwritten_pages, Site(forge.analysis, ()), UNWRITTEN).html
    assert "Nothing that we know of." in html
    assert "bl-ask" not in html


# --- a large shop -------------------------------------------------------------------------------------------


def shop_of(questions: int) -> tuple[Sitting, ...]:
    """Ten questions each about so many pieces of work, all for Petra; one about a bar that nobody knows."""
    sittings = [
        Sitting(("petra",), f"work-{n}", f"Work {n}", tuple(
            Question(f"Why {n} and {m}?", "", At(f"procedures/hook/work-{n}.yml", m, 1), f"work-{n}", "x")
            for m in range(1, 11)))
        for n in range(questions // 10)
    ]
    return (*sittings, SITTINGS[1])


def test_three_hundred_questions_stand_on_one_page_and_more_on_several(monkeypatch: pytest.MonkeyPatch) -> None:
    assert ON_ONE_PAGE == 300
    small, large = (list(unwritten_pages(asking(monkeypatch, shop_of(n)))) for n in (290, 300))
    assert [sheet.src_uri for sheet in small] == ["still-unwritten.md"]
    assert [sheet.src_uri for sheet in large] == [
        "still-unwritten.md", "still-unwritten/petra-sheet-1.md", "still-unwritten/petra-sheet-2.md",
        "still-unwritten/whoever-knows-sheet-1.md",
    ]


def test_what_there_is_to_ask_of_one_thing_stays_together(monkeypatch: pytest.MonkeyPatch) -> None:
    first = list(unwritten_pages(asking(monkeypatch, shop_of(500))))[1]
    assert first.html.count('class="bl-ask"') == ON_A_SHEET
    assert "<h3>Work 0</h3>" in first.html
    assert "<h3>Work 19</h3>" in first.html
    assert "<h3>Work 20</h3>" not in first.html


def test_the_first_page_leads_to_every_sheet_and_says_what_is_on_it(monkeypatch: pytest.MonkeyPatch) -> None:
    html = next(unwritten_pages(asking(monkeypatch, shop_of(500)))).html
    assert '<h2 id="ask-petra">Petra Holm</h2>' in html
    assert '<li><a href="still-unwritten/petra-sheet-3.html">Sheet 3</a>: Work 40 to Work 49 ' in html
    assert '<h2 id="ask-none">Whoever knows</h2>' in html


def test_numbers_run_on_from_sheet_to_sheet(monkeypatch: pytest.MonkeyPatch) -> None:
    _, first, second, *_ = unwritten_pages(asking(monkeypatch, shop_of(500)))
    assert '<span class="bl-ask__n">200</span>' in first.html
    assert '<span class="bl-ask__n">201</span>' in second.html


def test_other_pages_lead_to_the_sheet_on_which_the_question_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    book = asking(monkeypatch, shop_of(500))
    context = PageContext(book, "the-work/hook/bend-hook.md")
    target = context.question_href(At("procedures/hook/work-45.yml", 7, 30))
    assert target == "../../still-unwritten/petra-sheet-3.html#q-procedures-hook-work-45-yml-7"
    sheet = page(unwritten_pages, book, "still-unwritten/petra-sheet-3.md")
    assert f'id="{target.partition("#")[2]}"' in sheet.html


def test_a_line_of_which_nothing_is_asked_leads_to_all_questions(monkeypatch: pytest.MonkeyPatch) -> None:
    context = PageContext(asking(monkeypatch, SITTINGS), "words.md")
    assert context.question_href(At(HOOK, 9, 80)) == "still-unwritten.html#q-procedures-hook-bend-hook-yml-9"
    assert context.question_href(At(HOOK, 10, 1)) == "still-unwritten.html"


def test_the_finder_knows_what_a_sheet_of_many_is_about(monkeypatch: pytest.MonkeyPatch) -> None:
    _, first, *_ = unwritten_pages(asking(monkeypatch, shop_of(500)))
    assert first.parts[0].title == "Questions: Work 0"
    assert len(first.parts) == 20


def test_each_sheet_leads_to_those_beside_it(monkeypatch: pytest.MonkeyPatch) -> None:
    _, first, second, *_ = unwritten_pages(asking(monkeypatch, shop_of(500)))
    assert "Before</span>" not in first.html
    assert 'Next</span> <a href="petra-sheet-2.html">Questions for Petra Holm, sheet 2</a>' in first.html
    assert 'Before</span> <a href="petra-sheet-1.html">' in second.html
