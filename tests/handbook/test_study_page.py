"""The page for study: what to know, and questions whose answers are what the notebook says and nothing else."""

from __future__ import annotations

import html
import re
from dataclasses import replace
from pathlib import Path

import pytest
from expectation import book_of, book_written, expect, page
from procedure_article import words_of

from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.site import Site
from site_builder.notebook.finding import At, Finding, Level

SKILL = "=== skills/turning.yml\nskill: turning\ntitle: Turning\ncovers: turn-knob\n"
WORK = "=== procedures/knob/turn-knob.yml\nprocedure: turn-knob\ntitle: Turn the knob\n"
QUESTION = re.compile(r'<details class="bl-study__q" data-key="(\w+)">\s*<summary>.*?<span class="bl-study__ask">(.*?)'
                      r'</span></summary>\s*<div class="bl-study__answer">(.*?)</div>\s*</details>', re.DOTALL)


def article(site: Site, skill: str = "turning") -> str:
    return page(hand_pages, site, f"the-hands/study/{skill}.md").html


def asked(article: str) -> dict[str, str]:
    """Every question with its answer as a reader reads it."""
    return {html.unescape(ask): words_of(answer) for _, ask, answer in QUESTION.findall(article)}


def told(folder: Path, work: str, *more: str) -> dict[str, str]:
    """The questions on a procedure whose other keys are ``work``."""
    return asked(article(book_written(SKILL + WORK + work + "".join(more), folder)))


def test_the_page_as_it_was_found_good() -> None:
    expect(page(hand_pages, book_of("hook-forge"), "the-hands/study/forging.md"), "study-forging")


def test_it_is_linked_from_the_skill_and_from_who_is_on_the_way() -> None:
    forge = book_of("hook-forge")
    assert 'href="../study/forging.html"' in page(hand_pages, forge, "the-hands/skills/forging.md").html
    nils = page(hand_pages, forge, "the-hands/people/nils.md").html
    assert nils.count('href="../study/forging.html"') == 1
    assert "study/" not in page(hand_pages, forge, "the-hands/people/petra.md").html  # she is beyond it


def test_a_skill_that_covers_nothing_written_has_no_page() -> None:
    forge = book_of("hook-forge")
    made = {sheet.src_uri for sheet in hand_pages(forge)}
    assert "the-hands/study/tending-the-fire.md" not in made
    assert "study/" not in page(hand_pages, forge, "the-hands/skills/tending-the-fire.md").html


# --- what is asked of each construct ----------------------------------------------------------------------


def test_troubles(tmp_path: Path) -> None:
    found = told(tmp_path, """\
steps: Turn it.
troubles:
  - {sign: It still chatters after two passes., cause: The tool is high., do: Set it lower., then: scrap}
  - {sign: "Rings, fine ones.", do: Lighter cut.}
  - {sign: The neck is torn., cause: The tool was blunt.}
  - {sign: Nobody knows about this one.}
""")
    assert found["What do you do when it still chatters after two passes, and what is the cause?"] == (
        "Cause: The tool is high. Set it lower. It is scrap. Turn the knob")
    assert found["Rings, fine ones. What do you do?"] == "Lighter cut. Turn the knob"
    assert found["What is the cause when the neck is torn?"] == "Cause: The tool was blunt. Turn the knob"
    assert not [ask for ask in found if "Nobody knows" in ask]


def test_limits_with_their_gauge_and_what_then(tmp_path: Path) -> None:
    found = told(tmp_path, """\
steps:
  - do: Turn it.
    limits:
      roundness of the knob: {is: max 0.2 mm, with: caliper, because: It must not wobble., above: {do: One more pass.}}
      diameter: {is: 30 ±0.5 mm, below: {then: scrap}, above: {do: Go on.}}
      neck: ask
      polish: matt
""", "=== tools/gauges/caliper.yml\ngauge: caliper\ntitle: Caliper\n")
    assert found["How round must the knob be, and what do you measure it with?"] == (
        "At most 0.2 mm at most 0.0078 in. Measured with Caliper. It must not wobble. Turn the knob, step 1")
    assert found["What do you do when the roundness of the knob is over its limit?"] == (
        "Above 0.2 mm: One more pass. Turn the knob, step 1")
    assert "29.5 mm" in found["What do you do when the diameter is out of its limits?"]
    assert found["How must the polish be?"] == "Matt. Turn the knob, step 1"
    assert not [ask for ask in found if "neck" in ask]  # an open question has no answer to learn


def test_a_small_table_is_told_row_by_row(tmp_path: Path) -> None:
    found = told(tmp_path, """\
steps:
  - do: Wax it.
    wait: {by: room temperature, is: {10..18 °C: min 4 h, 18..25 °C: min 2 h}, because: Cold wax is slow.}
""")
    assert found["Wax it. How long does it then stand before the next step?"] == (
        "At least 4 h at room temperature 10 to 18 °C; at least 2 h at room temperature 18 to 25 °C. "
        "Cold wax is slow. Turn the knob, step 1")


