"""A keeping is whole, is the same each time, gives the notebook back, and never stands half."""

from __future__ import annotations

import errno
import json
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import bagit
import jsonschema
import pytest
from kept_shops import DAY, benchlore, everything, shop_in
from PIL import Image

from site_builder.archive import keep as keeping
from site_builder.archive.check import troubles
from site_builder.notebook.picture_facts import inspect
from tests.needed import missing

HERE = Path(__file__).parent
YES = "archive: {places: yes, voices: yes}\n"


@pytest.fixture(scope="session")
def forge(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The notebook of a shop that lets everything in."""
    return shop_in(tmp_path_factory.mktemp("shop") / "forge", YES)


@pytest.fixture(scope="session")
def kept(forge: Path) -> Path:
    """What was kept of it. Do not change it."""
    place = forge.with_name("kept")
    code, said = benchlore("keep", place, "-n", forge, "--today", DAY)
    assert code == 0, said
    return place


@pytest.fixture(scope="session")
def careful(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What was kept of a shop that has not said whether places and voices may go in."""
    forge = shop_in(tmp_path_factory.mktemp("careful") / "forge")
    place = forge.with_name("kept")
    code, said = benchlore("keep", place, "-n", forge, "--today", DAY)
    assert code == 0 and "archive: {places: yes}" in said and "archive: {voices: yes}" in said
    return place


# --- what is in it -------------------------------------------------------------------------------------------


def test_any_tool_for_bags_finds_it_whole(kept: Path) -> None:
    bag = bagit.Bag(str(kept))
    assert bag.is_valid() and bag.version_info == (1, 0) and bag.algorithms == ["sha512"]
    assert bag.info["Bagging-Date"] == DAY and bag.info["Source-Organization"] == "The Tarn forge"


@pytest.mark.parametrize("listing", ["manifest-sha512.txt", "tagmanifest-sha512.txt"])
def test_so_does_sha512sum(kept: Path, listing: str) -> None:
    if shutil.which("sha512sum") is None:
        missing("sha512sum")
    done = subprocess.run(["sha512sum", "--check", "--strict", listing], cwd=kept, capture_output=True, text=True)
    assert done.returncode == 0 and "OK" in done.stdout, done.stderr


def test_the_notebook_is_in_it_as_written(forge: Path, kept: Path) -> None:
    assert everything(kept / "data" / "notebook") == {
        path: data for path, data in everything(forge).items() if not path.startswith((".cache/", "site/"))}


def test_every_form_is_there_and_names_the_work(kept: Path) -> None:
    data = kept / "data"
    assert "Bend the hook" in (data / "handbook" / "the-work" / "hook" / "bend-hook.html").read_text("utf-8")
    assert (data / "books" / "handbook.pdf").read_bytes().startswith(b"%PDF-1.7")
    assert "book/the-work/hook/bend-hook.xhtml" in zipfile.ZipFile(data / "books" / "handbook.epub").namelist()
    text = (data / "text" / "handbook.txt").read_text("utf-8")
    assert "1. Heat the end until it is orange and brush off the scale." in text
    assert max(map(len, text.splitlines())) <= 78 and "\n\n\n" not in text


def test_the_whole_notebook_is_one_json_file_that_its_schema_accepts(kept: Path) -> None:
    text = kept / "data" / "text"
    told = json.loads((text / "notebook.json").read_text("utf-8"))
    schema = json.loads((text / told["$schema"]).read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    assert list(jsonschema.Draft202012Validator(schema).iter_errors(told)) == []
    work = told["procedure"]["procedures/hook/bend-hook.yml"]
    assert work["steps"][1]["limits"]["opening"] == "30 ±1 mm"
    assert len(told["sign-off"]["skills/records/sign-offs.yml"]) > 1 and told["unread"] == {}
    told["procedure"]["procedures/hook/bend-hook.yml"]["stepps"] = []
    assert list(jsonschema.Draft202012Validator(schema).iter_errors(told)), "a wrong key is refused"


def test_a_picture_of_the_web_has_a_second_form_that_archives_take(kept: Path) -> None:
    second = kept / "data" / "pictures-and-recordings" / "procedures" / "photos"
    assert [one.name for one in second.iterdir()] == ["horn.webp.png"]
    with Image.open(second / "horn.webp.png") as turned, \
            Image.open(kept / "data/notebook/procedures/photos/horn.webp") as original:
        assert turned.convert("RGB").tobytes() == original.convert("RGB").tobytes()


def test_what_each_picture_shows_stands_in_words(kept: Path) -> None:
    told = (kept / "data" / "text" / "pictures-and-recordings.txt").read_text("utf-8")
    assert "procedures/photos/anvil.jpg\n    The anvil by the door" in told
    assert "Second form: procedures/photos/horn.webp.png" in told


def test_who_finds_it_is_told_what_it_is_in_words_that_fit_a_page(kept: Path) -> None:
    text = (kept / "READ-ME-FIRST.txt").read_text("utf-8")
    for said in ("READ ME FIRST", "The Tarn forge", "Petra Holm", "4 May 2026", "sha512sum -c manifest-sha512.txt",
                 "one procedure", "come first"):
        assert said in text
    assert max(map(len, text.splitlines())) <= 78
    named = [word for line in text.splitlines() for word in line.split() if word.startswith("data/")]
    assert len(named) > 10
    for one in named:
        assert (kept / one.rstrip(".:;,")).exists(), one


# --- what stays out ------------------------------------------------------------------------------------------


def test_what_the_shop_has_not_allowed_is_nowhere_in_it(careful: Path) -> None:
    files = everything(careful)
    assert not [path for path in files if "ring" in path.rpartition("/")[2] and path.endswith((".wav", ".mp3"))]
    assert "data/notebook/procedures/photos/anvil.jpg" not in files
    clean = careful / "data" / "pictures-and-recordings" / "procedures" / "photos" / "anvil.jpg"
    assert inspect(clean).width == 320 and not inspect(clean).has_location
    for path in files:
        if path.endswith((".jpg", ".webp", ".png")):
            assert not inspect(careful / path).has_location, path


def test_what_stays_out_is_told(careful: Path) -> None:
    said = (careful / "READ-ME-FIRST.txt").read_text("utf-8")
    assert "procedures/photos/ring.wav" in said and "procedures/photos/anvil.jpg" in said
    page = (careful / "data" / "handbook" / "index.html").read_text("utf-8")
    assert "ring.wav is not in this copy" in page and "it must ring, not clack" in page
    assert "ring.wav is not in this copy" in (careful / "data/text/handbook.txt").read_text("utf-8").replace("\n", " ")


def test_a_handbook_made_afterwards_has_the_recording_again(careful: Path) -> None:
    code, said = benchlore("build", careful.with_name("forge"), "--today", DAY)
    assert code == 0, said
    assert "is not in this copy" not in (careful.with_name("forge") / "site" / "index.html").read_text("utf-8")


# --- the same again ------------------------------------------------------------------------------------------


def test_from_the_keeping_alone_the_notebook_is_there_again_and_kept_again_is_the_same(
    kept: Path, tmp_path: Path,
) -> None:
    again = tmp_path / "again"
    code, said = benchlore("keep", "--restore", kept, again)
    assert code == 0 and everything(again) == everything(kept / "data" / "notebook"), said
    code, said = benchlore("keep", tmp_path / "second", "-n", again, "--today", DAY)
    assert code == 0 and everything(tmp_path / "second") == everything(kept), said
    assert benchlore("keep", "--restore", kept, again)[0] == 2, "what is there is never written over"


def test_a_damaged_notebook_is_not_restored_unless_one_says_so(kept: Path, tmp_path: Path) -> None:
    copy = shutil.copytree(kept, tmp_path / "copy")
    (copy / "data/notebook/skills/people.yml").write_text("people: {}\n", "utf-8")
    code, said = benchlore("keep", "--restore", copy, tmp_path / "new")
    assert code == 1 and "people.yml" in said and not (tmp_path / "new").exists()
    code, said = benchlore("keep", "--restore", copy, tmp_path / "new", "--as-far-as-whole")
    assert code == 1 and "people.yml" in said
    assert (tmp_path / "new/procedures/shop.yml").is_file() and not (tmp_path / "new/skills/people.yml").exists()


# --- where it goes -------------------------------------------------------------------------------------------


def test_a_kill_at_any_step_leaves_a_whole_keeping_or_none_that_looks_like_one(tmp_path: Path) -> None:
    done = subprocess.run([sys.executable, "-m", "tests.archive.killed_keeping", str(tmp_path)],
                          cwd=HERE.parent.parent, capture_output=True, text=True, check=False)
    assert "left no keeping" in done.stdout, done.stdout + done.stderr
    kills, gone = (int(word) for word in done.stdout.split() if word.isdigit())
    assert kills > 30 and gone > 0, "among them the ones that matter"


def test_a_folder_that_is_not_ours_is_refused_by_name(forge: Path, kept: Path, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("Dear grandmother", "utf-8")
    code, said = benchlore("keep", tmp_path, "-n", forge)
    assert code == 2 and "letter.txt" in said and (tmp_path / "letter.txt").read_text("utf-8") == "Dear grandmother"
    copy = shutil.copytree(kept, tmp_path / "copy")
    (copy / "data" / "mine.txt").write_text("mine", "utf-8")
    code, said = benchlore("keep", copy, "-n", forge)
    assert code == 2 and "data/mine.txt" in said and (copy / "data/mine.txt").is_file()


@pytest.mark.parametrize("where", [".", "procedures", "procedures/kept", ".git/kept", "mkdocs.yml", ".."])
def test_it_never_goes_over_the_notebook(forge: Path, where: str) -> None:
    before = everything(forge)
    code, said = benchlore("keep", forge / where, "-n", forge)
    assert code == 2 and said and everything(forge) == before


def test_a_full_disk_is_told_and_the_last_keeping_stays(
    forge: Path, kept: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:
    place = shutil.copytree(kept, tmp_path / "kept")
    before = everything(place)

    def no_room(*_words: object, **_more: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(keeping, "write_bag", no_room)
    monkeypatch.setattr(keeping, "gather", lambda *_words, **_more: None)
    monkeypatch.setattr(keeping, "first_words", lambda *_words: "")
    monkeypatch.setattr(keeping, "_about", lambda _contents: [])
    code, said = benchlore("keep", place, "-n", forge)
    assert code == 2 and "disk is full" in said
    assert everything(place) == before and [one.name for one in tmp_path.iterdir()] == ["kept"]
    assert troubles(place) == ()


def test_a_notebook_with_errors_is_kept_only_on_a_word_of_its_own(tmp_path: Path) -> None:
    forge = shop_in(tmp_path / "forge")
    (forge / "procedures" / "hook" / "file-hook.yml").write_text(
        "procedure: file-hook\ntitle: File it\nsteps:\n  - do: See [[nothing]].\n", "utf-8")
    code, said = benchlore("keep", tmp_path / "kept", "-n", forge, "--today", DAY)
    assert code == 1 and "nothing" in said and "file-hook.yml" in said and not (tmp_path / "kept").exists()
