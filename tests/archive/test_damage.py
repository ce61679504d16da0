"""Whatever happens to a file of a keeping is told by its name, and another copy mends it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from kept_shops import benchlore, everything
from killed_keeping import fill

from site_builder.archive.bag import LIST_OF_LISTS, listing_text, read_listing
from site_builder.archive.check import troubles

Damage = Callable[[Path], None]


@pytest.fixture
def small(quick: Path) -> Path:
    """A keeping of a few files, on a disk in memory where there is one."""
    folder = quick / "small"
    fill(folder, "What the master said.\n")
    return folder


@pytest.fixture
def quick(tmp_path: Path) -> Path:
    memory = Path("/dev/shm")
    if not memory.is_dir():
        return tmp_path
    folder = memory / f"benchlore-{tmp_path.parent.name}-{tmp_path.name}"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    (tmp_path / "quick").symlink_to(folder)
    return folder


@pytest.fixture(autouse=True)
def _away(quick: Path):  # type: ignore[no-untyped-def]
    yield
    shutil.rmtree(quick, ignore_errors=True)


def altered(file: Path) -> None:
    data = bytearray(file.read_bytes())
    data[len(data) // 2] ^= 1
    file.write_bytes(data)


def cut(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-1])


def emptied(file: Path) -> None:
    file.write_bytes(b"")


def lost(file: Path) -> None:
    file.unlink()


def renamed(file: Path) -> None:
    file.rename(file.with_name(f"old {file.name}"))


def a_link(file: Path) -> None:
    file.rename(file.parent.parent.parent / "elsewhere")
    file.symlink_to(file.parent.parent.parent / "elsewhere")


@pytest.mark.parametrize("damage", [altered, cut, emptied, lost, renamed, a_link])
def test_every_file_of_a_keeping_is_told(small: Path, damage: Damage) -> None:
    names = sorted(everything(small))
    assert troubles(small) == () and len(names) == 7
    for name in names:
        copy = shutil.copytree(small, small.with_name("copy") / "kept")
        damage(copy / name)
        told = [one.line() for one in troubles(copy)]
        assert any(name in line for line in told), (name, told)
        shutil.rmtree(copy.parent)
        (small.parent / "elsewhere").unlink(missing_ok=True)


def test_every_byte_of_the_list_of_lists_is_watched(small: Path) -> None:
    file = small / LIST_OF_LISTS
    data = file.read_bytes()
    for at in range(len(data)):
        spoilt = bytearray(data)
        spoilt[at] ^= 1
        file.write_bytes(spoilt)
        assert any(LIST_OF_LISTS in one.line() for one in troubles(small)), at


@pytest.mark.parametrize("lines", [1, 2, 3])
def test_a_list_that_lost_whole_lines_is_told(small: Path, lines: int) -> None:
    for name in (LIST_OF_LISTS, "manifest-sha512.txt"):
        file = small / name
        data = file.read_bytes()
        file.write_bytes(b"".join(data.splitlines(keepends=True)[:-lines]))
        assert any(name in one.line() for one in troubles(small))
        file.write_bytes(data)


def test_what_was_added_or_renamed_is_told_as_that(small: Path) -> None:
    (small / "data" / "mine.txt").write_text("mine", "utf-8")
    renamed(small / "data" / "handbook.txt")
    # both files of this small keeping say the same: by its content alone the renamed one could be either
    assert [one.line() for one in troubles(small)] == [
        "renamed   data/handbook.txt, is called data/old handbook.txt now",
        "added     data/mine.txt: not listed, nobody can say who put it there",
    ]


def test_what_systems_leave_behind_is_no_damage(small: Path) -> None:
    (small / ".DS_Store").write_bytes(b"x")
    (small / "data" / "Thumbs.db").write_bytes(b"x")
    assert troubles(small) == ()


def test_names_that_break_lines_are_written_as_the_standard_says(tmp_path: Path) -> None:
    file = tmp_path / "manifest-sha512.txt"
    names = {"data/100 % wool.yml": "a" * 128, "data/two\nlines": "b" * 128, "data/Föt.jpg": "c" * 128}
    file.write_text(listing_text(names), "utf-8", newline="\n")
    read = read_listing(file)
    assert read is not None and read.sound and dict(read.files) == names
    assert "100 %25 wool" in file.read_text("utf-8") and "two%0Alines" in file.read_text("utf-8")


# --- another copy --------------------------------------------------------------------------------------------


def test_another_copy_is_asked_and_mends_only_on_a_word_of_its_own(small: Path) -> None:
    other = shutil.copytree(small, small.with_name("other"))
    whole = everything(small)
    altered(small / "data" / "notebook.txt")
    lost(small / "READ-ME-FIRST.txt")
    renamed(small / "data" / "handbook.txt")
    hurt = everything(small)
    code, said = benchlore("keep", "--check", small, "--from", other)
    assert code == 1 and said.count(f"whole in {other}") == 2 and everything(small) == hurt
    code, said = benchlore("keep", "--check", small, "--from", other, "--mend")
    assert code == 0 and everything(small) == whole, said
    aside = small.with_name("small-damaged") / "data" / "notebook.txt"
    assert aside.read_bytes() == hurt["data/notebook.txt"], "nothing is thrown away"
    assert everything(other) == whole


def test_two_half_copies_make_a_whole_one(small: Path) -> None:
    other = shutil.copytree(small, small.with_name("other"))
    whole = everything(small)
    for name in ("data/notebook.txt", "manifest-sha512.txt"):
        altered(small / name)
    altered(other / "data" / "handbook.txt")
    assert "not whole" not in benchlore("keep", "--check", small, "--from", other)[1]
    assert benchlore("keep", "--check", small, "--from", other, "--mend")[0] == 0
    assert everything(small) == whole
    assert benchlore("keep", "--check", other, "--from", small, "--mend")[0] == 0
    assert everything(other) == whole


@pytest.mark.parametrize("name", ["tagmanifest-sha512.txt", "bag-info.txt", "bagit.txt"])
def test_lists_are_mended_too(small: Path, name: str) -> None:
    other = shutil.copytree(small, small.with_name("other"))
    whole = everything(small)
    altered(small / name)
    code, said = benchlore("keep", "--check", small, "--from", other, "--mend")
    assert code == 0 and everything(small) == whole, said


def test_a_damaged_copy_is_never_taken_for_a_whole_one(small: Path) -> None:
    other = shutil.copytree(small, small.with_name("other"))
    altered(small / "data" / "notebook.txt")
    cut(other / "data" / "notebook.txt")
    hurt = everything(small)
    code, said = benchlore("keep", "--check", small, "--from", other)
    assert code == 1 and "not whole in" in said
    assert benchlore("keep", "--check", small, "--from", other, "--mend")[0] == 1
    assert everything(small) == hurt


def test_a_keeping_of_something_else_mends_nothing(small: Path) -> None:
    other = small.with_name("other")
    fill(other, "What somebody else said.\n")
    altered(small / "data" / "notebook.txt")
    code, said = benchlore("keep", "--check", small, "--from", other, "--mend")
    assert code == 2 and "no copy of this keeping" in said


def test_a_folder_without_lists_is_no_keeping(quick: Path) -> None:
    code, said = benchlore("keep", "--check", quick)
    assert code == 2 and "no keeping" in said
