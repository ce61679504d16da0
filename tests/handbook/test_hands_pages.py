"""People, skills and who taught whom, on the notebook of a small forge."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from expectation import TODAY, book_of, book_written, expect, page
from markupsafe import Markup

from site_builder.analysis.analysis import analysis
from site_builder.handbook.pages.people_index import NEWEST
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.site import HANDS, LINEAGE, Site
from site_builder.notebook.finding import At, Finding, Level
from site_builder.skills.last import read_last
from site_builder.skills.sealing import seal_book

DRAWING = re.compile(r'<svg class="bl-drawing.*?</svg>', re.DOTALL)


@pytest.fixture
def forge() -> Site:
    return book_of("hook-forge")


def words(html: str) -> str:
    return Markup(html).striptags()


@pytest.mark.parametrize(
    ("src_uri", "name"),
    [
        (HANDS, "hands"),
        (LINEAGE, "lineage"),
        ("the-hands/skills/forging.md", "skill-forging"),
        ("the-hands/people/nils.md", "person-nils"),
        ("the-hands/people/arvid.md", "person-gone"),
    ],
)
def test_the_page_as_it_was_found_good(forge: Site, src_uri: str, name: str) -> None:
    sheet = page(hand_pages, forge, src_uri)
    expect(replace(sheet, html=DRAWING.sub("<svg></svg>", sheet.html)), name)  # drawings have tests of their own


def test_each_level_leads_to_the_entry_that_gave_it(forge: Site) -> None:
    hands = page(hand_pages, forge, HANDS).html
    assert 'href="skills/forging.html#sign-off-4"' in hands
    assert 'id="sign-off-4"' in page(hand_pages, forge, "the-hands/skills/forging.md").html


def test_what_nobody_could_teach_any_more(forge: Site) -> None:
    assert "If Petra stopped tomorrow, forging and tending the fire would have nobody left to teach them." in words(
        page(hand_pages, forge, HANDS).html)


def test_an_entry_that_was_taken_back_stays_and_says_so(forge: Site) -> None:
    """Nils was signed for the fire, and a week later not any more."""
    html = page(hand_pages, forge, "the-hands/skills/tending-the-fire.md").html
    assert "Taken back by entry 3." in words(html)
    assert "Takes back entry 2." in words(html)
    assert "bl-shown--done" not in html  # what it showed does not count any more
    assert "Taken back by entry 3." in words(page(hand_pages, forge, "the-hands/people/nils.md").html)
    assert "tending the fire" not in words(page(hand_pages, forge, LINEAGE).html)


@pytest.mark.parametrize("src_uri", [HANDS, LINEAGE, "the-hands/skills/forging.md", "the-hands/people/petra.md"])
def test_an_override_stands_on_every_page_that_tells_of_it(forge: Site, src_uri: str) -> None:
    told = words(page(hand_pages, forge, src_uri).html)
    assert re.search("Without the proof asked for[^.]*: There was no book then[.]", told)


def test_a_level_that_was_signed_without_proof_has_a_star(forge: Site) -> None:
    hands = page(hand_pages, forge, HANDS).html
    assert "<span>teaches*</span>" in hands
    assert "* Without the proof asked for (Petra): There was no book then." in words(hands)
    assert "Forging*" in words(page(hand_pages, forge, "the-hands/people/petra.md").html)


def test_the_evidence_of_a_sign_off_can_be_followed(forge: Site) -> None:
    skill = page(hand_pages, forge, "the-hands/skills/forging.md").html
    assert '<a href="../people/nils.html#practice-2">practice 2</a>' in skill
    assert 'id="practice-2"' in page(hand_pages, forge, "the-hands/people/nils.md").html


def test_too_young_until_the_birthday(forge: Site) -> None:
    """Born on 14 August 2010: sixteen for the anvil on 14 August 2026, eighteen for the power hammer in 2028."""
    nils = words(page(hand_pages, forge, "the-hands/people/nils.md").html)
    assert "Not before 14 August 2026 forging: at least 16 years old." in nils
    assert "Not before 14 August 2028 to use power hammer: at least 18 years old." in nils
    assert nils.index("it goes first") < nils.index("Not before 14 August")


@pytest.mark.parametrize(
    ("born", "said"),
    [
        ("2010-03-02", False),  # sixteen today
        ("2010-03-03", True),
        ("2010", True),  # perhaps not before December
        ("2009", False),
    ],
)
def test_the_day_of_the_least_age(tmp_path: Path, born: str, said: bool) -> None:
    assert date(2026, 3, 2) == TODAY
    notebook = (f"=== skills/people.yml\npeople: {{a: {{name: A, born: {born}}}}}\n"
                "=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\nage: min 16 y\n")
    html = page(hand_pages, book_written(notebook, tmp_path), "the-hands/people/a.md").html
    assert ("Not before" in words(html)) is said


def test_where_no_birth_is_written_nobody_is_taken_for_old_enough(tmp_path: Path) -> None:
    notebook = ("=== skills/people.yml\npeople: {a: Ann}\n"
                "=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\nage: min 16 y\n")
    html = page(hand_pages, book_written(notebook, tmp_path), "the-hands/people/a.md").html
    assert "It is not written when Ann was born. Ask before anything that has a least age." in words(html)


def test_a_long_book_is_cut_but_what_a_sign_off_rests_on_stays(tmp_path: Path) -> None:
    practice = "".join(f"---\npractice: {n}\nwho: a\ndate: 2025-01-{n:02}\npieces: {n}\n" for n in range(1, 31))
    notebook = (
        "=== skills/people.yml\npeople: {a: Ann, b: {name: Bo, founding: yes}}\n=== skills/sawing.yml\nskill: sawing\n"
        "title: Sawing\n=== skills/records/practice.yml\n" + practice + "=== skills/records/sign-offs.yml\n---\n"
        "sign-off: 1\nwho: b\ndate: 2025-02-01\nlearner: a\nskill: sawing\nlevel: alone\nevidence: practice 3\n"
    )
    html = page(hand_pages, book_written(notebook, tmp_path), "the-hands/people/a.md").html
    assert html.count('<li id="practice-') == NEWEST  # the newest eleven beside the sign-off, and number 3
    assert 'id="practice-30"' in html
    assert 'id="practice-3"' in html
    assert 'id="practice-4"' not in html
    assert "30 in the book of practice" in words(html)


def test_two_people_of_one_first_name_keep_their_whole_names(tmp_path: Path) -> None:
    notebook = ("=== skills/people.yml\npeople: {a: Ann Ost, b: Ann Vik, c: Carl Ost}\n"
                "=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\n")
    html = page(hand_pages, book_written(notebook, tmp_path), HANDS).html
    assert [name for name in ("Ann Ost", "Ann Vik", "Carl") if f'<th scope="col">{name}</th>' in html] == [
        "Ann Ost", "Ann Vik", "Carl"]


def test_a_large_shop_gets_tables_that_go_on_a_page(tmp_path: Path) -> None:
    people = ", ".join(f"p{n}: Nr{n}" for n in range(14))
    notebook = f"=== skills/people.yml\npeople: {{{people}}}\n=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\n"
    assert page(hand_pages, book_written(notebook, tmp_path), HANDS).html.count("<table") == 3


def test_a_shop_without_people_is_told_where_they_stand(tmp_path: Path) -> None:
    html = page(hand_pages, book_written("=== procedures/shop.yml\nshop: s\ntitle: S\n", tmp_path), HANDS).html
    assert "<code>skills/people.yml</code>" in html


def test_names_and_notes_are_shown_as_text(tmp_path: Path) -> None:
    notebook = '=== skills/people.yml\npeople: {a: {name: "<b>Ann</b>", note: "<script>x</script>"}}\n'
    html = page(hand_pages, book_written(notebook, tmp_path), "the-hands/people/a.md").html
    assert "<script>" not in html
    assert "&lt;b&gt;Ann&lt;/b&gt;" in html


def test_a_page_with_errors_is_marked(forge: Site) -> None:
    wrong = Finding(At("skills/forging.yml", 3, 1), "needs-circle", Level.ERROR, "Forging needs itself.")
    html = page(hand_pages, replace(forge, findings=(wrong,)), "the-hands/skills/forging.md").html
    assert "Not sound" in html


# --- what the books prove --------------------------------------------------------------------------------

LEARNING = """\
=== skills/people.yml
people: {petra: {name: Petra, founding: yes}, nils: {name: Nils, born: 2000}, arvid: {name: Arvid, born: 2015}}
=== skills/sawing.yml
skill: sawing
title: Sawing
covers: saw-board
age: min 16 y
proof: {pieces: 20, share: min 90 %, confidence: min 90 %, agreement: min 90 %}
refresh: 6 mo
=== skills/planing.yml
skill: planing
title: Planing
needs: {skill: sawing, level: alone}
=== skills/turning.yml
skill: turning
title: Turning
=== procedures/saw-board.yml
procedure: saw-board
title: Saw the board
time: {each: 4 min}
steps:
  - {id: look, do: Look along it., feel: {good: Straight., bad: Wavy., sense: sight}}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: petra
