"""What opens a notebook by double click: a file for each kind of desk, laid into the notebook when it is begun."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from site_builder.notebook.atomic import write_new

_UNIX, _WINDOWS = "Open the bench.sh", "Open the bench.bat"
START_FILES = {_UNIX: _UNIX, "Open the bench.command": _UNIX, _WINDOWS: _WINDOWS}
"""For Linux, macOS and Windows, each with the file it is a copy of: a Mac knows by the ending what to do with it."""


def lay_start_files(root: Path) -> None:
    """Write those that are not there yet; what stands under their names is left as it is.

    Raises OSError.
    """
    for name, source in START_FILES.items():
        target = root / name
        if target.exists():
            continue
        text = (files("site_builder.start_files") / source).read_text("utf-8")
        write_new(target, text.replace("\n", "\r\n") if source == _WINDOWS else text)
        if source == _UNIX:
            target.chmod(0o755)
