"""The season at the desk: asked, answered in one sentence, kept, taken out; and what it is planned from, written."""

from __future__ import annotations

import re
import threading
from html.parser import HTMLParser
from pathlib import Path

import pytest

from site_builder.bench.guards import Doors, Tokens
from site_builder.checks.example import write_example
from site_builder.season import solve
from site_builder.season.engine import Effort
from tests.bench.conftest import HOST, Clock, Hand, bench_of
from tests.plans.hinges import SHOP


@pytest.fixture
def hinges(tmp_path: Path, clock: Clock) -> Hand:
    """A browser at the desk of the hinges, with the pens out."""
    write_example(SHOP, tmp_path / "shop")
    own = tmp_path / "own"
    hand = Hand(bench_of(tmp_path / "shop", own, clock), Doors("http", frozenset({HOST})), Tokens(own / "bench"))
    hand.get("/")
    hand.get("/line/spring")
    hand.post("/pens", who="ada", back="/line/spring")
    return hand


@pytest.fixture
def in_a_hurry(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solve, "_USUAL", Effort(0.5))


def answer(hand: Hand, **fields: str) -> str:
    """Ask, and wait until it is answered."""
    hand.get("/season")
    hand.post("/season", **fields)
    asked = hand.bench.season
    assert asked is not None and asked.done.wait(60)
    return hand.get("/season/answer")


def plans(hand: Hand) -> list[str]:
    return sorted(one.name for one in (hand.bench.here.root / "procedures").glob("seasons/*.yml"))


@pytest.mark.usefixtures("in_a_hurry")
def test_will_we_make_it_is_answered_in_one_sentence_and_kept_if_one_says_so(
    hinges: Hand,
) -> None:
    assert "Will we make it?" in hinges.get("/")
    assert "Nothing is planned of it yet." in hinges.get("/season")
    said = answer(hinges, order="spring")
    assert re.search(r'<p class="bl-lede">Yes: 40 by 30 April 2027; by this plan the last is packed on [^<]*'
                     r"scarcest are the hours of Ada Ost[^<]*\.</p>", said)
    assert "Played a thousand times with other luck" in said
    assert "What is narrow" in said
    assert re.search(r"Punch the leaf: Ada<span>80, [^<]*; to begin at the latest on \d+ April 2027", said)
    assert "which nobody has written" not in said and "on which days" not in said
    assert plans(hinges) == []
    assert "Kept in the notebook" in hinges.post("/season/answer", keep="1")
    assert plans(hinges) == ["spring-planned-2026-11-28.yml"]
    assert "Planned on 28 November 2026. Yes: 40 by 30 April 2027" in hinges.get("/season")
    hinges.get("/season/answer")
    hinges.post("/season/answer", out="1")
    assert plans(hinges) == []
    hinges.get("/written")
    again = re.search(r'name="back" value="([^"]+)"', hinges.get("/written"))
    assert again
    hinges.post("/written", back=again[1])
    assert plans(hinges) == ["spring-planned-2026-11-28.yml"]


def test_what_if_somebody_is_away_is_one_sentence_beside_the_season_as_it_stands(hinges: Hand) -> None:
    said = answer(hinges, what="if", gone="ada", since="2027-03-15", until="2027-03-19")
    assert "As it stands: the last is packed on" in said
    assert "Without Ada Ost from 15 March 2027 to 19 March 2027: the last is packed on" in said
    hinges.get("/season")
    assert "“next week” is no day. Write it as 2027-02-01." in hinges.post("/season", what="if", since="next week")
    assert hinges.status == 422
    assert "“many” is no number of pieces." in hinges.post("/season", what="if", pieces="many")
    assert "Say what is to be otherwise" in hinges.post("/season", what="if")


def test_an_order_that_cannot_be_planned_says_what_is_missing(hinges: Hand) -> None:
    file = hinges.bench.here.root / "procedures/orders/spring.yml"
    file.write_text(file.read_text("utf-8").replace("due: 2027-04-30\n", ""), "utf-8")
    assert "does not say by when" in answer(hinges, order="spring")