date: 2025-01-10
learner: nils
skill: sawing
level: within call
override: Before the book.
=== skills/records/practice.yml
---
practice: 1
who: nils
date: 2025-02-01
procedure: saw-board
level: within call
pieces: 5
rework: 1
took: 60 min
---
practice: 2
who: nils
date: 2025-03-01
procedure: saw-board
level: within call
pieces: 5
took: 45 min
---
practice: 3
who: nils
date: 2025-04-01
procedure: saw-board
level: within call
pieces: 10
took: 70 min
=== skills/records/trials.yml
---
trial: 1
who: petra
date: 2025-04-01
felt: saw-board/look
verdicts: {<i>one</i>: good, two: bad}
---
trial: 2
who: nils
teacher: petra
date: 2025-04-01
felt: saw-board/look
verdicts: {<i>one</i>: good, two: good}
"""


@pytest.fixture
def learning(tmp_path: Path) -> Site:
    return book_written(LEARNING, tmp_path)


def test_what_rests_says_so_in_the_table_and_on_both_pages(learning: Site) -> None:
    """Last practised on 1 April 2025, good for six months, and today is 2 March 2026."""
    hands = page(hand_pages, learning, HANDS).html
    assert "within call*, but rests</span>" in hands
    assert 'href="skills/sawing.html#sign-off-1"' in hands
    assert "Nils rests since 1 October 2025." in words(page(hand_pages, learning, "the-hands/skills/sawing.md").html)
    nils = words(page(hand_pages, learning, "the-hands/people/nils.md").html)
    assert "Sawing* (rests since 1 October 2025)" in nils


def test_the_proof_so_far_says_what_is_missing_before_it_gives_numbers(learning: Site) -> None:
    html = page(hand_pages, learning, "the-hands/skills/sawing.md").html
    told = words(html[html.index('id="proof-nils"'):])
    assert "Pieces: 20 made: nothing is missing" in told
    assert "19 were good of 20." in told
    assert "18 more pieces without a fault prove 90 % good with 90 % confidence." in told  # 38 with one fault
    assert "judged 1 of 2 pieces alike" in told
    assert told.index("let pass what the master would not: two") < told.index("kappa")


def test_charts_are_drawn_for_wide_and_narrow_and_said_in_words(learning: Site) -> None:
    html = page(hand_pages, learning, "the-hands/people/nils.md").html
    drawn = re.findall(r'<svg class="bl-drawing chart" viewBox="0 0 (\d+) .*? role="img" aria-label="(.*?)"', html)
    assert [width for width, _ in drawn] == ["600", "328"] * 3
    labels = [label for _, label in drawn[::2]]
    assert labels[0] == "20 pieces in 3 entries, 1 of them not good at the first go."
    assert labels[1].startswith("Time a piece over 20 pieces.")
    assert labels[2] == "1 April 2025: 1 of 2 alike"
    assert "standard time of 4 min" in words(html)
    assert "<i>one</i>" not in html


def test_what_could_be_learned_next(learning: Site) -> None:
    """Nobody was ever signed to teach, so the founder counts as the master of everything."""
    nils = words(page(hand_pages, learning, "the-hands/people/nils.md").html)
    assert "With Petra: turning." in nils
    assert "Not before sawing at least alone: planing." in nils
    arvid = words(page(hand_pages, learning, "the-hands/people/arvid.md").html)
    assert "With Petra: turning." in arvid  # not sawing: he is ten


def test_the_hands_tell_the_last_seal_and_what_it_proves(learning: Site, tmp_path: Path) -> None:
    assert "The seals of the books" not in page(hand_pages, learning, HANDS).html
    seal_book(tmp_path, "sign-off", {})
    html = page(hand_pages, Site(analysis(tmp_path, TODAY), ()), HANDS).html
    seal = re.search(r"<code>([0-9a-f ]{71})</code>", html)
    assert seal is not None
    last = read_last(tmp_path / "skills/records/sign-offs.yml")
    assert last is not None
    assert seal[1].replace(" ", "") == last.seal
    assert "What neither proves" in words(html)