def test_a_figure_that_is_disputed_is_not_learned(tmp_path: Path) -> None:
    found = told(tmp_path, """\
steps:
  - do: Turn it.
    settings:
      speed: {said: [{is: 500 rev/min, who: ann}, {is: 900 rev/min, who: bo}]}
""")
    assert not [ask for ask in found if "speed" in ask]


def test_reasons(tmp_path: Path) -> None:
    found = told(tmp_path, """\
because: A knob that is not round is felt.
steps:
  - do: Hold the tool level.
    because: A tilted tool digs in.
    points:
      - {point: Weight on the heel of the hand., because: The fingers tire.}
      - {point: Slantwise., because: It cuts.}
      - A mind at rest.
""")
    assert found["Why do you turn the knob?"] == "A knob that is not round is felt. Turn the knob"
    assert found["Why do you hold the tool level?"] == "A tilted tool digs in. Turn the knob, step 1"
    assert found["Weight on the heel of the hand. Why?"] == "The fingers tire. Turn the knob, step 1"
    assert found["Hold the tool level. Slantwise. Why?"] == "It cuts. Turn the knob, step 1"
    assert "A mind at rest." in found["Hold the tool level. What must you mind?"]


def test_ends_loops_windows_and_waits(tmp_path: Path) -> None:
    found = told(tmp_path, """\
steps:
  - {id: cut, do: Cut it down., until: {clock: about 2 min, sign: It hums., wins: sign}}
  - do: Wax it.
    repeat: {from: cut, until: It shines., times: about 2; max 4}
    wait: {is: min 10 min; max 2 h, above: {do: Wax it again.}}
  - do: Buff it.
    windows:
      open time: {after: cut, is: max 1 h, above: {then: scrap}, because: Wax skins over.}
until: Nothing catches the nail.
""")
    assert found["Cut it down. Until when?"] == (
        "Until it hums, about 2 min by the clock; go by the sign, not the clock. Turn the knob, step 1")
    assert found["Wax it. Until when is it done again, and how often?"] == (
        "Again from step 1. Until it shines. Usually 2 times, at most 4. Turn the knob, step 2")
    assert found["Wax it. How long does it then stand before the next step?"] == (
        "At least 10 min, at most 2 h. Missed (after 2 h): Wax it again. Turn the knob, step 2")
    assert found["Open time, counted from the end of step 1 to the start of step 3: until when?"] == (
        "At most 1 h. Missed (after 1 h): It is scrap. Wax skins over. Turn the knob, step 3")
    assert found["How do you know that you are done, when you turn the knob?"] == (
        "Nothing catches the nail. Turn the knob")


def test_good_and_bad_by_the_sense_that_judges(tmp_path: Path) -> None:
    found = told(tmp_path, """\
steps:
  - do: Stroke it.
    feel: {sense: touch, where: the ball of the thumb, good: Like a worn coin., bad: It catches., fails: {do: Buff it.}}
    checks: {do: Hold it to the light., good: No shadow.}
""")
    assert found["The ball of the thumb. What do good and bad feel like?"] == (
        "Good: Like a worn coin. Bad: It catches. If bad: Buff it. Turn the knob, step 1")
    assert found["Hold it to the light. What does good look like?"] == "Good: No shadow. Turn the knob, step 1"


def test_order_before_and_after(tmp_path: Path) -> None:
    found = told(tmp_path, """\
after: {done: saw-block, because: A round block rolls.}
steps: [Turn it., Sand it., Wax it.]
""", "=== procedures/knob/saw-block.yml\nprocedure: saw-block\ntitle: Saw the block\nsteps: Saw it.\n"
     "=== procedures/knob/glue-knob.yml\nprocedure: glue-knob\ntitle: Glue the knob\nafter: turn-knob\n"
     "steps: Glue it.\n")
    assert found["What comes before “Turn the knob”, and why?"] == (
        "Saw the block. A round block rolls. Turn the knob")
    assert found["What comes after “Turn the knob”?"] == "Glue the knob Turn the knob"
    assert found["In what order do the steps come when you turn the knob?"] == "Turn it. Sand it. Wax it. Turn the knob"


def test_what_hurts_and_what_is_forbidden_is_asked_once_at_its_thing(tmp_path: Path) -> None:
    found = told(tmp_path, """\
tools: lathe
never: {do: Leave the key in the chuck., because: It flies.}
steps:
  - do: Turn it.
    tools: lathe
    hazards: {hazard: chips, word: caution, harm: They cut., avoid: Brush them off.}
""", """\
=== tools/machines/lathe.yml
machine: lathe
title: Lathe, small
hazards: {hazard: drawn in, word: danger, harm: It takes the arm., avoid: No sleeves., wear: cap}
never: {do: Wear gloves at the lathe., because: It takes the hand.}
life: {sign: The bed is worn hollow., do: Have it scraped.}
=== tools/protection/cap.yml
protection: cap
title: Cap
""")
    assert found["What can hurt you at the lathe, and how do you avoid it?"] == (
        "Danger: drawn in. It takes the arm. No sleeves. Wear: cap. Lathe, small")
    assert found["What must you never do at the lathe, and why?"] == (
        "Never wear gloves at the lathe. It takes the hand. Lathe, small")
    assert found["What must you never do when you turn the knob, and why?"] == (
        "Never leave the key in the chuck. It flies. Turn the knob")
    assert "Caution: chips." in found["What can hurt you when you turn the knob, and how do you avoid it?"]
    assert found["What do you wear when you turn the knob?"] == "Cap Turn the knob"
    assert found["How do you know that the lathe is worn, and what do you do then?"] == (
        "The bed is worn hollow. Have it scraped. Lathe, small")


