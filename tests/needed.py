"""What a test needs of the machine: where it is missing the test is skipped, and fails where it must be there."""

from __future__ import annotations

import os
from typing import NoReturn

import pytest


def missing(what: str) -> NoReturn:
    """Skip this test for want of it; with BENCHLORE_COMPULSORY=1 (as in CI) it fails."""
    if os.environ.get("BENCHLORE_COMPULSORY") == "1":
        pytest.fail(f"{what} is missing, and BENCHLORE_COMPULSORY=1 says that it must be there.")
    pytest.skip(f"{what} is missing")
