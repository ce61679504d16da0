"""Pictures and sounds of the handbook in forms that every reader of e-books must know (EPUB 3.3, core media types)."""

from __future__ import annotations

import io
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from PIL import Image

from site_builder.pictures import Published

FOLDER = "pictures"
_WIDTH = 1000
"""Pixels: as wide as a page on a tablet; the handbook has them larger."""
_QUALITY = 82
TYPES = {".jpg": "image/jpeg", ".svg": "image/svg+xml", ".mp3": "audio/mpeg", ".m4a": "audio/mp4"}


class Plates:
    """What is shown in the book, each once: asked for by its address in the handbook."""

    def __init__(self, pictures: Mapping[Path, Published]) -> None:
        self._known = {file.name: (one, file.path) for one in pictures.values() for file in one.files}
        self.files: dict[str, bytes] = {}
        """What was asked for, by its path in the book."""

    def path(self, address: str) -> str | None:
        """The file in the book for that of the handbook; None for what is not in it or no reader need know."""
        found = self._known.get(address)
        if found is None:
            return None
        one, _ = found
        shown = next((file for file in reversed(one.files) if (file.width or 0) <= _WIDTH), one.files[0])
        name = PurePosixPath(shown.name)
        ending = ".jpg" if one.kind == "photo" else name.suffix.lower()
        if ending not in TYPES:
            return None
        path = f"{FOLDER}/{name.stem}{ending}"
        if path not in self.files:
            self.files[path] = _jpeg(shown.path) if one.kind == "photo" else shown.path.read_bytes()
        return path


def _jpeg(file: Path) -> bytes:
    """A photo as JPEG, which readers of any age show; what was see-through is white."""
    with Image.open(file) as photo:
        ground = Image.new("RGB", photo.size, "white")
        ground.paste(photo, mask=photo.getchannel("A") if photo.mode == "RGBA" else None)
    out = io.BytesIO()
    ground.save(out, "JPEG", quality=_QUALITY, optimize=True, exif=b"")
    return out.getvalue()
