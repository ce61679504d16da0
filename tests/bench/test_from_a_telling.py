"""From a telling: a short one taken up whole, sentence by sentence, as a browser without a script does it."""

from __future__ import annotations

import io
import re
import shutil
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.bench.guards import Doors, Tokens
from tests.bench.conftest import HOST, Clock, Hand, bench_of

NOTEBOOK = Path(__file__).parent.parent / "notebooks/telling"
WORK = "procedures/weave-sides.yml"
TELLING = "procedures/tellings/soaking.yml"
LAST = "/telling/soaking/take?cue=c005&work=weave-sides&kind="
"""The one sentence that is open, as …"""


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    shutil.copytree(NOTEBOOK, tmp_path / "shop")
    return tmp_path / "shop"


@pytest.fixture
def hand(yard: Path, tmp_path: Path, clock: Clock) -> Hand:
    own = tmp_path / "own"
    return Hand(bench_of(yard, own, clock), Doors("http", frozenset({HOST})), Tokens(own / "bench"))


def field(page: str, name: str) -> str:
    """What stands in a field of the form when it opens; empty where the form has none of this name."""
    box = re.search(
        rf'<textarea[^>]*name="{name}"[^>]*>\n(.*?)</textarea>|<input class[^>]*name="{name}" value="([^"]*)"', page,
        re.DOTALL)
    if box is not None:
        return unescape(box[1] if box[1] is not None else box[2])
    chosen = re.search(rf'<select[^>]*name="{name}".*?</select>', page, re.DOTALL)
    picked = re.search(r'value="([^"]*)" selected', chosen[0]) if chosen is not None else None
    return picked[1] if picked else ""


def take_up(hand: Hand, address: str, **otherwise: str) -> str:
    """Open the form of a sentence and send it as it opened, but for what is typed otherwise."""
    page = hand.get(address)
    opened = {name: field(page, name) for name in ("words", "value", "name", "because", "thing", "new", "where")}
    return hand.post("/telling/" + address.split("/")[2] + "/take", **{**opened, **otherwise})


def test_the_telling_shows_its_sentences_and_how_far_it_is(hand: Hand) -> None:
    page = hand.get("/telling/soaking")
    assert "Of 5 sentences <b>3 are taken up, 1 laid aside and 1 still open.</b>" in page
    assert "One that creaks you never weave with" in page
    assert "Taken up: Weave the sides, step 1" in page
    assert "Open, sounds like a word of the shop" in page
    assert 'src="/telling/soaking/voice"' in page


def test_a_sentence_opens_filled_in_and_is_written_with_its_moment(hand: Hand, yard: Path) -> None:
    page = hand.get(f"{LAST}wait")
    assert field(page, "value") == ""  # a night has no hours that anybody named
    take_up(hand, f"{LAST}wait", value="12 h", where="0")
    assert (yard / WORK).read_text("utf-8").count("told: soaking#t=16,19") == 1
    survey = analysis(yard, date(2026, 11, 28))
    assert survey.coverage["soaking"].of("open") == ()
    assert "Every sentence is taken up or laid aside." in hand.get("/telling/soaking")


def test_a_word_goes_into_the_shop_and_the_telling_says_so(hand: Hand, yard: Path) -> None:
    take_up(hand, f"{LAST}word", name="mellowing", words="A night under wet sacking.")
    assert "  mellowing: A night under wet sacking." in (yard / "procedures/shop.yml").read_text("utf-8")
    assert "taken up:\n  c005: the word mellowing, Weave the sides\n" in (yard / TELLING).read_text("utf-8")
    page = hand.get("/telling/soaking")
    assert "Taken up: the word mellowing, Weave the sides" in page
    kept = re.search(r'name="back" value="([^"]+)">Take this back<span class="bn-hidden"> “Then a night', page)
    assert kept is not None
    hand.post("/telling/soaking/aside", back=kept[1])
    assert "mellowing" not in (yard / "procedures/shop.yml").read_text("utf-8")
    assert "1 still open" in hand.get("/telling/soaking")


def test_laid_aside_and_opened_again(hand: Hand, yard: Path) -> None:
    before = (yard / TELLING).read_bytes()
    hand.get("/telling/soaking")
    assert "2 laid aside and 0 still open" in hand.post("/telling/soaking/aside", aside="c005")
    hand.get("/telling/soaking")
    hand.post("/telling/soaking/aside", reopen="c005")
    assert (yard / TELLING).read_bytes() == before


def test_what_was_said_otherwise_is_shown_with_what_stands_and_asked(hand: Hand, yard: Path) -> None:
    ask = f"{LAST}limit"
    page = take_up(hand, ask, name="time in the trough", value="a whole day", where="0")
    assert "Two different things were said" in page and "Ask Mab" in page
    written = (yard / WORK).read_text("utf-8")
    assert "1 d" not in written
    hand.post("/telling/soaking/take", holds="ask")
    written = (yard / WORK).read_text("utf-8")
    assert "said:" in written and "is: 1 d" in written and "is: about 1 h" in written
    assert "value-disputed" in {one.code for one in hand.bench.here.reading().findings}


