"""A handbook on a stick: real disks, mounted for the test alone, that hold other things, are full, or read-only."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from site_builder.cli.main import cli

_MAY_MOUNT = 21  # CAP_SYS_ADMIN of capabilities(7)

BEFORE = """\
import os, pathlib, subprocess, sys
import site_builder.cli.build
from site_builder.cli import main
stick, shop = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])

def build(*words):
    "The command, in a process of its own that has everything imported already."
    reads, writes = os.pipe()
    child = os.fork()
    if child == 0:
        os.dup2(writes, 1)
        os.dup2(writes, 2)
        os.close(reads)
        os.chdir(shop)
        sys.argv = ["benchlore", "build", *words]
        main()
    os.close(writes)
    with os.fdopen(reads, encoding="utf-8") as said:
        text = said.read()
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), text

def there(folder):
    return sorted(one.name for one in folder.iterdir())

def whole(folder):
    return subprocess.run(["sha256sum", "--check", "--strict", "--quiet", "made-by-benchlore.txt"],
                          cwd=folder).returncode == 0

"""


@pytest.fixture(scope="module")
def new_shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A notebook just begun, to be copied."""
    shop = tmp_path_factory.mktemp("new") / "shop"
    assert CliRunner().invoke(cli, ["new", "shop", str(shop)]).exit_code == 0
    return shop


@pytest.fixture
def place(tmp_path: Path, new_shop: Path) -> Path:
    """A folder with a notebook in it, and a place for a stick."""
    shutil.copytree(new_shop, tmp_path / "shop")
    (tmp_path / "stick").mkdir()
    return tmp_path


def on_a_stick(place: Path, code: str, options: str = "size=20m") -> None:
    """Run this, with a small disk of its own mounted at ``stick`` and a notebook at ``shop``."""
    stick, shop = place / "stick", place / "shop"
    mount = f'mount -t tmpfs -o {options} tmpfs "$1" || exit 77; exec "$0" -c "$3" "$1" "$2"'
    as_root = [] if os.getuid() == 0 else ["--map-root-user"]
    done = subprocess.run(["unshare", "--mount", *as_root, "sh", "-c", mount, sys.executable, str(stick), str(shop),
                           BEFORE + code], capture_output=True, text=True, check=False)
    if done.returncode == 77 or "unshare" in done.stderr.split("\n")[0]:
        if os.environ.get("BENCHLORE_COMPULSORY") == "1" and may_mount():
            pytest.fail(done.stderr)
        pytest.skip("no disk can be mounted here")
    assert done.returncode == 0, done.stdout + done.stderr


def may_mount() -> bool:
    """Whether this process may mount disks; in many containers it may not."""
    status = Path("/proc/self/status")
    held = [line.split()[1] for line in status.read_text().splitlines() if line.startswith("CapEff:")]
    return bool(int(held[0], 16) >> _MAY_MOUNT & 1)


pytestmark = pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="disks are mounted here as Linux does")


def test_an_empty_stick_becomes_the_handbook_and_is_made_anew(place: Path) -> None:
    on_a_stick(place, """
code, said = build("-d", str(stick))
assert code == 0 and f"Open {stick}/index.html" in said, said
assert whole(stick)
(shop / "procedures" / "bracket" / "file-the-plate.yml").unlink()
(shop / "procedures" / "bracket" / "more.yml").write_text("procedure: more\\ntitle: More\\nsteps: [do: File it.]\\n")
code, said = build("-d", str(stick), "--with-errors")
assert code == 0, said
assert whole(stick)
assert (stick / "the-work" / "bracket" / "more.html").exists()
assert not (stick / "the-work" / "bracket" / "file-the-plate.html").exists(), "what is no longer there is gone"
assert not [name for name in there(stick) if name.startswith(".")], there(stick)
assert not list((shop / ".cache").rglob(".benchlore-making-*"))
""")


def test_on_a_stick_with_other_things_the_handbook_has_a_folder_of_its_own(place: Path) -> None:
    on_a_stick(place, """
(stick / "letter.txt").write_text("mine")
(stick / "photos").mkdir()
(stick / "photos" / "a.jpg").write_text("mine")
for _ in range(2):
    code, said = build("-d", str(stick))
    assert code == 0 and f"Open {stick}/handbook/index.html" in said, said
    assert "holds other things too, so the handbook has a folder of its own there" in said, said
    assert whole(stick / "handbook")
    assert there(stick) == ["handbook", "letter.txt", "photos"]
assert (stick / "letter.txt").read_text() == (stick / "photos" / "a.jpg").read_text() == "mine"
""")


