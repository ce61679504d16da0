"""A power cut at any moment leaves each file old or new, and the next writer finds all of an amendment or nothing."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest


@pytest.mark.skipif(not hasattr(os, "fork"), reason="a process is forked and killed")
def test_killed_at_every_step_that_touches_the_disk(tmp_path: Path) -> None:
    done = subprocess.run([sys.executable, "-m", "tests.amend.killed_writes", str(tmp_path)],
                          cwd=Path(__file__).parent.parent.parent, capture_output=True, text=True, check=False)
    found = re.fullmatch(r"(\d+) kills\n", done.stdout)
    assert found, done.stdout + done.stderr
    assert int(found[1]) > 20
