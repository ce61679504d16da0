"""Sit down together: questions of every kind, answered right, wrong, not at all, and never asked twice."""

from __future__ import annotations

import html
import io
import re
import struct
import wave
from pathlib import Path

import pytest
from PIL import Image

from site_builder.bench.guards import Doors, Tokens
from tests.bench.conftest import HOST, Clock, Hand, bench_of

FILES = {
    "procedures/shop.yml": "shop: halm-tinware\ntitle: Halm Tinware\nformat: 1\nproducts:\n  storm-hood: Storm hood\n",
    "skills/people.yml": "people:\n  edda: {name: Edda Halm, born: 1957, founding: yes}\n  tom: Tom Wendt\n",
    "procedures/shared/mend-a-dent.yml": """\
procedure: mend-a-dent
title: Mend a dent   # as she calls it
steps:
  - do: Warm the hood over the small flame.
    limits:
      heat of the hood: perhaps 120..180 °C
    wait: ask
  - id: rub
    do: Rub it flat with the stick.
    feel: It gives like leather.
    repeat: {from: rub, until: no dent is seen}

  # the finest there is
  - do: Sand it.
    settings:
      grit: ask
""",
}
TELLING = "teller=edda&writer=tom&count=0&since="
ABOUT = f"/sit/mend-a-dent?{TELLING}"
MEND = "procedures/shared/mend-a-dent.yml"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    for name, text in FILES.items():
        (tmp_path / "shop" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "shop" / name).write_text(text, "utf-8")
    return tmp_path / "shop"


def opened(shop: Path) -> Hand:
    """The bench, just started: nothing is remembered but what is on the disk."""
    own = shop.parent / "own"
    return Hand(bench_of(shop, own, Clock()), Doors("http", frozenset({HOST})), Tokens(own / "bench"))


@pytest.fixture
def hand(shop: Path) -> Hand:
    return opened(shop)


def asked(page: str) -> str:
    """The question that the page puts."""
    found = re.search(r'<h1 class="bn-q">(.*?)</h1>', page, re.DOTALL)
    return html.unescape(found[1]) if found else ""


def picture() -> io.BytesIO:
    data = io.BytesIO()
    Image.new("RGB", (60, 40), "#884422").save(data, "JPEG")
    data.seek(0)
    return data


def voice() -> io.BytesIO:
    data = io.BytesIO()
    with wave.open(data, "wb") as out:
        out.setparams((1, 2, 8000, 800, "NONE", ""))
        out.writeframes(struct.pack("<800h", *([0] * 800)))
    data.seek(0)
    return data


ANSWERS: tuple[tuple[str, dict[str, object]], ...] = (
    ("What can hurt you", {"words": "The torch sets sleeves alight.\nHot brass burns."}),
    ("What goes wrong", {"words": "It tears at the rim."}),
    ("Of a hundred pieces", {"words": "4", "unit": "%"}),
    ("How often is the heat of the hood looked at", {"words": "every 10 pieces"}),
    ("How often at most", {"words": "5"}),
    ("What do beginners get wrong", {"way": "not-known"}),
    ("What do you look at before the first move", {"words": "The flame burns blue."}),
    ("Does 120 to 180", {"chosen": "yes"}),
    ("how long may it stand afterwards", {"words": "at most 5", "unit": "min"}),
    ("what is it like when it is bad", {"words": "It clanks."}),
    ("How often do you look", {"way": "no-matter"}),
    ("what is the grit", {"way": "ask", "whom": "tom"}),
    ("Who may do this alone", {"new": "Dents"}),
    ("Why is it done", {"words": "A dent throws a shadow."}),
    ("Of what is it made", {"new": "Brass"}),
    ("Which part is worked on", {"chosen": "storm-hood"}),
    ("How long does it take", {"words": "a good quarter of an hour"}),
    ("With what is it done", {"new": "Boxwood stick", "new-kind": "hand-tool"}),
)


def answer_all(hand: Hand, answers: tuple[tuple[str, dict[str, object]], ...] = ANSWERS) -> list[str]:
    """Answer whatever is asked; the questions in the order in which they were put."""
    put = []
    page = hand.get(ABOUT)
    while question := asked(page):
        put.append(question)
        fields = next((fields for start, fields in answers if start in question.replace("\xa0", " ")), {"way": "later"})
        page = hand.post(f"/sit/mend-a-dent/answer?{TELLING}", **({"write": "1"} | fields if "way" not in fields
                                                                  else fields))
        assert hand.status == 200, (question, page[page.find("bn-read--out"):][:300])
        assert len(put) < 40, put
    return put


