"""Real Chromium for the tests of built pages. Nothing is downloaded: it is the one of the machine.

With BENCHLORE_COMPULSORY=1 (as in CI) a missing browser, checker or Java is a failure and not a skip.
"""

import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path

import nu
import pytest
import sample
import sitecheck
from playwright.sync_api import Browser, BrowserContext, sync_playwright

from site_builder.handbook.build import build_handbook
from tests.needed import missing

ROOT = Path(__file__).parent.parent.parent
TRADES = ROOT / "tests" / "notebooks" / "trades"

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
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo handbook, built once by `benchlore build`."""
    site = tmp_path_factory.mktemp("book") / "site"
    build_handbook(ROOT / "mkdocs.yml", into=site, with_errors=False)
    return site


@pytest.fixture(scope="session")
def books(book: Path, tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Path]:
    """The demo handbook, and that of each other trade, by name."""
    home = tmp_path_factory.mktemp("trades")
    sites = {"demo": book}
    for notebook in sorted(one for one in TRADES.iterdir() if one.is_dir()):
        shop = shutil.copytree(notebook, home / notebook.name)
        if not (shop / "mkdocs.yml").is_file():
            shutil.copyfile(TRADES / "cheese" / "mkdocs.yml", shop / "mkdocs.yml")
        sites[notebook.name] = home / f"{notebook.name}-site"
        build_handbook(shop / "mkdocs.yml", into=sites[notebook.name], with_errors=True)
    return sites
