"""Rules on texts, beyond the two examples of each."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.checks.rules.texts.figures import figures_in
from site_builder.notebook.finding import Finding
from site_builder.notebook.picture_paths import picture_path

TODAY = date(2026, 11, 24)

TOP = """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
"""
GRINDER = """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
"""


def look(example: str, folder: Path) -> Analysis:
    write_example(example, folder)
    return analysis(folder, TODAY)


def found(example: str, folder: Path, code: str) -> list[Finding]:
    findings = examine(look(example, folder))
    assert [f for f in findings if f.code == "rule-crashed"] == []
    return [f for f in findings if f.code == code]


# ---------------------------------------------------------------- references

def test_the_nearest_id_and_the_kinds_wanted_are_named(tmp_path: Path) -> None:
    (one,) = found(TOP + "tools: belt-grindr\nsteps: Sweep it.\n" + GRINDER, tmp_path, "reference-none")
    assert one.message == "There is no `belt-grindr`; a tool is wanted here."
    assert one.fix == ("Did you mean `belt-grinder`? Write the id of a tool, "
                        "or begin its page with `benchlore new tool belt-grindr`.")
    assert one.about == "grind-foot"


@pytest.mark.parametrize(("written", "fix"), [
    ("tools: none", "Where there is none, write `[]`."),
    ("tools: belt-grinder, brush", "Several stand between brackets: `[belt-grinder, brush]`."),
    ("materials: Linen Twine", "Write the id of a material or a part, or begin its page with "
     "`benchlore new material linen-twine`."),
    ("tools: Bürste", "Write the id of a tool, or begin its page with `benchlore new tool buerste`."),
    ("part: brush head", "Write the id of a part, or add `brush-head` under `parts` of procedures/shop.yml."),
])
def test_it_is_told_how_the_thing_comes_into_the_notebook(written: str, fix: str, tmp_path: Path) -> None:
    (one,) = found(TOP + f"{written}\nsteps: Sweep it.\n" + GRINDER, tmp_path, "reference-none")
    assert one.fix == fix


def test_nothing_is_suggested_that_is_not_near(tmp_path: Path) -> None:
    (one,) = found(TOP + "materials: zinc\nsteps: Sweep it.\n" + GRINDER, tmp_path, "reference-none")
    assert one.message == "There is no `zinc`; a material or a part is wanted here."
    assert "Did you mean" not in one.fix


def test_a_thing_of_another_kind_is_none(tmp_path: Path) -> None:
    (one,) = found(TOP + "skill: belt-grinder\nsteps: Sweep it.\n" + GRINDER, tmp_path, "reference-none")
    assert one.message == "There is no `belt-grinder`; a skill is wanted here."


def test_every_lost_reference_of_a_page_is_told(tmp_path: Path) -> None:
    places = [(f.at.line, f.at.column) for f in found(TOP + """\
tools: [belt-grinder, {tool: plate, or: [glass, belt-grinder]}]
skill: {zinc: flat, brass: flat-too}
steps:
  - use: dress
    limits:
      flatness: {is: max 0.1 mm, with: [feelers, belt-grinder]}
    hazards: {hazard: dust, wear: mask}
revisions: {what: Finer belt., change: finer}
""" + GRINDER, tmp_path, "reference-none")]
    assert places == [(3, 30), (3, 42), (4, 15), (4, 28), (6, 10), (8, 41), (9, 35), (10, 40)]


def test_words_that_need_be_no_id_are_left_alone(tmp_path: Path) -> None:
    assert found(TOP + """\
after: {done: the bell at noon}
steps:
  - do: Sweep it.
    checks: {good: Flat., who: another}
    until: {sign: Bright all over., then: next}
""", tmp_path, "reference-none") == []


def test_nothing_is_concluded_from_a_file_that_could_not_be_read(tmp_path: Path) -> None:
    example = TOP + """\
part: foot
tools: belt-grinder
steps:
  - do: Sweep it over the [[belt-grinder]], as [[greta]] does.
    limits:
      height: {is: 3 mm, below: {trouble: low}}
    troubles:
      - {id: low, sign: Too low., then: scrap, surprise: yes}
      - {id: Low, sign: Too low.}
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Note: belt
=== procedures/shop.yml
shop: harbour
title: 'Harbour
=== skills/people.yml
people: [greta]
"""
    surveyed = look(example, tmp_path)
    codes = {f.code for f in examine(surveyed)}
    assert {"belt-grinder", "shop", "people"} <= surveyed.notebook.unread
    assert codes.isdisjoint({"reference-none", "link-none", "trouble-none", "rule-crashed"})


def test_a_trouble_is_looked_for_on_its_own_page(tmp_path: Path) -> None:
    (one,) = found(TOP + """\