def test_what_is_put_beside_a_handbook_on_a_stick_is_left_alone(place: Path) -> None:
    on_a_stick(place, """
assert build("-d", str(stick))[0] == 0
(stick / "letter.txt").write_text("mine")
code, said = build("-d", str(stick))
assert code == 0, said
assert whole(stick) and (stick / "letter.txt").read_text() == "mine"
(stick / "assets" / "own.jpg").write_text("mine")
code, said = build("-d", str(stick))
assert code == 2 and "assets/own.jpg" in said and "Move it out" in said, said
assert (stick / "assets" / "own.jpg").read_text() == "mine" and whole(stick)
(stick / "assets" / "own.jpg").unlink()
(stick / "songs").mkdir()
(stick / "songs" / "own.txt").write_text("mine")
(shop / "procedures" / "songs").mkdir()
(shop / "procedures" / "songs" / "yard.md").write_text("# The yard\\n")
code, said = build("-d", str(stick))
assert code == 2 and f"{stick}/songs is not ours" in said, said
assert (stick / "songs" / "own.txt").read_text() == "mine" and whole(stick)
""")


def test_a_folder_called_handbook_that_is_not_ours_is_left_alone(place: Path) -> None:
    on_a_stick(place, """
(stick / "handbook").mkdir()
(stick / "handbook" / "letter.txt").write_text("mine")
code, said = build("-d", str(stick))
assert code == 2 and f"{stick}/handbook holds `letter.txt`" in said, said
assert there(stick) == ["handbook"] and there(stick / "handbook") == ["letter.txt"]
""")


def test_a_notebook_on_a_stick_builds_there(place: Path) -> None:
    on_a_stick(place, """
import shutil
shutil.copytree(shop, stick / "shop")
shop = stick / "shop"
for _ in range(2):
    code, said = build()
    assert code == 0 and whole(shop / "site"), said
code, said = build("-d", str(stick))
assert code == 2 and "holds the notebook" in said, said
code, said = build("-d", str(stick / "handbook"))
assert code == 0 and whole(stick / "handbook"), said
assert there(stick) == ["handbook", "shop"]
""")


@pytest.mark.parametrize("where", ["", "/handbook"])
def test_a_stick_that_is_too_small_keeps_its_old_handbook(place: Path, where: str) -> None:
    on_a_stick(place, f"""
place = pathlib.Path(f"{{stick}}{where}")
code, said = build("-d", str(place))
assert code == 0, said
(stick / "filling").write_bytes(bytes(1_000_000))
code, said = build("-d", str(place))
assert code == 1 and "The handbook takes" in said and "MB are free there" in said, said
assert said.strip().split("\\n")[-1].endswith(f"The last good one is as it was: {{place}}/index.html"), said
assert whole(place)
assert not [name for name in there(stick) if name.startswith(".")], there(stick)
""", "size=3m")


def test_a_disk_that_fills_up_under_the_notebook_keeps_the_old_handbook(place: Path) -> None:
    on_a_stick(place, """
import shutil
shutil.copytree(shop, stick / "shop")
shop = stick / "shop"
code, said = build()
assert code == 0, said
free = shutil.disk_usage(stick).free
for left in (1_200_000, 500_000, 100_000, 8_192, 0):
    with (stick / "filling").open("wb") as filling:
        filling.write(bytes(max(0, free - left) // 4096 * 4096))
    code, said = build()
    assert code == 1 and "No space left" in said or "The disk is full" in said, (left, said)
    assert "Traceback" not in said, said
    assert whole(shop / "site"), left
    assert not list(shop.glob(".benchlore-making-*")), left
    (stick / "filling").unlink()
code, said = build()
assert code == 0 and whole(shop / "site"), said
""", "size=6m")


def test_a_stick_that_may_only_be_read_is_told(place: Path) -> None:
    on_a_stick(place, """
code, said = build("-d", str(stick))
assert code == 0, said
subprocess.run(["mount", "-o", "remount,ro", str(stick)], check=True)
code, said = build("-d", str(stick))
assert code == 1 and "Read-only file system" in said and "Traceback" not in said, said
assert whole(stick)
""")


def test_a_place_on_which_something_is_mounted_keeps_its_name(place: Path) -> None:
    """Another folder of the same disk, mounted over it: it looks like a folder and cannot be renamed."""
    on_a_stick(place, """
(shop / "site").mkdir()
(shop / "www").mkdir()
subprocess.run(["mount", "--bind", str(shop / "www"), str(shop / "site")], check=True)
for _ in range(2):
    code, said = build()
    assert code == 0 and f"Open {shop}/site/index.html" in said, said
    assert whole(shop / "www")
assert not list(shop.glob(".benchlore-making-*")) and not list((shop / "www").glob(".*"))
""")