def test_while_it_is_reckoned_the_page_looks_again_and_can_be_stopped(
    hinges: Hand, monkeypatch: pytest.MonkeyPatch,
) -> None:
    from site_builder.bench import season_asked

    going, made = threading.Event(), season_asked.make

    def slow(*args: object, **more: object) -> object:
        going.wait(30)
        return made(*args, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(season_asked, "make", slow)
    hinges.get("/season")
    waits = hinges.post("/season", order="spring")
    assert "It is being reckoned." in waits
    assert hinges.page is not None and hinges.page.headers["Refresh"] == "3"
    hinges.post("/season/answer", stop="1")
    going.set()
    asked = hinges.bench.season
    assert asked is not None and asked.done.wait(60)
    assert "It was stopped before there was a plan." in hinges.get("/season/answer")


class Form(HTMLParser):
    """What a browser would send of the form on a page if nobody touched it."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.fields: dict[str, list[str]] = {}
        self._area = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = {name: value or "" for name, value in attrs}
        name = told.get("name", "")
        if tag == "textarea":
            self._area = name
            self.fields[name] = [""]
        elif tag == "input" and name and (told.get("type") not in ("radio", "checkbox") or "checked" in told):
            self.fields.setdefault(name, []).append(told.get("value", ""))

    def handle_endtag(self, tag: str) -> None:
        self._area = "" if tag == "textarea" else self._area

    def handle_data(self, data: str) -> None:
        if self._area:
            self.fields[self._area][0] += data.removeprefix("\n")


def write(hand: Hand, address: str, **typed: object) -> None:
    form = Form(hand.get(address)).fields
    assert hand.status == 200 and set(typed) <= {*form, "name", *(one.removesuffix("-there") for one in form)}, address
    hand.post(address, write="1", **{**form, **typed})
    assert hand.status == 200, address


ORDER = "procedures/orders/spring.yml"
SHOP_FILE = "procedures/shop.yml"


@pytest.mark.parametrize(("address", "typed", "file", "line"), [
    ("bo/form", {"f-absent": "2027-03-08..2027-03-12\n2027-04-05"}, "skills/people.yml",
     "absent: [2027-03-08..2027-03-12, 2027-04-05]"),
    ("ada/form", {"f-absent": ""}, "skills/people.yml", "  ada: {name: Ada Ost, hours: 20 h/week}"),
    ("bo/form", {"f-hours": "12 h/week", "f-learning": "2 h/week"}, "skills/people.yml",
     "  bo: {name: Bo Ost, hours: 12 h/week, learning: 2 h/week, other: 2 h/week, days: [Monday, Tuesday]}"),
    ("spring/form", {"f-not-before": "2027-03-08"}, ORDER, "not before: 2027-03-08"),
    ("spring/form?add=pinned", {"f-work": "punch-leaf", "f-who": "ada", "f-date": "2027-03-15..2027-03-19"}, ORDER,
     "pinned: {work: punch-leaf, who: ada, date: 2027-03-15..2027-03-19}"),
    ("spring/form?add=pinned", {"f-work": "punch-leaf"}, ORDER, "pinned: punch-leaf"),
    ("spring/form?add=made", {"name": "leaf", "f-value": "20"}, ORDER, "made:"),
    ("press/form", {"f-count": "2"}, "tools/machines/press.yml", "count: 2"),
    ("screw/form", {"f-stock": "120", "f-lead-time": "3 wk"}, SHOP_FILE,
     "parts: {leaf: Leaf, screw: {title: Screw, supplier: Drumlow, lead time: 3 wk, stock: 120}}"),
    ("blue-leaf/form", {"f-taken-in": ["Monday", "Friday"]}, "procedures/leaf/blue-leaf.yml",
     "taken in: [Monday, Friday]"),
    ("-shop/form?add=planning", {"f-aims": "calm", "f-lifting": "4000 kg"}, SHOP_FILE,
     "planning: {aims: calm, lifting: 4000 kg}"),
])
def test_what_a_season_is_planned_from_is_written_at_the_desk(
    hinges: Hand, address: str, typed: dict[str, object], file: str, line: str,
) -> None:
    root = hinges.bench.here.root
    before = (root / file).read_text("utf-8").splitlines()
    write(hinges, f"/line/{address}", **typed)
    now = (root / file).read_text("utf-8").splitlines()
    assert line in [one if line.startswith(" ") else one.strip() for one in now]
    assert len([one for one in before if one not in now]) <= 1
    assert not [one for one in hinges.bench.here.reading().findings if one.level.value == "error"]