limits:
  height: {is: 3 mm, below: {trouble: too-lo}, above: {trouble: high}}
steps:
  - do: Sweep it.
    troubles: [{id: too-low, sign: It stands too deep.}, {id: high, sign: It rocks.}]
""", tmp_path, "trouble-none")
    assert (one.at.line, one.at.column, one.fix) == (4, 39, "Did you mean `too-low`?")


# ---------------------------------------------------------------- links

@pytest.mark.parametrize("text", [
    "[[belt-grinder]]", "[[belt-grinder|the belt]]", "[[grind-foot]]", "[[grind-foot/sweep]]", "[[burr]]",
    "[[grind-foot/sweep/flatness]]", "[[belt-grinder/belt speed]]", "`[[no-such-thing]]` in code", "[one](two) bracket",
    "```\n[[no-such-thing]]\n```", "<!-- [[no-such-thing]] -->", "~~~ text\n[[no-such-thing]]\n~~~",
])
def test_a_story_may_link_to_anything_that_has_an_id(text: str, tmp_path: Path) -> None:
    example = TOP + """\
steps: {id: sweep, do: Sweep it., limits: {flatness: max 0.1 mm}}
""" + GRINDER + """\
properties: {belt speed: max 32 m/s}
=== procedures/shop.yml
shop: harbour
title: Harbour lamps
words: {burr: The sharp edge that a cut leaves.}
=== procedures/stories/history.md
# History

""" + text + "\n"
    assert found(example, tmp_path, "link-none") == []


@pytest.mark.parametrize(("text", "column", "fix"), [
    ("On the [[belt-griner|belt]].", 8, "Did you mean `belt-grinder`? "),
    ("µ [[grind-foot/swep]]", 3, "Did you mean `grind-foot/sweep`? "),
    ("`code` and [[x]]", 12, ""),
])
def test_a_dead_link_of_a_story_is_told_at_its_place(text: str, column: int, fix: str, tmp_path: Path) -> None:
    example = TOP + "steps: {id: sweep, do: Sweep it.}\n" + GRINDER
    (one,) = found(f"{example}=== procedures/stories/history.md\n# History\n\n{text}\n", tmp_path, "link-none")
    assert (one.at.path, one.at.line, one.at.column) == ("procedures/stories/history.md", 3, column)
    assert one.fix == f"{fix}Write the id of a thing, or take the brackets away."


def test_links_are_looked_for_in_every_text(tmp_path: Path) -> None:
    lines = [f.at.line for f in found(TOP + """\
because: The [[filler]] lifts.
steps:
  - do: Sweep it.
    points:
      point: Lean on the [[rim]].
      because: The [[sole]] gets hollow.
    never: Touch the [[belt-grinder]].
    note: See `[[id]]`.
""" + GRINDER, tmp_path, "link-none")]
    assert lines == [3, 7, 8]


def test_a_book_is_not_rewritten_for_a_dead_link(tmp_path: Path) -> None:
    assert found("=== skills/records/practice.yml\npractice: 1\nnote: On the [[old-grinder]].\n", tmp_path,
                 "link-none") == []


STORY = """\
# History