def test_a_whole_sitting_reads_as_if_a_careful_hand_had_typed_it(hand: Hand, shop: Path) -> None:
    put = answer_all(hand)
    assert put[0].startswith("What can hurt you") and len(put) == len(set(put))
    on = "source: told by edda on 2026-11-28"
    assert (shop / MEND).read_text("utf-8") == f"""\
procedure: mend-a-dent
title: Mend a dent   # as she calls it
part: storm-hood
skill: dents
because: A dent throws a shadow.
tools: boxwood-stick
materials: brass
ready:
  good: The flame burns blue.
  {on}
hazards:
  - {{hazard: The torch sets sleeves alight., {on}}}
  - {{hazard: Hot brass burns., {on}}}
steps:
  - do: Warm the hood over the small flame.
    limits:
      heat of the hood:
        is: 120..180 °C
        check: {{when: every 10 pieces, {on}}}
        {on}
    wait: {{is: max 5 min, {on}}}
  - id: rub
    do: Rub it flat with the stick.
    feel:
      good: It gives like leather.
      bad: It clanks.
      asked:
        when: does not matter; edda; 2026-11-28
    repeat: {{times: 5, from: rub, until: no dent is seen}}

  # the finest there is
  - do: Sand it.
    settings:
      grit:
        is: ask
        asked:
          is: ask tom; edda; 2026-11-28
time: {{each: min 15 min, {on}}}
yield: {{scrap: 4 %, {on}}}
troubles:
  - sign: It tears at the rim.
    {on}
asked:
  points: not known; edda; 2026-11-28
"""
    assert (shop / "tools/hand/boxwood-stick.yml").read_text("utf-8").endswith("title: Boxwood stick\n")
    end = hand.get(f"/sit/mend-a-dent/end?{TELLING}")
    assert end.count("Take this back<") == 18 and "The torch sets sleeves alight." in end


def test_nobody_is_asked_twice_and_the_other_one_is_asked(hand: Hand, shop: Path) -> None:
    answer_all(hand)
    assert not any("grit" in one or "beginners" in one for one in answer_all(opened(shop)))
    page = opened(shop).get(ABOUT.replace("teller=edda", "teller=tom"))
    while question := asked(page):
        if "grit" in question:
            return
        break
    texts = opened(shop).get("/questions")
    assert "what is the grit" in texts and "Tom Wendt may know it" in texts


def test_an_answer_that_cannot_be_read_is_refused_in_words_with_the_mend(hand: Hand, shop: Path) -> None:
    before = (shop / MEND).read_bytes()
    page = hand.get(ABOUT)
    while "how long may it stand" not in asked(page):
        page = hand.post(f"/sit/mend-a-dent/answer?{TELLING}", way="later")
    for typed, told in (("twelve o'clock", "I cannot read"), ("5", "5 what?"), ("", "Nothing is written yet.")):
        said = hand.post(f"/sit/mend-a-dent/answer?{TELLING}", words=typed, write="1")
        assert hand.status == 422 and told in html.unescape(said) and f'value="{html.escape(typed)}"'[:12] in said
        assert "how long may it stand" in asked(said)
    said = hand.post(f"/sit/mend-a-dent/answer?{TELLING}", way="ask")
    assert hand.status == 422 and "Say first whom to ask." in said
    assert (shop / MEND).read_bytes() == before


def test_what_was_typed_is_read_back_while_one_types(hand: Hand) -> None:
    said = html.unescape(hand.get("/read", query_string={"text": "between 12 and 30", "unit": "°C"}))
    assert re.search(r"I read: <b>12 to 30\s°C", said)
    assert "bn-read--out" in hand.get("/read", query_string={"text": "some"})


def test_each_answer_can_be_taken_back(hand: Hand, shop: Path) -> None:
    hand.get(ABOUT)
    page = hand.post(f"/sit/mend-a-dent/answer?{TELLING}", words="Hot brass burns.", write="1")
    name = page.partition('name="back" value="')[2].partition('"')[0]
    page = hand.post(f"/sit/mend-a-dent/back?{TELLING}", back=name)
    assert (shop / MEND).read_text("utf-8") == FILES[MEND] and "What can hurt you" in asked(page)


def test_a_picture_and_a_voice_are_kept_beside_the_work(hand: Hand, shop: Path) -> None:
    page = hand.get(ABOUT)
    hand.post(f"/sit/mend-a-dent/answer?{TELLING}", voice=(voice(), "told.wav"), write="1")
    assert [one.suffix for one in (shop / "procedures/photos").iterdir()] == [".wav"]
    said = (shop / MEND).read_text("utf-8")
    assert "pictures:" in said and "told by edda on 2026-11-28" in said
    page = hand.get(ABOUT)
    assert asked(page) and "What can hurt you" not in asked(page), "the question waits until somebody writes it down"
    assert "What can hurt you" in opened(shop).get("/questions")


def test_what_can_hurt_is_asked_again_after_a_year(hand: Hand, shop: Path) -> None:
    hand.get(ABOUT)
    hand.post(f"/sit/mend-a-dent/answer?{TELLING}", way="no-matter")
    assert "hazards: cannot hurt; edda; 2026-11-28" in (shop / MEND).read_text("utf-8")
    assert "What can hurt you" not in hand.get("/questions")
    text = (shop / MEND).read_text("utf-8")
    (shop / MEND).write_text(text.replace("2026-11-28", "2025-11-27"), "utf-8")
    assert "What can hurt you" in hand.get("/questions")


def test_a_sitting_offers_what_fits_the_time(hand: Hand) -> None:
    page = html.unescape(hand.get("/sit", query_string={"teller": "edda", "writer": "tom", "long": "15"}))
    assert "The weightiest, one piece of work after the other" in page and "3 questions, about 12 minutes" in page
    assert asked(hand.get("/sit/-all?teller=edda&writer=tom&count=3&since="))
