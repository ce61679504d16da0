"""At the line: from an empty folder to a procedure that was begun, changed, added to, moved, renamed, taken back."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest

from site_builder.bench.guards import Doors, Tokens
from tests.bench.conftest import HOST, Clock, Hand, bench_of
from tests.bench.test_sitting import picture

TEN = """\
Look at the dent with the lamp from the side.
Warm the hood over the small flame for about 2 min.
because cold brass cracks where it was spun thin
Lay it over the sandbag, dent down.
Rub from the edge of the dent to the middle with the boxwood stick.
because from the middle out it folds
never hit it with a hammer.
Try it on the chuck.
If light comes through, go round once more.
Sand it with P400.
until no scratch runs across
Wipe it.
Wrap it in paper.
Put it on the rack.
"""
BEGUN = """\
# yaml-language-server: $schema=../../.schemas/procedure.json
procedure: take-a-dent-out-of-the-hood
title: Take a dent out of the hood
steps:
  - do: Look at the dent with the lamp from the side.
  - do: Warm the hood over the small flame for about 2 min.
    because: Cold brass cracks where it was spun thin
  - do: Lay it over the sandbag, dent down.
  - do: Rub from the edge of the dent to the middle with the boxwood stick.
    never: Hit it with a hammer.
    because: From the middle out it folds
  - do: Try it on the chuck.
  - do: If light comes through, go round once more.
  - do: Sand it with P400.
    until: no scratch runs across
  - do: Wipe it.
  - do: Wrap it in paper.
  - do: Put it on the rack.
