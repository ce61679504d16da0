"""Pictures and recordings as they are kept: made anew or looked through, under names of our own."""

from __future__ import annotations

import io
import os
import tempfile
from datetime import date
from pathlib import Path
from typing import IO

from site_builder.notebook.picture_paths import PHOTOS
from site_builder.pictures.photo import plain_copy
from site_builder.pictures.recordings import hushed

_ENDINGS = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}
_HEADS = ((b"ftyp", 4, "m4a"), (b"WAVE", 8, "wav"), (b"OggS", 0, "ogg"), (b"fLaC", 0, "flac"),
          (b"\x1a\x45\xdf\xa3", 0, "webm"), (b"ID3", 0, "mp3"), (b"\xff\xfb", 0, "mp3"), (b"\xff\xf3", 0, "mp3"))
"""How each form of recording begins, at which byte, and the ending of its file."""
_LARGEST = 40 << 20


class NotKept(Exception):
    """It is no picture and no recording that can be kept; the text says why."""


def keep_picture(root: Path, stream: IO[bytes], name: str, on: date) -> str:
    """Keep a photo with nothing but its pixels; the name of its file. Raises NotKept, OSError."""
    data = _read(stream)
    made = plain_copy(io.BytesIO(data))
    if not isinstance(made, tuple):
        raise NotKept("This is no photo that can be shown. Take it as JPEG, PNG or WebP.")
    pixels, media = made
    return _put(root, pixels, f"{name}-{on.isoformat()}", _ENDINGS.get(media, "png"))


def keep_recording(root: Path, stream: IO[bytes], name: str, on: date) -> str:
    """Keep a recording as it is, if it is one that can be heard from the disk. Raises NotKept, OSError."""
    data = _read(stream)
    known = next((end for head, at, end in _HEADS if data[at : at + len(head)] == head), None)
    if known is None or hushed(io.BytesIO(data), len(data)).problem is not None:
        raise NotKept("This is no recording that every browser can play. Record it as m4a, mp3, wav, ogg or webm.")
    return _put(root, data, f"told-{name}-{on.isoformat()}", known)


def _read(stream: IO[bytes]) -> bytes:
    data = stream.read(_LARGEST + 1)
    if len(data) > _LARGEST:
        raise NotKept(f"It is too large: {_LARGEST >> 20} MB at most.")
    if not data:
        raise NotKept("The file is empty.")
    return data


def _put(root: Path, data: bytes, name: str, end: str) -> str:
    """On the disk, whole, under a name that nothing else has."""
    folder = root / PHOTOS
    folder.mkdir(parents=True, exist_ok=True)
    handle, beside = tempfile.mkstemp(dir=folder, prefix=".coming-")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        for number in range(1, 10_000):
            file = folder / f"{name}-{number}.{end}"
            try:
                os.link(beside, file)
            except FileExistsError:
                continue
            return file.name
    finally:
        Path(beside).unlink(missing_ok=True)
    raise NotKept("There are too many of this name and day already.")
