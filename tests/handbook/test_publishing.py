"""Where a handbook goes: nothing of anybody's is lost, whatever is linked, locked, killed or done twice at once."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from site_builder.cli.main import cli
from site_builder.handbook.publishing.mark import MARK, WORK, digest, listed, strangers, write_mark
from site_builder.handbook.publishing.publish import NotPlaced, Refused, publication

HERE = Path(__file__).parent
BUILD = [sys.executable, "-m", "site_builder.cli", "build"]


@pytest.fixture(scope="module")
def quick_disk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder where waiting for the disk costs nothing, if this machine has one."""
    if not os.access("/dev/shm", os.W_OK):
        yield tmp_path_factory.mktemp("disk")
        return
    with tempfile.TemporaryDirectory(dir="/dev/shm") as folder:
        yield Path(folder)


@pytest.fixture(scope="module")
def first(quick_disk: Path) -> Path:
    """A small notebook with its handbook in ``site``, to be copied."""
    folder = quick_disk / "first"
    assert benchlore("new", "shop", str(folder)).exit_code == 0
    assert benchlore("build", "-f", str(folder / "mkdocs.yml"), "-d", str(folder / "site")).exit_code == 0
    return folder


@pytest.fixture
def built(first: Path, quick_disk: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A notebook with its handbook in ``site``; we stand in its folder."""
    with tempfile.TemporaryDirectory(dir=quick_disk) as folder:
        shutil.copytree(first, Path(folder) / "shop")
        with monkeypatch.context() as here:
            here.chdir(Path(folder) / "shop")
            yield Path(folder) / "shop"


@pytest.fixture
def shop(built: Path) -> Path:
    """The same, before its first build."""
    shutil.rmtree(built / "site")
    return built


def benchlore(*words: str) -> Result:
    return CliRunner().invoke(cli, list(words))


def told(result: Result) -> str:
    return " ".join(result.output.split())


def everything(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def is_whole(book: Path) -> bool:
    """Whether a handbook holds what its mark lists, and nothing else."""
    shas = listed(book)
    return shas is not None and strangers(book) == [] and all(digest(book / path) == sha for path, sha in shas.items())


def publish(target: Path, root: Path, text: str = "new") -> list[str]:
    """A handbook of one page, published."""
    lines: list[str] = []
    with publication(target, root, root / ".cache", lines.append) as under_way:
        under_way.making.mkdir()
        (under_way.making / "index.html").write_text(text)
        under_way.finish()
    return [*lines, *under_way.told]


# --- what is never replaced ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("where", "named"), [
    ("skills", "belongs to the notebook's own folder `skills`"),
    ("procedures/new", "belongs to the notebook's own folder `procedures`"),
    (".", "is the notebook itself"),
    ("..", "holds the notebook"),
    ("/", "is the root of this machine's disk"),
    (".git/site", "belongs to Git"),
    ("mkdocs.yml", "is a file"),
])
def test_a_handbook_never_goes_over_the_notebook(shop: Path, where: str, named: str) -> None:
    before = everything(shop)
    refused = benchlore("build", "-d", where)
    assert refused.exit_code == 2
    assert named in told(refused)
    assert everything(shop) == before


@pytest.mark.usefixtures("shop")
def test_a_handbook_never_goes_over_somebodys_home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("USERPROFILE", str(home))
    refused = benchlore("build", "-d", str(home))
    assert refused.exit_code == 2 and "is your home folder itself" in told(refused)
    better = told(refused).split("`")[1].removeprefix("benchlore ").split()
    assert benchlore(*better).exit_code == 0, "the mend can be followed to the letter"
    assert is_whole(home / "handbook")


def test_a_folder_with_a_letter_and_a_repository_is_refused_by_name(shop: Path) -> None:
    folder = shop / "papers"
    (folder / ".git").mkdir(parents=True)
    (folder / ".git" / "HEAD").write_text("ref: refs/heads/main\n")
    (folder / "letter.txt").write_text("Dear Edda")
    before = everything(folder)
    refused = benchlore("build", "-d", "papers")
    assert refused.exit_code == 2
    assert "papers holds `.git`, `letter.txt` and is no handbook that we made" in told(refused)
    assert everything(folder) == before
    better = told(refused).split("`benchlore ")[1].split("`")[0].split()
    assert benchlore(*better).exit_code == 0
    assert is_whole(folder / "handbook") and (folder / "letter.txt").exists()


def test_folders_with_the_names_of_our_own_are_left_alone(shop: Path) -> None:
    for name in ("site.old", "site.making", f"{WORK}0123456789abcdef-mine"):
        (shop / name).mkdir()
        (shop / name / "letter.txt").write_text("mine")
    for _ in range(2):
        assert benchlore("build").exit_code == 0
    for name in ("site.old", "site.making", f"{WORK}0123456789abcdef-mine"):
        assert (shop / name / "letter.txt").read_text() == "mine"


@pytest.mark.parametrize("theirs", ["notes.txt", "assets/photos/own.jpg", ".git/HEAD", "empty-pipe"])
def test_what_somebody_put_into_a_handbook_is_not_taken_away(built: Path, theirs: str) -> None:
    file = built / "site" / theirs
    file.parent.mkdir(parents=True, exist_ok=True)
    if theirs == "empty-pipe":
        os.mkfifo(file)
    else:
        file.write_text("mine")
    refused = benchlore("build")
    assert refused.exit_code == 2
    assert f"it also holds `{theirs}`, which we did not make" in told(refused)
    assert os.path.lexists(file)
    file.unlink()
    assert benchlore("build").exit_code == 0, "the mend can be followed to the letter"


def test_a_folder_that_systems_leave_their_marks_in_is_empty_all_the_same(shop: Path) -> None:
    (shop / "out").mkdir()
    (shop / "out" / ".DS_Store").write_bytes(b"\0")
    assert benchlore("build", "-d", "out").exit_code == 0
    assert is_whole(shop / "out")


def test_a_handbook_of_an_older_version_is_known_by_its_pages(built: Path) -> None:
    (built / "site" / MARK).unlink()
    assert benchlore("build").exit_code == 0
    assert is_whole(built / "site")


@pytest.mark.parametrize(("path", "text"), [
    ("the-work/own.html", "<p>A page of another maker</p>"), ("cv.docx", "mine"), ("notes.json", "{}"),
    ("assets/photos/original.jpg", "mine"),
])
def test_what_is_not_without_doubt_an_old_handbook_is_refused(built: Path, path: str, text: str) -> None:
    (built / "site" / MARK).unlink()
    (built / "site" / path).parent.mkdir(exist_ok=True)
    (built / "site" / path).write_text(text)
    refused = benchlore("build")
    assert refused.exit_code == 2 and "delete it by hand, then build again" in told(refused)
    assert (built / "site" / path).read_text() == text


def test_the_same_holds_for_plain_mkdocs(shop: Path) -> None:
    (shop / "site").mkdir()
    (shop / "site" / "letter.txt").write_text("mine")
    mkdocs = [sys.executable, "-m", "mkdocs", "build", "-q"]
    refused = subprocess.run(mkdocs, cwd=shop, capture_output=True, text=True, check=False)
    assert refused.returncode != 0 and "`letter.txt`" in refused.stderr
    assert (shop / "site" / "letter.txt").read_text() == "mine"
    (shop / "site" / "letter.txt").unlink()
    for _ in range(2):
        subprocess.run(mkdocs, cwd=shop, check=True)
        assert is_whole(shop / "site")
    assert benchlore("build").exit_code == 0


def test_the_mark_is_a_list_that_others_can_read(built: Path) -> None:
    tried = subprocess.run(["sha256sum", "--check", "--strict", "--quiet", MARK], cwd=built / "site", check=False)
    assert tried.returncode == 0


def test_a_mark_that_was_copied_elsewhere_covers_nothing_else(built: Path) -> None:
    other = built / "other"
    other.mkdir()
    shutil.copy(built / "site" / MARK, other)
    (other / "letter.txt").write_text("mine")
    assert benchlore("build", "-d", "other").exit_code == 2
    assert (other / "letter.txt").read_text() == "mine"


# --- links ----------------------------------------------------------------------------------------------------


def test_a_link_to_a_folder_stays_a_link(shop: Path, tmp_path: Path) -> None:
    (shop / "site").symlink_to(tmp_path / "www")
    (tmp_path / "www").mkdir()
    for _ in range(2):
        assert benchlore("build").exit_code == 0
        assert (shop / "site").is_symlink() and is_whole(tmp_path / "www")


def test_a_link_to_nothing_may_be_a_stick_that_is_not_plugged_in(shop: Path, tmp_path: Path) -> None:
    (shop / "site").symlink_to(tmp_path / "stick" / "book")
    refused = benchlore("build")
    assert refused.exit_code == 2 and "Is the disk plugged in?" in told(refused)
    assert not (tmp_path / "stick").exists()


def test_a_link_in_a_circle_is_told(shop: Path) -> None:
    (shop / "site").symlink_to("site")
    refused = benchlore("build")
    assert refused.exit_code in (1, 2) and "circle" in told(refused)


# --- two at once, killed, full, read-only ---------------------------------------------------------------------


def test_of_two_builds_at_once_one_waits_and_both_are_whole(shop: Path) -> None:
    started = [subprocess.Popen(BUILD, cwd=shop, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
               for _ in range(3)]
    said = [one.communicate() for one in started]
    assert [one.returncode for one in started] == [0, 0, 0], said
    assert sum("Another build into this folder is under way; this one waits for it." in err for _, err in said) >= 1
    assert is_whole(shop / "site")
    assert list(shop.glob(f"{WORK}*")) == []


@pytest.mark.parametrize("way", ["whole", "within"])
@pytest.mark.parametrize("copied", [False, True], ids=["same disk", "another disk"])
def test_a_kill_at_any_step_leaves_the_last_good_book_or_the_new_one(
    way: str, copied: bool, tmp_path: Path, quick_disk: Path,
) -> None:
    if copied and quick_disk.stat().st_dev == tmp_path.stat().st_dev:
        pytest.skip("no second disk here")
    (quick_disk / "other").mkdir(exist_ok=True)
    words = [str(quick_disk / f"home-{way}"), way]
    if copied:
        words = [str(tmp_path / "home"), way, str(quick_disk / "other")]
    done = subprocess.run([sys.executable, "-m", "tests.handbook.killed_builds", *words],
                          cwd=HERE.parent.parent, capture_output=True, text=True, check=False)
    assert "left no whole book" in done.stdout, done.stdout + done.stderr
    kills, torn = (int(word) for word in done.stdout.split() if word.isdigit())
    assert kills > 30 and torn > 0, "among them the ones that matter"


@pytest.mark.parametrize("command", [("check",), ("verify",), ("build",)])
def test_whatever_command_comes_next_puts_the_last_good_book_back(built: Path, command: tuple[str, ...]) -> None:
    before = everything(built / "site")
    script = (
        "import os, signal, sys, pathlib\n"
        "from site_builder.cli.main import main\n"
        "rename = pathlib.Path.rename\n"
        "def once(self, goal):\n"
        "    done = rename(self, goal)\n"
        "    if self.name == 'site':\n"
        "        os.kill(os.getpid(), signal.SIGKILL)\n"
        "    return done\n"
        "pathlib.Path.rename = once\n"
        "sys.argv = ['benchlore', 'build']\n"
        "main()\n"
    )
    assert subprocess.run([sys.executable, "-c", script], cwd=built, check=False, capture_output=True).returncode == -9
    assert not (built / "site").exists(), "it was killed between the two renames"
    after = benchlore(*command)
    assert "the last good one is back in" in told(after)
    assert everything(built / "site") == before
    assert list(built.glob(f"{WORK}*")) == []


def test_an_old_handbook_that_is_read_only_is_replaced_and_goes(tmp_path: Path) -> None:
    (tmp_path / "procedures").mkdir()
    publish(tmp_path / "site", tmp_path, "old")
    (tmp_path / "site" / "index.html").chmod(0o444)
    (tmp_path / "site").chmod(0o555)
    script = (
        "import pathlib, sys\n"
        f"sys.path.insert(0, {str(HERE)!r})\n"
        "from test_publishing import publish\n"
        "root = pathlib.Path.cwd()\n"
        "try:\n    (root / 'site' / 'more').mkdir()\n    sys.exit('the folder is not read-only for this user')\n"
        "except PermissionError:\n    pass\n"
        "print(publish(root / 'site', root, 'new'), (root / 'site' / 'index.html').read_text())\n"
    )
    as_others = ["setpriv", "--bounding-set=-all", "--inh-caps=-all"] if os.getuid() == 0 else []
    if as_others and shutil.which("setpriv") is None:
        pytest.skip("nothing is read-only for this user")
    done = subprocess.run([*as_others, sys.executable, "-c", script], capture_output=True, text=True, check=False,
                          cwd=tmp_path)
    assert done.stdout == "[] new\n", done.stderr
    assert sorted(one.name for one in tmp_path.iterdir()) == ["procedures", "site"]


def test_an_old_handbook_that_cannot_be_removed_is_told_of(tmp_path: Path) -> None:
    (tmp_path / "procedures").mkdir()
    publish(tmp_path / "site", tmp_path, "old")
    fixed = tmp_path / "site" / "index.html"
    if shutil.which("chattr") is None or subprocess.run(["chattr", "+i", fixed], check=False).returncode:
        pytest.skip("no file can be made unremovable here")
    try:
        lines = publish(tmp_path / "site", tmp_path, "new")
        aside = next(tmp_path.glob(f"{WORK}*"))
        fixed = aside / "old" / "site" / "index.html"
        assert lines == [f"What stood there before could not be removed; it lies in {aside}. Delete it by hand, or "
                         "build again later."]
        assert (tmp_path / "site" / "index.html").read_text() == "new"
    finally:
        subprocess.run(["chattr", "-i", fixed], check=True)
    assert publish(tmp_path / "site", tmp_path, "newer") == []
    assert list(tmp_path.glob(f"{WORK}*")) == [], "the next build clears up"


def test_what_comes_into_the_place_while_the_handbook_is_made_is_not_lost(tmp_path: Path) -> None:
    (tmp_path / "procedures").mkdir()
    with (
        pytest.raises(Refused, match=r"letter\.txt"),
        publication(tmp_path / "site", tmp_path, tmp_path / ".cache", print) as under_way,
    ):
        (tmp_path / "site").mkdir()
        (tmp_path / "site" / "letter.txt").write_text("mine")
        under_way.making.mkdir()
        under_way.finish()
    assert sorted(one.name for one in tmp_path.iterdir()) == ["procedures", "site"]


def test_a_copy_that_does_not_come_back_as_it_was_written_is_no_handbook(
    tmp_path: Path, quick_disk: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:
    if quick_disk.stat().st_dev == tmp_path.stat().st_dev:
        pytest.skip("no second disk here")
    (tmp_path / "procedures").mkdir()
    disk = quick_disk / "failing"
    publish(disk / "site", tmp_path, "old")

    def one_bit_lost(source: Path, goal: Path) -> None:
        data = bytearray(source.read_bytes())
        data[0] ^= 1
        goal.write_bytes(data)

    monkeypatch.setattr("shutil.copyfile", one_bit_lost)
    with pytest.raises(NotPlaced, match="did not come back from the disk as it was written"):
        publish(disk / "site", tmp_path, "new")
    assert (disk / "site" / "index.html").read_text() == "old"
    assert [one.name for one in disk.iterdir()] == ["site"]


def test_the_mark_of_an_empty_folder_makes_it_no_handbook_of_others(tmp_path: Path) -> None:
    write_mark(tmp_path)
    assert listed(tmp_path) == {} and strangers(tmp_path) == []


@pytest.mark.parametrize("theirs", [
    ".Trash-1000/files/letter.txt", "desktop.ini/will.txt", "._diary.txt", f"{WORK}of-mine/letter.txt",
])
def test_what_is_merely_called_as_systems_call_theirs_is_not_taken_away(shop: Path, theirs: str) -> None:
    letter = shop / "out" / theirs
    letter.parent.mkdir(parents=True)
    letter.write_text("mine", "utf-8")
    for _ in range(2):
        done = benchlore("build", "-d", "out")
        assert done.exit_code == 0, done.output
        assert letter.read_text("utf-8") == "mine"
        assert (shop / "out" / "index.html").is_file()


def test_a_file_of_such_a_name_within_the_handbook_is_told(built: Path) -> None:
    (built / "site" / "assets" / "._diary.txt").write_text("mine", "utf-8")
    (built / "site" / "assets" / ".DS_Store").write_text("how a window is shown", "utf-8")
    done = benchlore("build")
    assert done.exit_code == 2
    assert "`assets/._diary.txt`" in done.output and "DS_Store" not in done.output
    assert (built / "site" / "assets" / "._diary.txt").read_text("utf-8") == "mine"


@pytest.mark.usefixtures("built")
def test_no_handbook_goes_into_a_handbook() -> None:
    done = benchlore("build", "-d", "site/x")
    assert done.exit_code == 2
    assert "site/x lies within the handbook" in done.output
    assert benchlore("build").exit_code == 0


def test_a_name_that_is_too_long_is_not_called_a_circle(shop: Path) -> None:
    done = benchlore("build", "-d", "ä" * 200)
    assert done.exit_code == 2
    assert "cannot be a folder" in done.output and "circle" not in done.output
    assert shop.is_dir()