"""
ABOUT = "take-a-dent-out-of-the-hood"


@pytest.fixture
def hand(tmp_path: Path, clock: Clock) -> Hand:
    """A browser at the desk of an empty folder."""
    (tmp_path / "shop").mkdir()
    own = tmp_path / "own"
    return Hand(bench_of(tmp_path / "shop", own, clock), Doors("http", frozenset({HOST})), Tokens(own / "bench"))


@pytest.fixture
def begun(hand: Hand) -> Hand:
    """A shop with one procedure of ten lines, and the pens out."""
    hand.get("/begin")
    hand.post("/begin", title="Halm Tinware", masters="Edda Halm, 1957", others="Tom Wendt", makes="Storm hood\nLamp")
    hand.get("/new/procedure")
    hand.post("/new/procedure", title="Take a dent out of the hood", lines=TEN)
    hand.get(f"/line/{ABOUT}")
    hand.post("/pens", who="edda", back=f"/line/{ABOUT}")
    return hand


def file(hand: Hand, about: str = ABOUT) -> str:
    return (hand.bench.here.root / f"procedures/shared/{about}.yml").read_text("utf-8")


def write(hand: Hand, address: str, **fields: object) -> str:
    hand.get(address)
    assert hand.status == 200, address
    return hand.post(address, **fields)


def test_a_shop_is_begun_from_nothing_as_a_careful_hand_would(hand: Hand, tmp_path: Path) -> None:
    hand.get("/")
    hand.page = hand.client.get("/begin", **hand.base)
    assert "What is the shop called?" in hand.page.get_data(True)
    said = hand.post("/begin", title="", masters="Edda Halm")
    assert hand.status == 422 and "Say first what the shop is called." in said and "Edda Halm" in said
    said = hand.post("/begin", title="Halm Tinware", masters="Edda Halm, 1957", others="Tom Wendt", makes="Storm hood")
    assert "What do you want to do?" in said and "Halm Tinware" in said
    root = tmp_path / "shop"
    assert (root / "procedures/shop.yml").read_text("utf-8") == (
        "# yaml-language-server: $schema=../.schemas/shop.json\nshop: halm-tinware\ntitle: Halm Tinware\nformat: 1\n"
        "products:\n  storm-hood: Storm hood\n")
    assert (root / "skills/people.yml").read_text("utf-8") == (
        "# yaml-language-server: $schema=../.schemas/people.json\npeople:\n"
        "  edda: {name: Edda Halm, born: 1957, founding: yes}\n  tom: Tom Wendt\n")
    assert "site_name: Halm Tinware" in (root / "mkdocs.yml").read_text("utf-8")


def test_ten_lines_are_ten_steps(begun: Hand) -> None:
    assert file(begun) == BEGUN


def test_a_step_is_changed_and_nothing_else(begun: Hand) -> None:
    write(begun, f"/line/{ABOUT}/form?at=steps&at=2", **{"f-do": "Lay it over the full sandbag, dent down."})
    assert file(begun) == BEGUN.replace("over the sandbag", "over the full sandbag")


def test_a_value_by_cases_is_told_and_what_follows_a_sentence_stands_behind_a_semicolon(begun: Hand) -> None:
    path = begun.bench.here.root / f"procedures/shared/{ABOUT}.yml"
    path.write_text(BEGUN + "limits:\n"
                    "  thickness of the sheet: {by: pattern, is: {deck: max 0.5 mm, harbour: max 1 mm}}\n"
                    "troubles:\n  - {sign: It cracks., cause: Too cold., do: Warm it again.}\n", "utf-8")
    page = " ".join(re.sub(r"<[^>]+>", " ", begun.get(f"/line/{ABOUT}")).split())
    assert "Thickness of the sheet deck max 0.5 mm" in page and "; harbour max 1 mm" in page
    assert "not told yet" not in page and ".;" not in page


def test_a_story_that_is_saved_elsewhere_is_read_anew(begun: Hand) -> None:
    here = begun.bench.here
    story = here.root / "procedures" / "stories" / "yard.md"
    story.parent.mkdir(parents=True, exist_ok=True)
    story.write_text("# The yard\n", "utf-8")
    first = here.reading()
    assert here.reading() is first
    story.write_text("# The shed\n", "utf-8")  # as long as it was
    assert here.reading() is not first


def test_what_hangs_on_a_step_is_added_in_short_forms(begun: Hand) -> None:
    step = f"/line/{ABOUT}/form?at=steps&at=1"
    write(begun, f"{step}&add=limits", **{"name": "heat of the hood", "f-is": "120 to 180 °C"})
    write(begun, f"{step}&add=wait", **{"f-is": "at most 5 min"})
    write(begun, f"{step}&add=feel", **{"f-good": "A wet finger hisses.", "f-bad": "It spits.", "f-sense": "sound"})
    write(begun, f"{step}&add=hazards", **{"f-hazard": "Hot brass", "f-word": "caution",
                                           "f-harm": "It burns the hand."})
    write(begun, f"{step}&add=troubles", **{"f-sign": "It turns blue.", "f-cause": "Too hot.", "f-then": "aside"})
    write(begun, f"{step}&add=points", **{"f-point": "Keep it moving."})
    write(begun, f"{step}&add=tools", **{"f-tool-there": "1", "f-tool-new": "Gas torch", "f-tool-kind": "hand-tool"})
    write(begun, f"{step}&add=materials", **{"f-material-there": "1", "f-material-new": "Town gas",
                                             "f-amount": "9 g per piece"})
    assert file(begun) == BEGUN.replace("""\
    because: Cold brass cracks where it was spun thin
""", """\
    tools: gas-torch
    materials: {material: town-gas, amount: 9 g per piece}
    limits:
      heat of the hood: 120..180 °C
    feel:
      good: A wet finger hisses.
      bad: It spits.
      sense: sound
    points: Keep it moving.
    hazards:
      - hazard: Hot brass
        word: caution
        harm: It burns the hand.
    wait: max 5 min
    troubles:
      - sign: It turns blue.
        cause: Too hot.
        then: aside
    because: Cold brass cracks where it was spun thin
