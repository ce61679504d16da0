"""For all tests: laws are tried on fresh examples at home and on the same ones in CI; what is dear is made once."""

import os
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from xdist.scheduler import LoadScopeScheduling

ROOT = Path(__file__).parent.parent

settings.register_profile("home", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("BENCHLORE_COMPULSORY") == "1" else "home")


class _Together(LoadScopeScheduling):  # type: ignore[misc]
    """Hands tests out singly, but together what shares something made once: a built handbook, a browser."""

    def _split_scope(self, nodeid: str) -> str:
        return _shared_by(nodeid.split("::")[0]) or nodeid


@cache
def _shared_by(file: str) -> str:
    """The folder or the file of tests in which something is made once for several, if any."""
    for place in (Path(file).parent / "conftest.py", Path(file)):
        if (ROOT / place).is_file() and re.search(r'scope="(session|module)"', (ROOT / place).read_text("utf-8")):
            return place.as_posix()
    return ""


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> LoadScopeScheduling | None:
    """With `-n auto`; a `--dist` of one's own stands."""
    return _Together(config, log) if config.getoption("dist") == "load" else None
