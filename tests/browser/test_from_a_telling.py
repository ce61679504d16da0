"""A whole short telling taken up in real Chromium: with the voice, without a script, and fit for everybody's eyes."""

from __future__ import annotations

import shutil
import threading
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import nu
import pytest
import sitecheck
from playwright.sync_api import Browser, Page
from werkzeug.serving import make_server

from site_builder.analysis.analysis import analysis
from site_builder.bench.app import App
from site_builder.bench.guards import Doors, Tokens
from tests.bench.conftest import Clock, bench_of

NOTEBOOK = Path(__file__).parent.parent / "notebooks/telling"
WIDTHS = (320, 360, 820, 1366)
TOLD = """\
WEBVTT

c001
00:00:01.000 --> 00:00:03.000
Is that thing running? Good.

c002
00:00:03.500 --> 00:00:06.500
Then you trim the ends, flush with the border.

c003
00:00:06.500 --> 00:00:09.000
Not closer than five millimetres to the stake.

c004
00:00:09.000 --> 00:00:12.000
No, three millimetres.

c005
00:00:12.500 --> 00:00:15.000
Never cut towards your thumb, because the knife jumps.

c006
00:00:15.000 --> 00:00:18.500
And it dries for two days before anybody carries it.
"""


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    shutil.copytree(NOTEBOOK, tmp_path / "shop")
    told = tmp_path / "shop/procedures/tellings"
    (told / "trimming.vtt").write_text(TOLD, "utf-8")
    shutil.copy(told / "soaking.wav", told / "trimming.wav")
    (told / "trimming.yml").write_text(
        "telling: trimming\ntitle: Mab on trimming\nteller: mab\ntranscript: trimming.vtt\nrecording: trimming.wav\n",
        "utf-8")
    return tmp_path / "shop"


@pytest.fixture
def bench(yard: Path, tmp_path: Path) -> Iterator[str]:
    """The bench of the yard, served; its address."""
    own = tmp_path / "own"
    hosts: set[str] = set()
    server = make_server("127.0.0.1", 0, lambda *asked: app(*asked), threaded=True)
    hosts.add(f"127.0.0.1:{server.server_port}")
    app = App(bench_of(yard, own, Clock()), Doors("http", frozenset(hosts)), Tokens(own / "bench"))
    serving = threading.Thread(target=server.serve_forever)
    serving.start()
    yield f"http://{next(iter(hosts))}"
    server.shutdown()
    serving.join()
    server.server_close()


@pytest.fixture(params=[True, False], ids=["with the script", "without a script"])
def page(request: pytest.FixtureRequest, chromium: Browser) -> Iterator[Page]:
    made = chromium.new_context(viewport={"width": 1366, "height": 900}, java_script_enabled=request.param)
    made.set_default_timeout(5000)
    yield made.new_page()
    made.close()


def open_cue(page: Page, words: str) -> None:
    page.get_by_role("link", name=f"Take it up “{words}”").click()


def take(page: Page) -> None:
    page.get_by_role("button", name="Take it up").click()


def test_a_telling_is_taken_up_whole(bench: str, page: Page, yard: Path) -> None:
    page.goto(f"{bench}/telling")
    page.get_by_role("link", name="Mab on trimming").click()
    page.get_by_role("button", name="Lay it aside “Is that thing running? Good.”").click()
    open_cue(page, "Then you trim the ends, flush with the border.")
    assert page.get_by_role("heading", level=1).inner_text() == "This sounds like a step"
    assert page.get_by_label("What to do").input_value() == "Trim the ends, flush with the border."
    take(page)
    open_cue(page, "Not closer than five millimetres to the stake.")
    assert "No, three millimetres." in page.locator("main").inner_text()
    page.get_by_label("What is measured").fill("distance to the stake")
    assert page.get_by_label("How much").input_value() == "min 3 mm"
    page.get_by_label("Where in").select_option(label="Step 3: Trim the ends, flush with the border.")
    take(page)
    open_cue(page, "Never cut towards your thumb, because the knife jumps.")
    assert page.get_by_label("because").input_value() == "The knife jumps."
    assert page.get_by_label("What must never be done").input_value() == "Cut towards your thumb."
    page.get_by_label("Where in").select_option(label="Step 3: Trim the ends, flush with the border.")
    take(page)
    open_cue(page, "And it dries for two days before anybody carries it.")
    assert page.get_by_role("heading", level=1).inner_text() == "This sounds like a wait"
    page.get_by_text("It is something else than").click()
    page.get_by_role("button", name="how long it takes").click()
    assert page.get_by_label("How much").input_value() == "2 d"
    page.get_by_text("It is something else than").click()
    page.get_by_role("button", name="a wait", exact=True).click()
    assert page.get_by_label("How much").input_value() == "2 d"
    take(page)
    assert "Every sentence is taken up or laid aside." in page.locator("main").inner_text()
    found = analysis(yard, date(2026, 11, 28))
    assert {state: len(found.coverage["trimming"].of(state)) for state in ("taken up", "laid aside", "open")} == {
        "taken up": 5, "laid aside": 1, "open": 0}
    assert (yard / "procedures/weave-sides.yml").read_text("utf-8").endswith("""\
  - do: Trim the ends, flush with the border.
    limits:
      distance to the stake:
        is: min 3 mm
        told: trimming#t=6.5,12
    never:
      - do: Cut towards your thumb.
        because: The knife jumps.
        told: trimming#t=12.5,15
    wait:
      is: 2 d
      told: trimming#t=15,18.5
    told: trimming#t=3.5,6.5
""")


def test_a_touch_plays_from_the_sentence(bench: str, chromium: Browser) -> None:
    context = chromium.new_context()
    page = context.new_page()
    page.goto(f"{bench}/telling/trimming")
    page.get_by_role("button", name="Play from 0:06").click()
    page.wait_for_function("document.querySelector('#voice').currentTime >= 6.5")
    context.close()


@pytest.mark.usefixtures("axe_core")
def test_every_screen_fits_and_can_be_used_by_everybody(
    bench: str, chromium: Browser, java: str, tmp_path: Path,
) -> None:
    screens = ["/telling/trimming", "/telling/-new", "/telling/trimming/take?cue=c003&work=weave-sides&kind=limit"]
    context = chromium.new_context(bypass_csp=True, viewport={"width": 320, "height": 900})  # axe is put into the page
    page = context.new_page()
    complaints, laid = [], []
    for number, screen in enumerate(screens):
        answer = page.goto(bench + screen)
        assert answer is not None and answer.ok, screen
        laid.append(tmp_path / f"{number}.html")
        laid[-1].write_bytes(answer.body())
        complaints += [f"{screen}: {said}" for said in sitecheck.axe(page)]
        complaints += [f"{screen}: {said}" for said in sitecheck.no_sideways_scroll(page, WIDTHS)]
    context.close()
    assert complaints + nu.nu_html(laid, java) == []
