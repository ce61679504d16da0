"""Where the file of a picture lies."""

from __future__ import annotations

import posixpath
from pathlib import Path

from site_builder.notebook.model.picture import Picture
from site_builder.notebook.notebook import Notebook

PHOTOS = "procedures/photos"
"""Where pictures stand that are not kept beside the file that names them."""


def picture_path(notebook: Notebook, picture: Picture) -> Path | None:
    """The file of a picture: beside the YAML that names it, else under ``procedures/photos/``.

    ``photos/sole.jpg`` is found from any folder. None where no such file lies within the notebook.
    """
    beside = posixpath.dirname(picture.at.path)
    for folder in dict.fromkeys((beside, PHOTOS, posixpath.dirname(PHOTOS))):
        file = notebook.root / folder / str(picture.file)
        if inside(notebook.root, file):
            return file
    return None


def picture_names(notebook: Notebook, path: str) -> list[str]:
    """The files that the YAML at this path could name as a picture, as it would write them."""
    beside = posixpath.dirname(path)
    names: list[str] = []
    for lead, folder in (("", beside), ("", PHOTOS), ("photos/", PHOTOS)):
        try:
            found = sorted(file.name for file in (notebook.root / folder).iterdir() if file.is_file())
        except OSError:
            continue
        names += [lead + name for name in found if not name.endswith((".yml", ".md"))]
    return names


def inside(root: Path, file: Path) -> bool:
    """Whether this is a file, and within the notebook also once all links are followed."""
    try:
        return file.is_file() and file.resolve().is_relative_to(root.resolve())
    except (OSError, RuntimeError, ValueError):  # a name no system takes: too long, a circle of links
        return False
