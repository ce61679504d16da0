"""A small shop with pictures and a recording, and what was kept of it."""

from __future__ import annotations

import io
import shutil
import wave
from pathlib import Path

from click.testing import CliRunner
from PIL import Image

from site_builder.cli.main import cli

FORGE = Path(__file__).parent.parent / "notebooks" / "hook-forge"
DAY = "2026-05-04"
SETTINGS = """\
site_name: The forge
docs_dir: procedures
site_dir: site
use_directory_urls: false
strict: true
theme: {name: material}
plugins: [search, offline, benchlore]
"""


def shop_in(folder: Path, archive: str = "") -> Path:
    """The forge, with a photo that tells its place, one in a form of the web, and the voice of the master."""
    shutil.copytree(FORGE, folder, ignore=shutil.ignore_patterns(".*"))
    (folder / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    shop = folder / "procedures" / "shop.yml"
    shop.write_text(shop.read_text("utf-8") + archive + (
        "pictures:\n"
        "  - {file: anvil.jpg, shows: The anvil by the door}\n"
        "  - {file: horn.webp, shows: The horn of the anvil}\n"
        "  - {file: ring.wav, shows: \"Petra says: it must ring, not clack\"}\n"), "utf-8")
    photos = folder / "procedures" / "photos"
    photos.mkdir()
    exif = Image.Exif()
    exif[0x8825] = {1: "N", 2: (59.0, 20.0, 6.0), 3: "E", 4: (18.0, 3.0, 0.0)}
    Image.new("RGB", (320, 240), (90, 80, 70)).save(photos / "anvil.jpg", exif=exif)
    Image.new("RGB", (300, 200), (10, 80, 70)).save(photos / "horn.webp", lossless=True)
    (photos / "ring.wav").write_bytes(sound())
    return folder


def sound() -> bytes:
    """A tenth of a second of a tone."""
    out = io.BytesIO()
    with wave.open(out, "wb") as spoken:
        spoken.setnchannels(1)
        spoken.setsampwidth(2)
        spoken.setframerate(8000)
        spoken.writeframes(bytes((n * 37) % 251 for n in range(1600)))
    return out.getvalue()


def benchlore(*words: str | Path) -> tuple[int, str]:
    """A command: its exit code and all that it says."""
    result = CliRunner().invoke(cli, [*map(str, words)])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result.exit_code, result.output


def everything(folder: Path) -> dict[str, bytes]:
    """Every file below a folder."""
    return {one.relative_to(folder).as_posix(): one.read_bytes() for one in folder.rglob("*") if one.is_file()}