![The lantern](../photos/lantern.svg) and ![gone](gone.jpg "A title")
[a page](second.md#top) and [a lost one](third.md) and [in brackets](<a b.md>)
[outside](https://example.org/x.md) [mail](mailto:a@b.c) [above](#history) [code]: none
`![x](y.jpg)` and [![thumb](thumb.jpg)](second.md)
[root](/stories/second.md) [away](../../../etc/passwd) [escaped%20name](a%20b.md)

[later]: later.md
"""


def test_files_of_a_story_are_looked_for(tmp_path: Path) -> None:
    example = f"""\
=== procedures/photos/lantern.svg
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>
=== procedures/stories/second.md
# Second
=== procedures/stories/history.md
{STORY}"""
    told = [(f.at.line, f.at.column, f.message) for f in found(example, tmp_path, "story-link")]
    assert told == [
        (3, 51, "There is no picture `gone.jpg`."),
        (4, 42, "There is no file `third.md`."),
        (4, 70, "There is no file `a b.md`."),
        (6, 29, "There is no picture `thumb.jpg`."),
        (7, 8, "`/stories/second.md` leads out of the notebook."),
        (7, 35, "`../../../etc/passwd` leads out of the notebook."),
        (7, 73, "There is no file `a%20b.md`."),
        (9, 10, "There is no file `later.md`."),
    ]


# ---------------------------------------------------------------- pictures

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>'


@pytest.mark.parametrize(("written", "lies"), [
    ("sole.svg", "procedures/foot/sole.svg"),
    ("sole.svg", "procedures/photos/sole.svg"),
    ("photos/sole.svg", "procedures/photos/sole.svg"),
    ("photos/sole.svg", "procedures/foot/photos/sole.svg"),
    ("../photos/sole.svg", "procedures/photos/sole.svg"),
])
def test_a_picture_is_found_where_people_put_it(written: str, lies: str, tmp_path: Path) -> None:
    surveyed = look(f"{TOP}steps: {{do: Sweep it., pictures: {written}}}\n=== {lies}\n{SVG}\n", tmp_path)
    (picture,) = surveyed.notebook.procedures["grind-foot"].steps[0].pictures
    assert picture_path(surveyed.notebook, picture) == tmp_path / "procedures/foot" / written or (
        picture_path(surveyed.notebook, picture) == tmp_path / lies)


def test_the_picture_beside_the_page_comes_first(tmp_path: Path) -> None:
    surveyed = look(f"{TOP}pictures: sole.svg\nsteps: Sweep it.\n=== procedures/photos/sole.svg\n{SVG}\n"
                    f"=== procedures/foot/sole.svg\n{SVG}\n", tmp_path)
    (picture,) = surveyed.notebook.procedures["grind-foot"].pictures
    assert picture_path(surveyed.notebook, picture) == tmp_path / "procedures/foot/sole.svg"


@pytest.mark.parametrize("written", [
    "../../../secret.svg", "/etc/hostname", "link.svg", "foot", "x" * 300, "a/b/c.svg",
])
def test_no_picture_is_taken_from_outside(written: str, tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    write_example(f"=== secret.svg\n{SVG}\n", tmp_path)
    example = (f"{TOP}steps: {{do: Sweep it., pictures: {written}}}\n"
               "=== procedures/photos/link.svg link to ../../../secret.svg\n=== procedures/photos/foot/keep.svg\n")
    (one,) = found(example, shop, "picture-missing")
    assert one.message == f"There is no file `{written}`."


@pytest.mark.parametrize(("name", "content", "message"), [
    ("sole.jpg", "no photo at all", "`sole.jpg`: This is no picture we can read."),
    ("sole.heic", "\0\0\0\x18ftypheic\0\0\0\0mif1heic",
     "`sole.heic`: Browsers do not show this phone's own format (HEIC, AVIF)."),
])
def test_what_cannot_be_shown_is_told_with_the_way_out(name: str, content: str, message: str, tmp_path: Path) -> None:
    (one,) = found(f"{TOP}pictures: {{file: {name}, shows: The sole}}\nsteps: Sweep it.\n"
                   f"=== procedures/photos/{name}\n{content}\n", tmp_path, "picture-unreadable")
    assert one.message == message and one.fix.startswith("Save ") and one.fix.endswith(".")
    assert not one.fix.endswith("..")


def test_a_large_drawing_is_not_huge(tmp_path: Path) -> None:
    large = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9000 9000"/>'
    assert found(f"{TOP}pictures: {{file: sole.svg, shows: The sole}}\nsteps: Sweep it.\n"
                 f"=== procedures/photos/sole.svg\n{large}\n", tmp_path, "picture-huge") == []


def test_the_pictures_of_stories_are_looked_at_too(tmp_path: Path) -> None:
    example = """\
=== procedures/stories/history.md
# History

![](lantern.jpg)
=== procedures/stories/lantern.jpg photo 40x30 with its place
"""
    findings = {f.code: f for f in examine(look(example, tmp_path))}
    assert findings["picture-located"].at[1:] == (3, 5)
    assert findings["picture-undescribed"].fix == "Write it between `[` and `]`."
    assert "picture-missing" not in findings


def test_a_picture_whose_words_are_asked_for_is_not_asked_twice(tmp_path: Path) -> None:
    assert found(f"{TOP}pictures: {{file: sole.jpg, shows: ask}}\nsteps: Sweep it.\n", tmp_path,
                 "picture-undescribed") == []


# ---------------------------------------------------------------- figures in sentences

@pytest.mark.parametrize(("text", "figures"), [
    ("Heat it to 420 °C.", ["420 °C"]),
    ("Heat it to 420°C and hold it 3 min", ["420°C", "3 min"]),
    ("Keep it at 12..30 °C.", ["12..30 °C"]),
    ("Keep it at 12 to 30 °C.", ["12 to 30 °C"]),
    ("Run it at 1800 rev/min, 18 m/s.", ["1800 rev/min", "18 m/s"]),
    ("Cut 1-1/2 in off.", ["1-1/2 in"]),
    ("Cut it to 2 in.", ["2 in"]),
    ("Tighten it to 4 N m.", ["4 N m"]),
    ("Thin it by 10 %.", ["10 %"]),
    ("Leave it 2 days.", ["2 days"]),
    ("Coat 25 cm² at once.", ["25 cm²"]),
    ("Put 2 in the jig.", []),
    ("Give it 3 strokes with P80, then 12 pieces of grade 0000.", []),
    ("Mix 100 parts with 2 parts.", []),
    ("Screw in the M4 and the A2 bolts of 2019.", []),
    ("Use sheet 7, table 3/4 and EN 10204.", []),
])
def test_a_figure_is_a_number_with_a_unit_of_measure(text: str, figures: list[str]) -> None:
    assert [f.text for f in figures_in(text)] == figures
    assert all(text[f.start:].startswith(f.text) for f in figures_in(text))


def test_a_figure_that_is_also_a_value_of_the_step_is_told_already(tmp_path: Path) -> None:
    places = [(f.at.line, f.at.column) for f in found(TOP + """\
settings: {oven: 80 °C}
time: {each: 3 min}
steps:
  - {do: Heat it to 80 °C for 10 min., settings: {heat: 80 ±5 °C}, until: {clock: 10 min}}
  - {do: Cool it for 10 min., wait: min 10 min}
  - {do: Cool it for 10 min., time: 10 min}
  - do: Wipe it and wait 10 min in the oven at 80 °C, then at 20 °C.
    also: {do: Dip it 5 s., when: each piece, until: {clock: 5 s}}
""", tmp_path, "do-figure")]
    assert places == [(8, 22), (9, 26), (9, 63)]


# ---------------------------------------------------------------- vague words

@pytest.mark.parametrize(("text", "question"), [
    ("Put some grease on the belt.", "How much is “some”?"),
    ("Thin it as usual.", "What is usual here?"),
    ("Clean it properly.", "How does one see that it is done properly?"),
    ("Heat it enough.", "How does one see that it is enough?"),
    ("Something must give.", None),
    ("Heat it until it is soft enough to give under the thumb.", None),
    ("Keep the rim a little flared, like the bell of a horn.", None),
])
def test_a_vague_word_becomes_a_question(text: str, question: str | None, tmp_path: Path) -> None:
    questions = [f.message for f in found(f"{TOP}steps:\n  - do: {text}\n", tmp_path, "word-vague")]
    assert questions == ([question] if question else [])


# ---------------------------------------------------------------- sources and sheets

def source(text: str) -> str:
    return f"""\
{TOP}steps:
  - do: Sweep it.
    limits: {{flatness: {{is: max 0.1 mm, source: {text}}}}}
=== procedures/shop.yml
shop: harbour
title: Harbour lamps
sources: {{primer-sheet: The sheet of the primer, astm-b86: ASTM B86}}
=== skills/people.yml
people: {{greta: Greta}}
"""


@pytest.mark.parametrize("text", [
    "astm-b86", "astm-b86 table 3", "memory", "measured", "measured 2026-02-09", "maker", "told by greta",
    "told by the plater", "common practice", "timed over 40 pieces", "Machinery", "half-forgotten advice",
])
def test_these_are_sources(text: str, tmp_path: Path) -> None:
    assert found(source(text), tmp_path, "source-unknown") == []


@pytest.mark.parametrize(("text", "word"), [
    ("astm-b87", "astm-b86"), ("primer-shet page 2", "primer-sheet"), ("handbook", "`sources`"),
    ("told by gerta", "id of a person"),
])
def test_these_look_like_sources_and_are_none(text: str, word: str, tmp_path: Path) -> None:
    (one,) = found(source(text), tmp_path, "source-unknown")
    assert (one.at.line, one.at.column) == (5, 49)
    assert word in one.fix


def test_only_what_can_hurt_or_condemn_must_not_rest_on_memory(tmp_path: Path) -> None:
    lines = [f.at.line for f in found(TOP + """\
time: {each: 5 min, source: memory}
limits: {height: {is: 3 mm, source: memory}}
hazards: {hazard: abrasion, source: memory}
windows: {recoat: {is: max 4 h, source: memory of a bad day}}
steps: Sweep it.
""", tmp_path, "source-memory")]
    assert lines == [4, 5, 6]


@pytest.mark.parametrize(("written", "old"), [
    ("2021-11-24", False), ("2021-11-23", True), ("2021-11", False), ("2021-10", True), ("2021", False), ("2020", True),
])
def test_a_sheet_of_five_years_ago_is_old(written: str, old: bool, tmp_path: Path) -> None:
    sheet = f"sheet: {{title: Sheet, date: {written}}}\n"
    material = f"=== tools/materials/primer.yml\nmaterial: primer\ntitle: Primer\n{sheet}"
    assert bool(found(material, tmp_path, "sheet-old")) is old


def test_of_a_sentence_full_of_figures_ten_are_told(tmp_path: Path) -> None:
    text = "=== procedures/x.yml\nprocedure: x\ntitle: X\nsteps:\n  - do: " + "Go 1 mm on. " * 500 + "\n"
    assert len(found(text, tmp_path, "do-figure")) == 10
