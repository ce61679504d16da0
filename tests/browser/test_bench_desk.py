"""The desk of the bench in Chromium: from an empty folder to a procedure that was told, asked, changed and renamed."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import nu
import pytest
import sitecheck
from playwright.sync_api import Browser, Page

ROOT = Path(__file__).parents[2]
WIDTHS = (320, 360, 820, 1366)
AXE_AT = WIDTHS if os.environ.get("BENCHLORE_COMPULSORY") else (360, 1366)
"""In CI at all of them."""
DAY = "2026-11-28"
EXPECTED = ("422", "ERR_CONNECTION_REFUSED")
"""A form that was refused in words, and a bench that we killed while the page read back."""
LINES = """\
Look at the dent with the lamp from the side.
Warm the hood over the small flame.
because cold brass cracks where it was spun thin
Lay it over the sandbag, dent down.
Rub from the edge of the dent to the middle with the boxwood stick.
never hit it with a hammer
Try it on the chuck.
Sand it with P400.
Wipe it.
Wrap it in paper.
Put it on the rack.
Sweep the bench.
"""
FILE = "procedures/shared/take-a-dent-out.yml"


class Desk:
    """A bench in a process of its own, which can be killed at any moment and started again."""

    def __init__(self, folder: Path, own: Path) -> None:
        self.folder, self.own = folder, own
        self.start()

    def start(self) -> None:
        env = {**os.environ, "XDG_CONFIG_HOME": str(self.own), "PYTHONPATH": str(ROOT), "PYTHONUNBUFFERED": "1"}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "site_builder.cli", "bench", "--today", DAY], cwd=self.folder, env=env,
            stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        self.address = line.partition(": ")[2].strip()
        assert self.address.startswith("http://127.0.0.1:"), line

    def kill(self) -> None:
        """As a power cut ends it."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        assert self.process.stdout is not None
        self.process.stdout.close()

    def read(self, name: str) -> str:
        return (self.folder / name).read_text("utf-8")


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    (tmp_path / "shop").mkdir()
    made = Desk(tmp_path / "shop", tmp_path / "own")
    yield made
    made.kill()


class Eye:
    """Looks at every screen that is passed: width, axe-core, what the browser complains of; keeps its HTML for Nu."""

    def __init__(self, page: Page, folder: Path) -> None:
        self.page, self.folder, self.complaints = page, folder, list[str]()
        self.kept: list[Path] = []
        page.on("pageerror", lambda error: self.complaints.append(f"script: {error}"))
        page.on("console", lambda said: self.complaints.append(said.text)
                if said.type == "error" and not any(one in said.text for one in EXPECTED) else None)

    def look(self, name: str) -> None:
        self.page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
        self.complaints += [f"{name}: {one}" for one in sitecheck.no_sideways_scroll(self.page, WIDTHS)]
        for width in AXE_AT:
            self.page.set_viewport_size({"width": width, "height": 900})
            self.complaints += [f"{name}, {width} px: {one}" for one in sitecheck.axe(self.page)]
        answer = self.page.request.get(self.page.url)
        if answer.ok:
            file = self.folder / f"{len(self.kept):02}-{name}.html"
            file.write_text(answer.text(), "utf-8")
            self.kept.append(file)