def test_what_holds_for_one_variant_says_so(tmp_path: Path) -> None:
    found = told(tmp_path, """\
variants: {wood: {values: [ash, pear]}}
steps:
  - do: Turn it.
    settings: {speed: {by: wood, is: {ash: 900 rev/min, pear: 700 rev/min}}}
    points: [{point: Across the rings., for: {wood: ash}, because: They tear.}]
""")
    assert found["For the ash wood: turn it. Across the rings. Why?"] == "They tear. Turn the knob, step 1"
    assert "for the ash wood" in found["What is the right speed?"]


def test_two_questions_of_the_same_words_tell_their_step(tmp_path: Path) -> None:
    found = told(tmp_path, """\
steps:
  - {do: Rough it out., settings: {speed: 500 rev/min}}
  - {do: Smooth it., settings: {speed: 900 rev/min}}
""")
    assert "500" in found["Rough it out. What is the right speed?"]
    assert "900" in found["Smooth it. What is the right speed?"]


def test_words_of_the_shop_that_the_work_uses(tmp_path: Path) -> None:
    found = told(tmp_path, "steps: Leave no burr.\n",
                 "=== procedures/shop.yml\nshop: s\ntitle: S\nwords: {burr: A thin lip., dross: Skin of the metal.}\n")
    assert found["What does “burr” mean?"] == "A thin lip. Words"
    assert not [ask for ask in found if "dross" in ask]


def test_a_bare_procedure_asks_next_to_nothing(tmp_path: Path) -> None:
    assert told(tmp_path, "steps: Turn it.\n") == {}


# --- keys, safety, place ----------------------------------------------------------------------------------


def test_a_question_is_known_by_another_key_when_its_answer_changes(tmp_path: Path) -> None:
    """What somebody could answer of the older page does not count for the new one."""
    def keys(speed: str, folder: Path) -> dict[str, str]:
        work = f"because: It is sold.\nsteps:\n  - {{do: Turn it., settings: {{speed: {speed}}}}}\n"
        made = article(book_written(SKILL + WORK + work, folder))
        return {ask: key for key, ask, _ in QUESTION.findall(made)}

    before, after = keys("500 rev/min", tmp_path / "a"), keys("600 rev/min", tmp_path / "b")
    assert before["Why do you turn the knob?"] == after["Why do you turn the knob?"]
    assert before["What is the right speed?"] != after["What is the right speed?"]


@pytest.mark.parametrize("pattern", [r'data-key="(\w+)"', r' id="([^"]+)"'])
def test_every_key_and_every_id_stands_once(pattern: str) -> None:
    found = re.findall(pattern, article(book_of("hook-forge"), "forging"))
    assert len(found) > 1
    assert len(found) == len(set(found))


def test_the_answers_that_are_printed_at_the_end_are_those_of_the_questions() -> None:
    made = article(book_of("hook-forge"), "forging")
    at_the_end = words_of(made[made.index("bl-study__answers"):])
    for _, _, answer in QUESTION.findall(made):
        alone = words_of(answer[: answer.index('<p class="bl-study__where"')])
        assert alone in at_the_end
        at_the_end = at_the_end[at_the_end.index(alone) + len(alone):]  # and in the same order


def test_what_somebody_writes_stays_text(tmp_path: Path) -> None:
    made = article(book_written(SKILL + WORK + """\
steps:
  - do: <b>Turn</b> it.
    points: {point: "<script>x</script> on top.", because: <i>So.</i>}
troubles: {sign: "<img src=x>", do: "<u>Stop</u>"}
""", tmp_path))
    assert "<script>x" not in made and "<img src=x" not in made and "<u>" not in made
    assert "&lt;script&gt;" in made


def test_a_page_with_errors_is_marked() -> None:
    wrong = Finding(At("procedures/hook/bend-hook.yml", 3, 1), "unit-missing", Level.ERROR, "25 what?")
    assert "Not sound" in article(replace(book_of("hook-forge"), findings=(wrong,)), "forging")


@pytest.mark.parametrize("title", ["Turning of knobs", "The knob", "Knob-turning, by hand"])
def test_a_title_that_is_no_instruction_is_quoted(title: str, tmp_path: Path) -> None:
    work = WORK.replace("Turn the knob", title) + "because: It is sold.\nsteps: Turn it.\nuntil: It shines.\n"
    found = asked(article(book_written(SKILL + work, tmp_path)))
    assert f"“{title}”: why is it done?" in found
    assert f"How do you know that you are done, in “{title}”?" in found
