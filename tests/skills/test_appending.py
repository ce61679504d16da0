"""What was acknowledged is there, whatever happens to the writer; what was torn is set aside and told."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from filelock import FileLock
from writers import KIND, entry

from site_builder.skills import append as appending
from site_builder.skills.append import MovedOn, NotWritten, append
from site_builder.skills.book import book_path, read_book
from site_builder.skills.chain import Wrong, verify
from site_builder.skills.last import Last, last_file, read_last, write_last

ROOT = Path(__file__).parents[2]
needs_fork = pytest.mark.skipif(not hasattr(os, "fork"), reason="the system cannot fork")


def run(*arguments: str) -> list[dict[str, Any]]:
    done = subprocess.run(
        [sys.executable, str(Path(__file__).parent / "writers.py"), *arguments], capture_output=True, text=True,
        check=True, env={**os.environ, "PYTHONPATH": str(ROOT)}, timeout=300,
    )
    return json.loads(done.stdout)


@pytest.fixture
def memory(tmp_path: Path) -> Iterator[Path]:
    """A folder in memory where the system has one: waiting for a disk a thousand times is no part of the test."""
    shm = Path("/dev/shm")
    if not os.access(shm, os.W_OK):
        yield tmp_path
        return
    with tempfile.TemporaryDirectory(dir=shm) as folder:
        yield Path(folder)


def file_of(root: Path) -> Path:
    return root / book_path(KIND)


def notes(root: Path) -> list[str]:
    return [one.text("note") for one in read_book(root, KIND).entries]


# --- killed ---------------------------------------------------------------------------------------------


@needs_fork
def test_killed_at_every_point_at_which_it_writes(memory: Path) -> None:
    told = run("points", str(memory))
    killed = [one for one in told if one["status"] == -9]
    assert len(killed) >= 100
    assert {one["status"] for one in told} == {-9, 0}
    for one in told:
        assert one["faults"] == [] and one["lost"] == [], one
        assert one["notes"][-1] == "the next one"
        middle = [note for note in one["notes"] if note == "the one that is killed"]
        assert len(middle) <= 1
        assert bool(one["aside"]) == one["reported"]
        assert not (middle and one["aside"]), "an entry stands in the book or aside, not in both"
    torn = [one["aside"][0] for one in killed if one["aside"]]
    assert any("practice: 3" in text and "seal" not in text for text in torn)


@needs_fork
def test_killed_at_two_hundred_moments_of_chance(memory: Path) -> None:
    (told,) = run("random", str(memory), "200")
    assert told["faults"] == [] and told["lost"] == []
    assert told["acknowledged"] > 50
    assert len(told["notes"]) == len(set(told["notes"])) >= told["acknowledged"]


@needs_fork
def test_eight_writers_at_once(memory: Path) -> None:
    (told,) = run("crowd", str(memory))
    assert told["statuses"] == [0] * 8
    assert told["faults"] == [] and told["lost"] == [] and told["aside"] == []
    assert len(told["notes"]) == 161


# --- torn -----------------------------------------------------------------------------------------------


def test_torn_after_every_byte(memory: Path) -> None:
    """The power goes while the second entry is written: any part of it may have reached the disk."""
    append(memory, KIND, entry("one"))
    file = file_of(memory)
    before, noted = file.read_bytes(), read_last(file)
    append(memory, KIND, entry("two"))
    whole = file.read_bytes()
    assert noted is not None
    for end in range(len(before), len(whole) + 1):
        file.write_bytes(whole[:end])
        write_last(file, Last(noted.entry, noted.seal, noted.date, writing=len(before)))
        faults = [fault.wrong for fault in verify(read_book(memory, KIND), {})]
        written = append(memory, KIND, entry("three"))
        if end >= len(whole) - 1:  # all of it, or all but the last line end
            assert (faults, notes(memory), written.set_aside) == ([], ["one", "two", "three"], None)
        elif end == len(before):  # nothing of it
            assert (faults, notes(memory), written.set_aside) == ([], ["one", "three"], None)
        else:
            assert faults == [Wrong.TORN], end
            assert notes(memory) == ["one", "three"]
            assert written.set_aside is not None
            assert written.set_aside.read_bytes() == whole[len(before) : end]
        assert verify(read_book(memory, KIND), {}) == []


@pytest.mark.parametrize("rubbish", [b"\x00" * 300, b"\xff\xfe\xff", b"---\npractice: 2\nwho: [", b"---\n\tx"])
def test_what_a_disk_makes_of_it_is_set_aside_too(rubbish: bytes, tmp_path: Path) -> None:
    append(tmp_path, KIND, entry("one"))
    file = file_of(tmp_path)
    last = read_last(file)
    assert last is not None
    size = file.stat().st_size
    file.write_bytes(file.read_bytes() + rubbish)
    write_last(file, Last(last.entry, last.seal, last.date, writing=size))
    written = append(tmp_path, KIND, entry("two"))
    assert written.set_aside is not None and written.set_aside.read_bytes() == rubbish
    assert notes(tmp_path) == ["one", "two"]


def test_without_a_note_of_writing_nothing_is_set_aside(tmp_path: Path) -> None:
    """An entry written by hand looks torn to a program; only what a writer has noted is taken for torn."""
    append(tmp_path, KIND, entry("one"))
    file = file_of(tmp_path)
    by_hand = file.read_bytes() + b"---\npractice: 2\nwho: ansa\n"
    file.write_bytes(by_hand)
    with pytest.raises(NotWritten):
        append(tmp_path, KIND, entry("two"))
    assert file.read_bytes() == by_hand


def test_an_acknowledged_entry_that_is_torn_is_never_set_aside_in_silence(tmp_path: Path) -> None:
    for note in ("one", "two"):
        append(tmp_path, KIND, entry(note))
    file = file_of(tmp_path)
    file.write_bytes(file.read_bytes()[:-80])
    with pytest.raises(NotWritten, match="does not end with entry 2"):
        append(tmp_path, KIND, entry("three"))


# --- a full disk, a busy book, a moved book ---------------------------------------------------------------


def test_a_full_disk_leaves_the_book_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    append(tmp_path, KIND, entry("one"))
    before = file_of(tmp_path).read_bytes()
    real = appending.write_all

    def full(handle: int, data: bytes) -> None:
        real(handle, data[:40])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(appending, "write_all", full)
    with pytest.raises(OSError, match="No space left"):
        append(tmp_path, KIND, entry("two"))
    assert file_of(tmp_path).read_bytes() == before
    monkeypatch.undo()
    assert append(tmp_path, KIND, entry("two")).number == 2


def test_a_busy_book_is_waited_for_and_then_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    append(tmp_path, KIND, entry("one"))
    monkeypatch.setattr(appending.locked.__wrapped__, "__defaults__", (0.05,))
    with FileLock(file_of(tmp_path).with_name(".practice.lock")), pytest.raises(NotWritten, match="Somebody else"):
        append(tmp_path, KIND, entry("two"))
    assert notes(tmp_path) == ["one"]


def test_who_looked_at_an_older_book_does_not_write(tmp_path: Path) -> None:
    seen = append(tmp_path, KIND, entry("one")).seal
    append(tmp_path, KIND, entry("two"))
    with pytest.raises(MovedOn, match="entry 2"):
        append(tmp_path, KIND, entry("three"), seen=seen)


def test_a_book_not_under_seal_or_without_its_last_seal_is_not_written_into(tmp_path: Path) -> None:
    file = file_of(tmp_path)
    file.parent.mkdir(parents=True)
    file.write_bytes(b"---\npractice: 1\nwho: ansa\n")
    with pytest.raises(NotWritten, match="benchlore seal"):
        append(tmp_path, KIND, entry("two"))
    file.unlink()
    append(tmp_path, KIND, entry("one"))
    last_file(file).unlink()
    with pytest.raises(NotWritten, match=r"practice\.last"):
        append(tmp_path, KIND, entry("two"))


def test_line_ends_of_the_book_are_kept(tmp_path: Path) -> None:
    append(tmp_path, KIND, entry("one"))
    file = file_of(tmp_path)
    file.write_bytes(file.read_bytes().replace(b"\n", b"\r\n"))
    append(tmp_path, KIND, entry("two"))
    assert file.read_bytes().count(b"\r\n") == file.read_bytes().count(b"\n")
    assert verify(read_book(tmp_path, KIND), {}) == []
