"""Into the books, screen by screen, as a phone and a desk see them."""

from __future__ import annotations

from pathlib import Path

from tests.bench.conftest import Clock, Hand


def pin(desk: Hand, who: str, figures: str = "2846") -> None:
    desk.get(f"/pins/{who}")
    desk.post(f"/pins/{who}", new=figures, again=figures)


def test_pieces_made_are_in_the_book_when_the_page_says_so(desk: Hand, demo: Path) -> None:
    pin(desk, "ansa")
    assert "Who are you?" in desk.get("/books") and "Ansa" in desk.get("/books")
    desk.get("/books/ansa/pieces")
    said = desk.post("/books/ansa/practice/sign", procedure="deburr-foot", good="14", rework="2", scrap="0",
                     level="beside", teacher="edda")
    assert "16 pieces (14 good at the first go, 2 done again)" in said
    said = desk.post("/books/ansa/practice/write", pin="2846")
    assert "It is in the book" in said
    book = (demo / "skills/records/practice.yml").read_text("utf-8")
    entry = book.rpartition("\n---\n")[2]
    assert "who: ansa\ndate: 2026-11-28\nprocedure: deburr-foot\nlevel: beside\nteacher: edda\npieces: 16\n" in entry
    assert "scrap: 0\nrework: 2\n" in entry and "seal: " in entry


def test_a_wrong_pin_writes_nothing_and_the_form_keeps_its_words(desk: Hand, demo: Path) -> None:
    pin(desk, "ansa")
    before = (demo / "skills/records/practice.yml").read_bytes()
    desk.get("/books/ansa/pieces")
    desk.post("/books/ansa/practice/sign", procedure="deburr-foot", good="3", rework="0", scrap="0", level="alone")
    said = desk.post("/books/ansa/practice/write", pin="1111")
    assert "That is not the PIN." in said and "3 pieces" in said
    assert (demo / "skills/records/practice.yml").read_bytes() == before


def test_pressed_twice_it_is_written_once(desk: Hand, demo: Path) -> None:
    pin(desk, "ansa")
    desk.get("/books/ansa/pieces")
    desk.post("/books/ansa/practice/sign", procedure="deburr-foot", good="5", rework="0", scrap="1", level="beside",
              teacher="edda")
    form = desk.page
    desk.post("/books/ansa/practice/write", pin="2846")
    once = (demo / "skills/records/practice.yml").read_bytes()
    desk.page = form
    assert "It is in the book" in desk.post("/books/ansa/practice/write", pin="2846")
    assert (demo / "skills/records/practice.yml").read_bytes() == once


def test_a_reading_is_judged_before_it_is_signed(desk: Hand, demo: Path) -> None:
    pin(desk, "benno")
    listed = desk.get("/books/benno/readings")
    assert "Height of the foot" in listed
    where = "true-the-sole/try/height of the foot"
    assert "Asked for:" in desk.get("/books/benno/reading", query_string={"measured": where})
    assert "Outside the limit" in desk.post("/books/benno/reading", measured=where, readings="43.9 mm")
    assert "Inside. Go on." in desk.post("/books/benno/reading", measured=where, readings="42.1 mm")
    desk.post("/books/benno/measurement/sign", measured=where, readings="42.1 mm")
    assert "It is in the book" in desk.post("/books/benno/measurement/write", pin="2846")
    assert "readings: [42.1 mm]" in (demo / "skills/records/measurements.yml").read_text("utf-8")


def test_a_reading_without_its_unit_is_told_and_not_written(desk: Hand, demo: Path) -> None:
    before = (demo / "skills/records/measurements.yml").read_bytes()
    desk.get("/books/benno/reading", query_string={"measured": "true-the-sole/try/height of the foot"})
    said = desk.post("/books/benno/measurement/sign", measured="true-the-sole/try/height of the foot", readings="42.1")
    assert desk.status == 422 and "Nothing was written." in said
    assert (demo / "skills/records/measurements.yml").read_bytes() == before


def test_a_trial_and_what_nearly_went_wrong(desk: Hand, demo: Path) -> None:
    pin(desk, "ansa")
    desk.get("/books/ansa/trial")
    fields = {"verdicts-of": ["frame 1", "frame 2", "frame 3"], "verdicts-is": ["good", "bad", ""]}
    said = desk.post("/books/ansa/trial/sign", felt="polish-frame/look", teacher="tilde", **fields)
    assert "frame 1: good; frame 2: bad." in said
    assert "It is in the book" in desk.post("/books/ansa/trial/write", pin="2846")
    assert "verdicts:\n  frame 1: good\n  frame 2: bad\n" in (demo / "skills/records/trials.yml").read_text("utf-8")
    desk.get("/books/ansa/incident")
    assert "Nobody was hurt." in desk.post("/books/ansa/incident/sign", what="The belt tore.\nNobody stood there.")
    assert "It is in the book" in desk.post("/books/ansa/incident/write", pin="2846")
    assert "what: The belt tore. Nobody stood there.\n" in (demo / "skills/records/incidents.yml").read_text("utf-8")


def test_the_law_refuses_in_names_and_says_what_would_be_allowed(desk: Hand, demo: Path) -> None:
    pin(desk, "edda")
    before = (demo / "skills/records/sign-offs.yml").read_bytes()
    desk.get("/books/ansa/skills/grinding-flat/1")
    desk.post("/books/ansa/sign-off/sign", skill="grinding-flat", level="alone")
    said = desk.post("/books/ansa/sign-off/write", signer="edda", pin="2846")
    assert desk.status == 422 and "Not signed" in said and "Nothing was written." in said
    assert "`" not in said and "too young" in said
    assert (demo / "skills/records/sign-offs.yml").read_bytes() == before


def test_nobody_is_offered_to_sign_for_themselves(desk: Hand) -> None:
    desk.get("/books/edda/skills/grinding-flat/1")
    said = desk.post("/books/edda/sign-off/sign", skill="grinding-flat", level="alone")
    assert 'name="signer" value="edda"' not in said


def test_a_pin_never_stands_in_the_notebook_nor_plainly_in_the_users_folder(desk: Hand, demo: Path) -> None:
    pin(desk, "ansa", "73951846")
    desk.get("/books/ansa/pieces")
    desk.post("/books/ansa/practice/sign", procedure="deburr-foot", good="1", rework="0", scrap="0", level="alone")
    desk.post("/books/ansa/practice/write", pin="73951846")
    everything = [file for file in demo.parent.rglob("*") if file.is_file()]
    assert len(everything) > 50 and not [f for f in everything if b"73951846" in f.read_bytes()]


def test_a_thousand_wrong_pins_are_made_to_wait(desk: Hand, clock: Clock) -> None:
    pin(desk, "ansa")
    pins, tried = desk.bench.pins, 0
    for guess in range(1000):
        said = pins.wrong("ansa", f"{guess:04}")
        tried += said.startswith("That is not")
        clock.now += 1
    assert tried < 12, "an hour holds no more than a dozen tries"
    assert pins.wrong("ansa", "2846").startswith("Too many"), "even the right one waits"
    clock.now += 3600
    assert pins.wrong("ansa", "2846") == "" and pins.wrong("ansa", "2847") == "That is not the PIN."
