"""What is asked of every built page: it stays at home, it fits the screen, and anybody can use it.

Each function takes an open page or a built site and returns complaints as text; no complaints is good.
"""

import json
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urldefrag, urljoin, urlsplit

from playwright.sync_api import BrowserContext, ConsoleMessage, Page

TESTS = Path(__file__).parent.parent
AXE = TESTS / "node_modules" / "axe-core" / "axe.min.js"
# What axe calls the success criteria of WCAG 2.0, 2.1 and 2.2, levels A and AA (axe-core, doc/API.md).
WCAG_AA = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")
# The narrowest screen WCAG 1.4.10 asks for, a phone, both sides of each change of layout, a wide desk.
WIDTHS = (320, 360, 719, 720, 820, 1219, 1220, 1280, 1920)
AT_HOME = ("file", "data", "blob", "about")


@dataclass
class Log:
    """What a page asked for and complained of while it was open."""

    requests: list[str] = field(default_factory=list)
    console: list[str] = field(default_factory=list)

    def leaving(self) -> list[str]:
        """Requests for anything but a file of this machine."""
        return [address for address in self.requests if urlsplit(address).scheme not in AT_HOME]


@contextmanager
def opened(context: BrowserContext, path: Path, fragment: str = "") -> Iterator[tuple[Page, Log]]:
    """A page opened from the disk as by a double click, and the log of what it does."""
    page, log = context.new_page(), Log()
    page.on("request", lambda request: log.requests.append(request.url))
    page.on("console", lambda said: log.console.extend(_bad(said)))
    page.on("pageerror", lambda error: log.console.append(str(error)))
    page.goto(path.absolute().as_uri() + (f"#{fragment}" if fragment else ""))
    try:
        yield page, log
    finally:
        page.close()


def _bad(said: ConsoleMessage) -> list[str]:
    return [said.text] if said.type in ("error", "warning") else []


def html_pages(site: Path) -> list[Path]:
    """All pages of a built site in a fixed order."""
    return sorted(site.rglob("*.html"))


def requests_leaving(context: BrowserContext, paths: Iterable[Path]) -> list[str]:
    """Open every page; say which asked for something outside, or wrote an error to the console."""
    complaints = []
    for path in paths:
        with opened(context, path) as (page, log):
            page.wait_for_load_state("load")
            complaints += [f"{path.name}: asks for {address}" for address in log.leaving()]
            complaints += [f"{path.name}: {words}" for words in log.console]
    return complaints


def no_sideways_scroll(page: Page, widths: Sequence[int] = WIDTHS) -> list[str]:
    """Narrow and widen an open page; say at which widths it is wider than the screen, and by what."""
    complaints = []
    for width in widths:
        page.set_viewport_size({"width": width, "height": 900})
        over: int = page.evaluate(_OVER)
        if over > 0:
            complaints.append(f"{width} px: {over} px too wide, {page.evaluate(_WIDEST, width)}")
    return complaints


_OVER = "document.scrollingElement.scrollWidth - document.documentElement.clientWidth"
_WIDEST = """width => [...document.querySelectorAll("body *")]
  .filter(e => e.getBoundingClientRect().right > width + 0.5).slice(-1)
  .map(e => `${e.tagName.toLowerCase()}.${e.getAttribute("class") || ""}`).join() || "nothing seen" """


def axe(page: Page, tags: Sequence[str] = WCAG_AA) -> list[str]:
    """Run axe-core on an open page; one complaint a place, with the rule and its level."""
    page.add_script_tag(path=AXE)
    result: dict[str, Any] = page.evaluate("tags => axe.run({runOnly: tags})", list(tags))
    return [
        f"{found['id']} ({found['impact']}): {node['html'][:160]}"
        for found in result["violations"]
        for node in found["nodes"]
    ]


def analysis(context: BrowserContext, paths: Iterable[Path], widths: Sequence[int] = WIDTHS) -> list[str]:
    """Sideways scroll at all widths and axe on a phone and at a desk, for every page."""
    complaints = []
    for path in paths:
        with opened(context, path) as (page, _):
            found = no_sideways_scroll(page, widths)
            for width in (360, 1280):
                page.set_viewport_size({"width": width, "height": 900})
                found += [f"{width} px: {words}" for words in axe(page)]
            complaints += [f"{path.name}: {words}" for words in found]
    return complaints


class _Addresses(HTMLParser):
    """Collects what a page points to and what can be pointed to in it."""

    def __init__(self) -> None:
        super().__init__()
        self.targets: list[str] = []
        self.ids: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if value is None:
                continue
            if name in ("href", "src", "poster") and not (tag == "use" and value.startswith("#")):
                self.targets.append(value)
            elif name == "srcset":
                self.targets += [choice.split()[0] for choice in value.split(",")]
            elif name == "id":
                self.ids.append(value)


def dead_links(site: Path) -> list[str]:
    """Read all pages without a browser; say which address leads to no file or to no place on a page,
    which leaves the disk or begins at a server's root, and which id stands twice."""
    site = site.absolute()
    read = {}
    for path in html_pages(site):
        found = _Addresses()
        found.feed(path.read_text(encoding="utf-8"))
        read[path.as_uri()] = found
    complaints = []
    for uri, found in read.items():
        name = Path(unquote(urlsplit(uri).path)).relative_to(site)
        twice = sorted(one for one, times in Counter(found.ids).items() if times > 1)
        complaints += [f"{name}: id {one} stands twice" for one in twice]
        complaints += [f"{name}: {words}" for words in dict.fromkeys(_complaints(uri, found, read))]
    return complaints


def _complaints(uri: str, found: _Addresses, read: dict[str, _Addresses]) -> Iterator[str]:
    for target in found.targets:
        parts = urlsplit(target)
        if parts.scheme == "data":
            continue
        if parts.scheme or parts.netloc or target.startswith("/"):
            yield f"{target} leads away from the book"
            continue
        address, fragment = urldefrag(urljoin(uri, target))
        file = Path(unquote(urlsplit(address).path))
        if not file.is_file():
            yield f"{target} is no file"
        elif fragment and address in read and unquote(fragment) not in read[address].ids:
            yield f"{target} is no place on that page"


def words_sizes(site: Path) -> dict[str, int]:
    """Bytes that each page takes in the words that the finder reads."""
    told = (site / "search" / "words.js").read_text(encoding="utf-8")
    pages = json.loads(told.partition("=")[2].rstrip(";\n"))["pages"]
    return {page[0]: len(json.dumps(page, ensure_ascii=False, separators=(",", ":")).encode()) + 1 for page in pages}
