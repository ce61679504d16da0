"""Nothing in the cache is believed: whatever is not as it was put is made again, quietly."""

from __future__ import annotations

import json
from collections.abc import Callable
from hashlib import blake2b
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from site_builder.cache import Store
from site_builder.pictures import publish

Harm = Callable[[Path], None]


def note_of(folder: Path) -> Path:
    (found,) = folder.glob("*.json")
    return found


def forged(change: Callable[[dict[str, object]], object]) -> Harm:
    """Somebody writes another note and reckons its digest by the plain way."""
    def harm(folder: Path) -> None:
        file = note_of(folder)
        body = json.loads(file.read_bytes().partition(b"\n")[2])
        change(body)
        text = json.dumps(body).encode()
        file.write_bytes(blake2b(text, digest_size=16).hexdigest().encode() + b"\n" + text)
    return harm


def replaced(folder: Path) -> None:
    for file in folder.glob("*/*"):
        file.write_bytes(b"another body")


def led_away(folder: Path) -> None:
    for file in [*folder.glob("*/*")]:
        file.unlink()
        file.symlink_to("/etc/passwd")


def a_folder(folder: Path) -> None:
    file = note_of(folder)
    file.unlink()
    file.mkdir()
    (file / "x").write_text("x")


HARMS: dict[str, Harm] = {
    "garbage": lambda folder: note_of(folder).write_bytes(b"\xff\0garbage") and None,
    "empty": lambda folder: note_of(folder).write_bytes(b"") and None,
    "cut short": lambda folder: note_of(folder).write_bytes(note_of(folder).read_bytes()[:-3]) and None,
    "deeply nested": lambda folder: note_of(folder).write_bytes(b"x\n" + b"[" * 100_000) and None,
    "an older format": lambda folder: note_of(folder).write_text('{"files": [["400.webp", 4, 3]]}') and None,
    "no note": lambda folder: note_of(folder).unlink(),
    "a folder for a note": a_folder,
    "no files": lambda folder: [file.unlink() for file in folder.glob("*/*")] and None,
    "other bodies": replaced,
    "links that lead away": led_away,
    "a path that leads away": forged(lambda body: body.update(files={"../../../../../../etc/passwd": "0"})),
    "another kind of note": forged(lambda body: body.update(note=None)),
}


@pytest.mark.parametrize("harm", HARMS.values(), ids=HARMS.keys())
def test_a_damaged_cache_makes_the_same_book(harm: Harm, tmp_path: Path) -> None:
    shop, cache = tmp_path / "shop", tmp_path / "cache"
    (shop / "photos").mkdir(parents=True)
    Image.new("RGB", (900, 500), "green").save(shop / "photos" / "a.jpg")
    first = publish(Path("photos/a.jpg"), shop, cache)
    bodies = [file.path.read_bytes() for file in first.files]
    harm(cache)
    again = publish(Path("photos/a.jpg"), shop, cache)
    assert again == first
    assert [file.path.read_bytes() for file in again.files] == bodies
    assert all(file.path.is_relative_to(cache) and not file.path.is_symlink() for file in again.files)


def test_what_another_program_or_library_put_is_not_there(tmp_path: Path) -> None:
    Store(tmp_path, "drawing cleaner 1").put("foot", {"a": 1}, {"clean.svg": b"<svg onload='x'/>"})
    assert Store(tmp_path, "drawing cleaner 2").get("foot") is None
    entry = Store(tmp_path, "drawing cleaner 1").get("foot")
    assert entry is not None and entry.note == {"a": 1}


def test_what_is_no_longer_called_for_goes_and_what_is_not_ours_stays(tmp_path: Path) -> None:
    store = Store(tmp_path, "1")
    store.put("foot", 1, {"a.webp": b"a"})
    store.put("hood", 2)
    (tmp_path / "Letter to Edda.txt").write_text("Dear Edda")
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters.json").write_text("{}")
    store.prune(["hood"])
    left = ["Letter to Edda.txt", "hood.json", "letters", "letters.json"]
    assert sorted(found.name for found in tmp_path.iterdir()) == left


def test_an_entry_cannot_be_passed_off_as_another(tmp_path: Path) -> None:
    store = Store(tmp_path, "1")
    store.put("foot", 1)
    (tmp_path / "foot.json").rename(tmp_path / "hood.json")
    assert store.get("hood") is None


def test_where_nothing_can_be_written_nothing_is_kept(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file")
    assert Store(tmp_path / "taken", "1").put("foot", 1) is None
    assert Store(None, "1").put("foot", 1) is None
    assert Store(None, "1").get("foot") is None


@settings(max_examples=60, deadline=None)
@given(place=st.floats(0, 0.9999), byte=st.integers(0, 255), which=st.booleans())
def test_any_byte_that_is_changed_is_a_miss(
    place: float, byte: int, which: bool, tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("store")
    Store(folder, "1").put("foot", {"kept": ["a", 1]}, {"a.webp": bytes(range(50))})
    file = folder / "foot.json" if which else folder / "foot" / "a.webp"
    data = bytearray(file.read_bytes())
    at = int(place * len(data))
    same = data[at] == byte
    data[at] = byte
    file.write_bytes(data)
    assert (Store(folder, "1").get("foot") is not None) == same


def test_a_folder_where_a_file_goes_makes_way_for_a_moved_file_too(tmp_path: Path) -> None:
    (tmp_path / "store" / "sound" / "quiet").mkdir(parents=True)
    made = tmp_path / "made"
    made.write_bytes(b"a sound")
    kept = Store(tmp_path / "store", "now").put("sound", [], {"quiet": made})
    assert kept is not None
    assert kept.files["quiet"].read_bytes() == b"a sound"