@pytest.mark.usefixtures("axe_core")
def test_from_an_empty_folder_by_keyboard_and_every_screen_is_looked_at(
    chromium: Browser, desk: Desk, tmp_path: Path, java: str,
) -> None:
    context = chromium.new_context(viewport={"width": 820, "height": 900}, bypass_csp=True)
    page = context.new_page()
    (tmp_path / "pages").mkdir()
    eye = Eye(page, tmp_path / "pages")
    key = page.keyboard

    page.goto(desk.address)
    eye.look("begin")
    page.get_by_label("What is the shop called?").focus()
    key.type("Halm Tinware")
    key.press("Tab")
    key.type("Edda Halm, 1957")
    key.press("Tab")
    key.type("Tom Wendt")
    key.press("Tab")
    key.type("Storm hood")
    key.press("Tab")
    key.press("Enter")
    page.wait_for_selector("text=What do you want to do?")
    eye.look("desk")
    assert desk.read("skills/people.yml").endswith(
        "people:\n  edda: {name: Edda Halm, born: 1957, founding: yes}\n  tom: Tom Wendt\n")

    page.get_by_role("link", name="Write how something is done").first.focus()
    key.press("Enter")
    page.get_by_label("What is it called?").fill("Take a dent out")
    page.get_by_label("What does one do?").fill(LINES)
    page.wait_for_selector("text=Ten steps so far")
    eye.look("ten-lines")
    page.get_by_role("button", name="Write it down").click()
    page.wait_for_selector("text=Just written:")
    eye.look("page")
    begun = desk.read(FILE)
    assert begun.count("  - do: ") == 10 and "    never: Hit it with a hammer\n" in begun

    # a sitting: the first questions, with a kill in the middle
    page.goto(f"{desk.address}/sit?teller=edda&writer=tom&long=30")
    eye.look("sit")
    page.get_by_role("button", name="Begin with this").first.click()
    eye.look("question")
    answered = 0
    while page.locator(".bn-q").count() and answered < 6:
        question = page.locator(".bn-q").inner_text()
        if page.locator("textarea[name=words]").count():
            page.locator("textarea[name=words]").fill(f"What Edda says, number {answered}.")
            page.get_by_role("button", name="Write it down").click()
        else:
            page.get_by_role("button", name="Later").click()
        page.wait_for_function("q => document.querySelector('.bn-q')?.innerText !== q", arg=question)
        answered += 1
        if answered == 3:
            where = page.url
            desk.kill()
            before = desk.read(FILE), desk.read("procedures/shop.yml")
            desk.start()
            page.goto(where.replace(where[:where.index("/sit")], desk.address))
            assert (desk.read(FILE), desk.read("procedures/shop.yml")) == before
            assert "What Edda says, number 2." in "".join(before)
    page.get_by_role("link", name="Stop here").click()
    page.wait_for_selector("text=were written")
    eye.look("sitting-end")

    # at the line: change, add with a wrong value first, move, take back, rename
    page.goto(f"{desk.address}/line/take-a-dent-out")
    page.get_by_role("link", name="Change step 2", exact=True).click()
    eye.look("step")
    page.get_by_role("link", name="a limit", exact=True).click()
    page.get_by_label("What is measured").fill("heat of the hood")
    page.get_by_label("How much").fill("120 to 180")
    page.wait_for_selector(".bn-read--out")
    page.get_by_role("button", name="Write it down").click()
    page.wait_for_selector("[aria-invalid=true]")
    eye.look("limit-wrong")
    page.get_by_label("How much").fill("120 to 180 °C")
    page.wait_for_selector("text=I read:")
    page.get_by_role("button", name="Write it down").click()
    page.wait_for_selector("text=Just written:")
    assert "    limits:\n      heat of the hood: 120..180 °C\n" in desk.read(FILE)
    page.get_by_role("link", name="Change step 10", exact=True).click()
    page.get_by_role("button", name="Move it up").click()
    page.wait_for_selector("text=Just written:")
    assert desk.read(FILE).index("Sweep the bench.") < desk.read(FILE).index("Put it on the rack.")
    page.get_by_role("button", name="Take this back").first.click()
    page.wait_for_selector("text=Put it in again")
    eye.look("written")
    assert desk.read(FILE).index("Sweep the bench.") > desk.read(FILE).index("Put it on the rack.")
    for path in ("/new", "/new/hand-tool", "/new/order", "/questions", "/line/-shop", "/line/edda", "/line/tom/out",
                 "/line/take-a-dent-out/split?step=0", "/line/take-a-dent-out/join?step=0",
                 "/line/take-a-dent-out/form?add=hazards", "/line/take-a-dent-out/form?add=tools",
                 "/line/take-a-dent-out/form?at=steps&at=0&add=feel"):
        page.goto(desk.address + path)
        eye.look(path.strip("/").replace("/", "-").partition("?")[0])
    page.goto(f"{desk.address}/line/take-a-dent-out/name")
    eye.look("name")
    page.get_by_label("What is it called from now on?").fill("Mend a dent")
    page.get_by_role("button", name="Write it down").click()
    page.wait_for_selector("text=Just written:")
    assert desk.read("procedures/shared/mend-a-dent.yml").splitlines()[1:3] == [
        "procedure: mend-a-dent", "title: Mend a dent"]
    context.close()
    assert eye.complaints == []
    assert nu.nu_html(eye.kept, java) == []


def test_without_script_all_of_it_works(chromium: Browser, desk: Desk) -> None:
    context = chromium.new_context(viewport={"width": 360, "height": 800}, java_script_enabled=False)
    page = context.new_page()
    page.goto(desk.address)
    page.get_by_label("What is the shop called?").fill("Halm Tinware")
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("link", name="Write how something is done").first.click()
    page.get_by_label("What is it called?").fill("Take a dent out")
    page.get_by_label("What does one do?").fill(LINES)
    page.get_by_role("button", name="Show me the steps").click()
    assert page.get_by_text("Ten steps so far").is_visible()
    page.get_by_role("button", name="Write it down").click()
    page.get_by_role("link", name="Change step 1", exact=True).click()
    page.get_by_role("link", name="a wait", exact=True).click()
    page.get_by_label("How much").fill("at most 5 min")
    page.get_by_role("button", name="Write it down").click()
    assert "    wait: max 5 min\n" in desk.read(FILE)
    context.close()
