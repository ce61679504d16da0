"""A notebook on the bench, asked as a browser asks, without a network."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path

import pytest
from werkzeug.test import Client, TestResponse

from site_builder.bench.app import App
from site_builder.bench.devices import Devices
from site_builder.bench.guards import Doors, Tokens
from site_builder.bench.here import Here
from site_builder.bench.pins import Pins
from site_builder.bench.visit import Bench

DEMO = Path(__file__).parents[2]
STARTER = DEMO / "site_builder" / "cli" / "starter"
HOST = "127.0.0.1:8765"
TODAY = date(2026, 11, 28)


class Clock:
    """Seconds that pass when a test says so."""

    def __init__(self) -> None:
        self.now = 1_000_000.0

    def __call__(self) -> float:
        return self.now


class Hand:
    """A browser at the desk: it keeps its cookie, and fills in the token of the page it is on."""

    def __init__(self, bench: Bench, doors: Doors, tokens: Tokens, address: str = "127.0.0.1") -> None:
        self.bench = bench
        self.client = Client(App(bench, doors, tokens))
        self.base = {"base_url": f"{doors.scheme}://{next(iter(sorted(doors.hosts)))}/",
                     "environ_base": {"REMOTE_ADDR": address}}
        self.origin = next(iter(sorted(doors.origins)))
        self.page: TestResponse | None = None

    def get(self, path: str, **more: object) -> str:
        self.page = self.client.get(path, **self.base, **more)  # type: ignore[arg-type]
        return self.page.get_data(as_text=True)

    def post(self, path: str, **fields: object) -> str:
        """Send the form of the page that is open, with these fields filled in besides what it carries hidden."""
        assert self.page is not None
        hidden = dict(re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)"', self.page.get_data(True)))
        self.page = self.client.post(path, data={**hidden, **fields}, headers={"Origin": self.origin}, **self.base)
        seen = 0
        while self.page.status_code in (302, 303) and seen < 5:
            seen += 1
            self.page = self.client.get(self.page.headers["Location"], **self.base)
        return self.page.get_data(as_text=True)

    @property
    def status(self) -> int:
        assert self.page is not None
        return self.page.status_code


@pytest.fixture
def clock() -> Clock:
    return Clock()


def bench_of(root: Path, own: Path, clock: Clock, in_the_shop: bool = False) -> Bench:
    """The bench of a notebook, at the day on which the demo is read."""

    def now() -> datetime:
        return datetime(2026, 11, 28, 10, 0)

    here = Here(root, now, TODAY)
    return Bench(here, Pins(own / "bench", here.name, clock), Devices(own / "bench", here.name, clock, now),
                 own / "keys", in_the_shop=in_the_shop)


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the demo's notebook that may be written in."""
    for folder in ("procedures", "skills", "tools"):
        shutil.copytree(DEMO / folder, tmp_path / "shop" / folder)
    return tmp_path / "shop"


@pytest.fixture
def desk(demo: Path, tmp_path: Path, clock: Clock) -> Iterator[Hand]:
    """A browser at the desk of the demo."""
    own = tmp_path / "own"
    yield Hand(bench_of(demo, own, clock), Doors("http", frozenset({HOST})), Tokens(own / "bench"))