def test_the_second_holds_and_the_first_is_kept_beside_it(hand: Hand, yard: Path) -> None:
    take_up(hand, f"{LAST}limit", name="time in the trough", value="a whole day", where="0")
    hand.post("/telling/soaking/take", holds="second")
    step = analysis(yard, date(2026, 11, 28)).notebook.procedures["weave-sides"].steps[0]
    (limit,) = step.limits["time in the trough"]
    assert (str(limit.is_.text), [str(one.is_.text) for one in limit.said]) == ("1 d", ["about 1 h"])  # type: ignore[union-attr]


def test_no_twelve_not_ten_takes_back_the_earlier_one(hand: Hand, yard: Path) -> None:
    (yard / "procedures/tellings/drying.txt").write_text(
        "You dry it for ten minutes.\nNo, twelve minutes, not ten.\n", "utf-8")
    (yard / "procedures/tellings/drying.yml").write_text(
        "telling: drying\ntitle: Drying\nteller: mab\ntranscript: drying.txt\n", "utf-8")
    page = hand.get("/telling/drying/take?cue=c002&work=weave-sides&kind=limit")
    assert "It takes back what was said before" in page and "You dry it for ten minutes." in page
    assert (field(page, "value"), field(page, "name")) == ("12 min", "time")
    take_up(hand, "/telling/drying/take?cue=c002&work=weave-sides&kind=limit", where="1")
    assert "told: drying#c001,c002" in (yard / WORK).read_text("utf-8")
    assert hand.bench.here.reading().survey.coverage["drying"].of("open") == ()


def test_what_was_taken_up_is_taken_back_by_the_next_sentence(hand: Hand, yard: Path) -> None:
    (yard / "procedures/tellings/drying.txt").write_text(
        "You dry it for ten minutes.\nNo, twelve minutes, not ten.\n", "utf-8")
    (yard / "procedures/tellings/drying.yml").write_text(
        "telling: drying\ntitle: Drying\nteller: mab\ntranscript: drying.txt\n", "utf-8")
    written = (yard / WORK).read_text("utf-8")
    (yard / WORK).write_text(written + "    limits:\n      drying time: {is: 10 min, told: drying#c001}\n", "utf-8")
    page = hand.get("/telling/drying/take?cue=c002&work=weave-sides&kind=limit")
    assert (field(page, "name"), field(page, "where"), field(page, "value")) == ("drying time", "1", "12 min")
    page = take_up(hand, "/telling/drying/take?cue=c002&work=weave-sides&kind=limit")
    assert "Mab takes back what was said before" in page
    hand.post("/telling/drying/take", holds="taken-back")
    (limit,) = analysis(yard, date(2026, 11, 28)).notebook.procedures["weave-sides"].steps[1].limits["drying time"]
    assert str(limit.is_.text) == "12 min" and [str(one) for one in limit.told] == [  # type: ignore[union-attr]
        "drying#c001", "drying#c002"]


def test_what_is_missing_is_said_at_its_field_and_nothing_is_written(hand: Hand, yard: Path) -> None:
    before = (yard / WORK).read_bytes()
    page = take_up(hand, f"{LAST}limit", name="", value="two", where="0")
    assert hand.status == 422 and ('role="alert"' in page or "bn-read--out" in page)
    assert (yard / WORK).read_bytes() == before


def test_nothing_of_a_voice_is_copied_before_it_is_known_who_agreed(hand: Hand, yard: Path) -> None:
    voice = (yard / "procedures/tellings/soaking.wav").read_bytes()
    given = {"title": "Mab on slewing", "typed": "Mab: Two rods at once, one behind the other.", "teller": "mab"}
    hand.get("/telling/-new")
    page = hand.post("/telling/-new", **given, voice=(io.BytesIO(voice), "slewing.wav"))
    assert hand.status == 422 and "not copied before" in page
    assert [one.name for one in (yard / "procedures/tellings").iterdir() if "slewing" in one.name] == []
    hand.post("/telling/-new", **given, voice=(io.BytesIO(voice), "../../slewing.wav"), agrees="agreed")
    laid = sorted(one.name for one in (yard / "procedures/tellings").iterdir() if "slewing" in one.name)
    assert laid == ["mab-on-slewing.txt", "mab-on-slewing.wav", "mab-on-slewing.yml"]
    assert "Two rods at once" in hand.get("/telling/mab-on-slewing")


def test_somebody_not_asked_yet_is_asked_and_the_answer_is_written(hand: Hand, yard: Path) -> None:
    shop = yard / "procedures/shop.yml"
    shop.write_text(shop.read_text("utf-8").replace("recordings:\n  agreed: [mab]\n", ""), "utf-8")
    assert "Does Mab Oriel agree" in hand.get("/telling/soaking")
    hand.post("/telling/soaking/agreed", answer="agreed")
    assert "agreed: [mab]" in shop.read_text("utf-8") or "- mab" in shop.read_text("utf-8")
    assert "Does Mab Oriel agree" not in hand.get("/telling/soaking")


def test_a_phone_does_not_come_here_and_what_is_not_there_is_not_there(hand: Hand) -> None:
    for address in ("/telling/nothing", "/telling/soaking/take?cue=c999", "/telling/soaking/take?cue=c005&kind=verse"):
        hand.get(address)
        assert hand.status == 404