""")
    root = begun.bench.here.root
    assert (root / "tools/hand/gas-torch.yml").read_text("utf-8").endswith("hand-tool: gas-torch\ntitle: Gas torch\n")
    page = begun.get(f"/line/{ABOUT}")
    assert re.search(r"120 to 180\s°C", page) and "Gas torch" in page and ">gas-torch<" not in page


def test_a_wrong_answer_is_refused_in_words_and_what_was_typed_stays(begun: Hand) -> None:
    said = write(begun, f"/line/{ABOUT}/form?at=steps&at=1&add=limits", **{"name": "heat", "f-is": "120 to 180"})
    assert begun.status == 422 and 'value="120 to 180"' in said and "bn-read--out" in said
    assert file(begun) == BEGUN
    said = write(begun, f"/line/{ABOUT}/form?at=steps&at=1&add=hazards", **{"f-word": "danger"})
    assert begun.status == 422 and "This cannot stay empty." in said and file(begun) == BEGUN


def test_steps_are_added_moved_split_joined_and_taken_out(begun: Hand) -> None:
    write(begun, f"/line/{ABOUT}/form?add=steps", **{"f-do": "Sweep the bench."})
    write(begun, f"/line/{ABOUT}/form?add=steps&before=0", **{"f-do": "Put the apron on."})
    lines = BEGUN.splitlines(keepends=True)
    assert file(begun) == "".join([*lines[:4], "  - do: Put the apron on.\n", *lines[4:], "  - do: Sweep the bench.\n"])
    begun.get(f"/line/{ABOUT}/form?at=steps&at=0")
    begun.post(f"/line/{ABOUT}/move", **{"from": "0", "to": "1", "stood": "{'do': 'Put the apron on.'}"})
    assert file(begun).splitlines()[4:6] == ["  - do: Look at the dent with the lamp from the side.",
                                             "  - do: Put the apron on."]
    write(begun, f"/line/{ABOUT}/join?step=0", words="Look at the dent. Put the apron on.")
    write(begun, f"/line/{ABOUT}/split?step=0", first="Look at the dent.", second="Put the apron on.")
    write(begun, f"/line/{ABOUT}/form?at=steps&at=1", way="out")
    write(begun, f"/line/{ABOUT}/form?at=steps&at=10", way="out")
    assert file(begun) == BEGUN.replace("Look at the dent with the lamp from the side.", "Look at the dent.")


def test_what_was_written_is_taken_back_and_put_in_again(begun: Hand) -> None:
    write(begun, f"/line/{ABOUT}/form?at=steps&at=8", **{"f-do": "Wrap it in oiled paper."})
    now = file(begun)
    page = begun.get("/written")
    name = page.partition('name="back" value="')[2].partition('"')[0]
    assert "Wrap it in oiled paper." in page
    begun.post("/written", back=name)
    assert file(begun) == BEGUN
    again = begun.get("/written").partition('name="back" value="')[2].partition('"')[0]
    begun.post("/written", back=again)
    assert file(begun) == now


def test_a_thing_gets_another_name_wherever_it_is_named(begun: Hand) -> None:
    write(begun, f"/line/{ABOUT}/form?at=steps&at=1&add=tools", **{
        "f-tool-there": "1", "f-tool-new": "Gas torch", "f-tool-kind": "hand-tool"})
    said = write(begun, "/line/gas-torch/name", name="Small torch")
    assert "Small torch" in said
    root = begun.bench.here.root
    assert "tools: small-torch\n" in file(begun) and not (root / "tools/hand/gas-torch.yml").exists()
    torch = (root / "tools/hand/small-torch.yml").read_text("utf-8")
    assert torch.endswith("hand-tool: small-torch\ntitle: Small torch\n")
    name = begun.get("/written").partition('name="back" value="')[2].partition('"')[0]
    begun.post("/written", back=name)
    assert "tools: gas-torch\n" in file(begun)
    write(begun, "/line/tom/name", name="Tomas Wendt")
    assert "  tomas: Tomas Wendt\n" in (root / "skills/people.yml").read_text("utf-8")
    write(begun, f"/line/{ABOUT}/name", name="Take out a dent")
    assert file(begun, "take-out-a-dent").splitlines()[1:3] == ["procedure: take-out-a-dent", "title: Take out a dent"]


def test_what_somebody_else_wrote_meanwhile_is_shown_and_not_written_over(begun: Hand) -> None:
    where = begun.bench.here.root / f"procedures/shared/{ABOUT}.yml"
    begun.get(f"/line/{ABOUT}/form?at=steps&at=2")
    where.write_text(BEGUN.replace("dent down", "dent up"), "utf-8")
    said = begun.post(f"/line/{ABOUT}/form?at=steps&at=2", **{"f-do": "Lay it over the anvil."})
    assert begun.status == 422 and "dent up" in said and "Lay it over the anvil." in said
    assert file(begun) == BEGUN.replace("dent down", "dent up")


def test_what_would_be_an_error_is_said_first_and_may_be_written_all_the_same(begun: Hand) -> None:
    write(begun, f"/line/{ABOUT}/form?at=steps&at=5&add=repeat", **{"f-times": "3", "f-from": "step:1"})
    before = file(begun)
    assert "  - id: warm-the-hood-over\n" in before and "repeat: {times: 3, from: warm-the-hood-over}\n" in before
    said = write(begun, f"/line/{ABOUT}/form?at=steps&at=1", way="out")
    assert begun.status == 422 and "Write it all the same" in said and file(begun) == before


def test_every_kind_of_thing_is_begun_by_its_name(begun: Hand) -> None:
    root = begun.bench.here.root
    for kind, title, where in (
        ("hand-tool", "Boxwood stick", "tools/hand/boxwood-stick.yml"),
        ("machine", "Lathe", "tools/machines/lathe.yml"),
        ("gauge", "Steel rule", "tools/gauges/steel-rule.yml"), ("material", "Brass", "tools/materials/brass.yml"),
        ("skill", "Dents", "skills/dents.yml"), ("change", "A softer bag", "procedures/changes/a-softer-bag.yml"),
        ("order", "Autumn fair", "procedures/orders/autumn-fair.yml"),
    ):
        said = write(begun, f"/new/{kind}", **{"f-title": title})
        assert title in said and begun.status == 200, kind
        assert (root / where).read_text("utf-8").splitlines()[1:3] == [f"{kind}: {Path(where).stem}", f"title: {title}"]
    write(begun, "/new/person", **{"f-name": "Ansa Roth", "f-born": "2009"})
    assert "  ansa: {name: Ansa Roth, born: 2009}\n" in (root / "skills/people.yml").read_text("utf-8")
    write(begun, "/new/part", **{"f-title": "Wick holder"})
    assert "parts:\n  wick-holder: Wick holder\n" in (root / "procedures/shop.yml").read_text("utf-8")
    said = write(begun, "/line/storm-hood/form?add=of", **{"name": "Chimney", "f-value": "1"})
    assert begun.status == 422 and "No part is called “Chimney” yet." in said
    write(begun, "/line/storm-hood/form?add=of", **{"name": "Wick holder", "f-value": "2"})
    held = (root / "procedures/shop.yml").read_text("utf-8")
    assert "storm-hood: {title: Storm hood, of: {wick-holder: 2}}" in held


def test_a_picture_is_added_from_the_camera(begun: Hand) -> None:
    write(begun, f"/line/{ABOUT}/form?at=steps&at=2&add=pictures", **{
        "f-file": (picture(), "../../IMG 1.JPG"), "f-shows": "The hood on the bag."})
    kept = [one.name for one in (begun.bench.here.root / "procedures/photos").iterdir()]
    assert kept == [f"{ABOUT}-2026-11-28-1.jpg"]
    assert f"    pictures:\n      file: {kept[0]}\n      shows: The hood on the bag.\n" in file(begun)
    said = write(begun, f"/line/{ABOUT}/form?at=steps&at=2&add=pictures",
                 **{"f-file": (io.BytesIO(b"<svg/>"), "a.jpg")})
    assert begun.status == 422 and "This is no photo" in said


def test_a_word_of_the_shop_is_told(begun: Hand) -> None:
    write(begun, "/line/-shop/form?add=words", **{"name": "burr", "f-means": "The lip that sawing pushes up."})
    assert "words:\n  burr: The lip that sawing pushes up.\n" in (
        begun.bench.here.root / "procedures/shop.yml").read_text("utf-8")


def test_what_would_be_said_is_said_while_one_writes(begun: Hand) -> None:
    address = f"/line/{ABOUT}/form?at=steps&at=2"
    begun.get(address)
    said = begun.post(address.replace("/form", "/ahead"), **{"f-do": "Lay it down for 5 min."})
    assert "5 min" in said and "stands only in the sentence" in said and file(begun) == BEGUN
