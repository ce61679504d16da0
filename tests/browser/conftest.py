"""Real Chromium for the tests of built pages. Nothing is downloaded: it is the one of the machine.

With BENCHLORE_COMPULSORY=1 (as in CI) a missing browser, checker or Java is a failure and not a skip.
"""

import os
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path

import nu
import pytest
import sample
import sitecheck
from filelock import FileLock
from playwright.sync_api import Browser, BrowserContext, sync_playwright

from site_builder.handbook.build import build_handbook
from tests.needed import missing

ROOT = Path(__file__).parent.parent.parent
TRADES = ROOT / "tests" / "notebooks" / "trades"
NOTEBOOKS = ("demo", *sorted(one.name for one in TRADES.iterdir() if one.is_dir()))

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    # No name leads anywhere but to this machine: a page that asks for more gets nothing, and the log shows it.
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if "chromium" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The browser, once for all tests."""
    path = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if path is None:
        missing("Chromium")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=list(FLAGS))
        yield browser
        browser.close()


@pytest.fixture
def context(chromium: Browser) -> Iterator[BrowserContext]:
    """A browser that remembers nothing, for one test."""
    made = chromium.new_context(viewport={"width": 1280, "height": 900})
    yield made
    made.close()


@pytest.fixture(scope="session")
def axe_core() -> Path:
    """axe-core from `npm ci --prefix tests`."""
    if not sitecheck.AXE.is_file():
        missing("axe-core (npm ci --prefix tests)")
    return sitecheck.AXE


@pytest.fixture(scope="session")
def java() -> str:
    """Java with the Nu HTML checker from `npm ci --prefix tests` beside it."""
    path = shutil.which("java")
    if path is None:
        missing("Java")
    if not nu.JAR.is_file():
        missing("vnu.jar (npm ci --prefix tests)")
    return path


@pytest.fixture(scope="session")
def sample_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site made with the theme alone; its page ``the-work/every-part.html`` has every part on it."""
    return sample.build_sample(tmp_path_factory.mktemp("sample"))


@pytest.fixture(scope="session")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of this run, the same for all workers: what one has built no other builds again."""
    own = tmp_path_factory.getbasetemp()
    folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "built"
    folder.mkdir(exist_ok=True)
    return folder


def built(name: str, shared: Path) -> Path:
    """The handbook of a notebook, once a run."""
    site = shared / name
    with FileLock(shared / f".{name}.lock"):
        if site.is_dir():
            return site
        if name == "demo":
            build_handbook(ROOT / "mkdocs.yml", into=site, with_errors=False)
            return site
        shop = shutil.copytree(TRADES / name, shared / f"{name}-notebook")
        if not (shop / "mkdocs.yml").is_file():
            shutil.copyfile(TRADES / "cheese" / "mkdocs.yml", shop / "mkdocs.yml")
        build_handbook(shop / "mkdocs.yml", into=site, with_errors=True)
    return site


@pytest.fixture(scope="session")
def book(shared: Path) -> Path:
    """The demo handbook, built by `benchlore build`."""
    return built("demo", shared)


@pytest.fixture(scope="session")
def books(shared: Path) -> Mapping[str, Path]:
    """The demo handbook, and that of each other trade, by name."""
    return {name: built(name, shared) for name in NOTEBOOKS}
