"""Loading always returns: whatever lies in the folders, what is readable is kept and the rest is told."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from site_builder.notebook.finding import At, Finding
from site_builder.notebook.index import build_index
from site_builder.notebook.load import Loaded, load
from site_builder.notebook.reader import MAX_BYTES, MAX_TOLD

GOOD = "procedure: grind-foot\ntitle: Grind the foot flat\nsteps:\n  - do: Sweep it.\n"
ROOT = Path(__file__).parents[2]


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A folder with one sound procedure in it."""
    write(tmp_path, "procedures/foot/grind-foot.yml", GOOD)
    return tmp_path


def write(root: Path, path: str, content: str | bytes) -> Path:
    file = root / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(content.encode() if isinstance(content, str) else content)
    return file


def told(loaded: Loaded) -> list[tuple[str, int, int, str]]:
    return [(f.at.path, f.at.line, f.at.column, f.code) for f in loaded.findings]


def assert_places_are_real(root: Path, findings: list[Finding]) -> None:
    """Every finding points at a letter of its file, or just behind the last one of a line."""
    for found in findings:
        file = root / found.at.path
        text = file.read_bytes().decode("utf-8-sig", "replace") if file.is_file() else ""
        lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        assert 1 <= found.at.line <= len(lines), found
        assert 1 <= found.at.column <= len(lines[found.at.line - 1]) + 1, found
        assert found.message, found


# ---------------------------------------------------------------- files that are no notebook files

STRANGE: dict[str, tuple[bytes, str]] = {
    "binary": (bytes(range(256)) * 8, "encoding-wrong"),
    "a photo called .yml": (b"\xff\xd8\xff\xe0\x00\x10JFIF", "encoding-wrong"),
    "empty": (b"", "file-empty"),
    "blanks only": (b"\n  \n\n", "file-empty"),
    "a comment only": (b"# later\n", "file-empty"),
    "three dashes only": (b"---\n", "file-empty"),
    "NUL bytes": (GOOD.encode() + b"\0" * 512, "yaml-broken"),
    "UTF-16 with its mark": (GOOD.encode("utf-16"), "encoding-wrong"),
    "UTF-16 without it": (GOOD.encode("utf-16-le"), "yaml-broken"),
    "one byte too large": (b"#" * (MAX_BYTES + 1), "file-unreadable"),
    "ten thousand open brackets": (b"note: " + b"[" * 10_000, "yaml-broken"),
    "ten thousand levels between braces": (b"note: " + b"{a: " * 10_000, "too-deep"),
    "ten thousand levels of dashes": (b"note:\n" + b"- " * 10_000, "too-deep"),
    "a text alone": (b"Grind the foot flat", "kind-unknown"),
    "a list alone": (b"- a\n- b\n", "kind-unknown"),
}


@pytest.mark.parametrize(("content", "code"), STRANGE.values(), ids=STRANGE)
def test_a_strange_file_is_told_and_the_others_are_read(shop: Path, content: bytes, code: str) -> None:
    write(shop, "procedures/foot/strange.yml", content)
    loaded = load(shop)
    assert [f.code for f in loaded.findings] == [code]
    assert loaded.findings[0].at.path == "procedures/foot/strange.yml"
    assert list(loaded.notebook.procedures) == ["grind-foot"]
    assert "strange" in loaded.notebook.unread, "nothing may be concluded from its absence"
    assert_places_are_real(shop, loaded.findings)


def test_fifty_megabytes_are_not_read(shop: Path) -> None:
    with write(shop, "tools/dump.yml", b"").open("r+b") as stream:
        stream.truncate(50 * 1024 * 1024)
    (found,) = load(shop).findings
    assert (found.code, found.message) == ("file-unreadable", "50.0 MB is too large for a notebook file.")


def test_billion_laughs_stay_small(shop: Path) -> None:
    laughs = "note: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
        f"k{i}: &k{i} [{', '.join(['*k' + str(i - 1) if i else '*a'] * 9)}]\n" for i in range(10)
    )
    write(shop, "procedures/foot/laughs.yml", f"procedure: laughs\ntitle: Laugh\nsteps: Laugh.\n{laughs}")
    loaded = load(shop)
    assert {"anchor-used"} <= {f.code for f in loaded.findings}
    assert set(loaded.notebook.procedures) == {"grind-foot", "laughs"}


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["no mark", "byte order mark"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
def test_editors_of_every_system_are_welcome(tmp_path: Path, mark: bytes, end: str) -> None:
    write(tmp_path, "procedures/foot/grind-foot.yml", mark + GOOD.replace("\n", end).encode())
    loaded = load(tmp_path)
    assert loaded.findings == []
    assert loaded.notebook.procedures["grind-foot"].steps[0].at[1:] == (4, 5)


def test_hidden_line_ends_stay_within_their_text(tmp_path: Path) -> None:
    write(tmp_path, "procedures/foot/grind-foot.yml", GOOD.replace("Sweep it", "Sweep\x85it\u2028now") + "x: 1\n")
    loaded = load(tmp_path)
    assert told(loaded) == [("procedures/foot/grind-foot.yml", 5, 1, "key-unknown")]
    assert loaded.notebook.procedures["grind-foot"].steps[0].do == "Sweep it now."


# ---------------------------------------------------------------- things that are no files

def test_a_folder_called_like_a_file_is_told(shop: Path) -> None:
    write(shop, "tools/grinder.yml/grinder.yml", "machine: grinder\ntitle: Belt grinder\n")
    loaded = load(shop)
    assert [(f.at.path, f.code, f.message) for f in loaded.findings] == [
        ("tools/grinder.yml", "file-unreadable", "This is a folder, not a file."),
    ]
    assert list(loaded.notebook.tools) == ["grinder"], "what stands in the folder is read"


def test_links_are_followed_only_within_the_notebook(shop: Path) -> None:
    outside = write(shop.parent, f"{shop.name}-outside/secret.yml", "machine: secret\ntitle: Secret\n")
    write(shop, "tools/machines/grinder.yml", "machine: grinder\ntitle: Belt grinder\n")
    (shop / "skills").mkdir()
    (shop / "tools/secret.yml").symlink_to(outside)
    (shop / "tools/nothing.yml").symlink_to(shop / "tools/gone.yml")
    (shop / "tools/circle.yml").symlink_to(shop / "tools/round.yml")
    (shop / "tools/round.yml").symlink_to(shop / "tools/circle.yml")
    (shop / "tools/elsewhere").symlink_to(outside.parent)
    (shop / "tools/up").symlink_to(shop)
    (shop / "skills/same.md").symlink_to(write(shop, "procedures/stories/history.md", "# History\n"))
    loaded = load(shop)
    assert [(f.at.path, f.code, f.message) for f in loaded.findings] == [
        ("tools/circle.yml", "file-unreadable", "This link leads to nothing."),
        ("tools/elsewhere", "link-out", "This folder is a link; what stands in it is not read."),
        ("tools/nothing.yml", "file-unreadable", "This link leads to nothing."),
        ("tools/round.yml", "file-unreadable", "This link leads to nothing."),
        ("tools/secret.yml", "link-out", "This link leads out of the notebook."),
        ("tools/up", "link-out", "This folder is a link; what stands in it is not read."),
    ]
    assert list(loaded.notebook.tools) == ["grinder"]
    assert [story.title for story in loaded.notebook.stories] == ["History", "History"]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes on this system")
def test_a_named_pipe_is_not_waited_for(shop: Path) -> None:
    os.mkfifo(shop / "tools.yml")
    (shop / "tools").mkdir()
    os.mkfifo(shop / "tools/pipe.yml")
    assert told(load(shop)) == [("tools/pipe.yml", 1, 1, "file-unreadable")]


_AS_NOBODY = """
import json, os, sys
from pathlib import Path
from site_builder.notebook.load import load
load(Path(sys.argv[1]))  # whatever Python itself has to read, while it may
if os.getuid() == 0:
    os.setgroups([])
    os.setgid(65534)
    os.setuid(65534)
loaded = load(Path(sys.argv[1]))
print(json.dumps([sorted(loaded.notebook.procedures), [[f.at.path, f.code, f.message] for f in loaded.findings]]))
"""


@pytest.mark.skipif(os.name != "posix", reason="permissions of this kind are those of POSIX")
def test_what_may_not_be_read_is_told() -> None:
    # not under pytest's own folders: it keeps those for the owner alone, and other runs close them again
    with tempfile.TemporaryDirectory() as name:
        shop = Path(name)
        shop.chmod(0o755)
        write(shop, "procedures/foot/grind-foot.yml", GOOD)
        _what_may_not_be_read_is_told(shop)


def _what_may_not_be_read_is_told(shop: Path) -> None:
    closed = write(shop, "procedures/foot/closed.yml", GOOD)
    folder = write(shop, "tools/closed/grinder.yml", "machine: grinder\ntitle: Belt grinder\n").parent
    closed.chmod(0)
    folder.chmod(0)
    try:
        done = subprocess.run([sys.executable, "-c", _AS_NOBODY, str(shop)], cwd=ROOT, capture_output=True,
                              text=True, timeout=60, check=False)
    finally:
        closed.chmod(0o644)
        folder.chmod(0o755)
    assert done.returncode == 0, done.stderr
    procedures, findings = json.loads(done.stdout)
    assert procedures == ["grind-foot"]
    assert findings == [
        ["procedures/foot/closed.yml", "file-unreadable", "It cannot be read: Permission denied."],
        ["tools/closed", "file-unreadable", "This folder cannot be read: Permission denied."],
    ]


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="names of files are text there")
def test_a_name_that_cannot_be_printed_is_replaced(shop: Path) -> None:
    (shop / "procedures/foot/a\nb\x1b[31m.yml").write_text("")
    with open(os.fsencode(shop) + b"/procedures/foot/\xff.yml", "wb"):  # noqa: PTH123  # a name that is no text
        pass
    assert [f.at.path for f in load(shop).findings] == ["procedures/foot/a�b�[31m.yml", "procedures/foot/�.yml"]


def test_folders_that_are_not_there_are_no_fault(tmp_path: Path) -> None:
    assert load(tmp_path).findings == []
    assert load(tmp_path / "nowhere").findings == []


# ---------------------------------------------------------------- one fault does not take the rest with it

WORKED = """\
procedure: true-the-sole
title: Grind the sole flat
becuase: A hollow sole lifts the filler.
part: foot
conditions: {heat of the foot: max 40 °C}
limits:
  height of the foot:
    is: 32 +0.3/0 mm
    wiht: caliper
    above: {do: Take one more pass., then: sweep}
  length: 40
steps:
  - id: sweep
    do: Sweep it along the belt.
    settings:
      belt speed:
        by: material
        is: {zinc: 15..20 m/s, brass: 22..28, steel: {is: 30 m/s, tol: 1 m/s}}
    hazards:
      - {hazard: abrasion, word: warning}
      - {hazard: heat, word: careful}
  - id: Try it
    do: Slide the feeler under the sole.
  - do: Draw the edge over the fine belt.
    until: {count: about 3 strokes, sign: The burr is gone., wins: often}
    wait: max 2 d
"""


def test_everything_but_the_faults_is_kept(tmp_path: Path) -> None:
    write(tmp_path, "procedures/foot/true-the-sole.yml", WORKED)
    loaded = load(tmp_path)
    assert [(f.at.line, f.at.column, f.code) for f in loaded.findings] == [
        (3, 1, "key-unknown"), (9, 5, "key-unknown"), (11, 11, "unit-missing"), (18, 43, "unit-missing"),
        (18, 67, "key-unknown"), (21, 30, "word-unknown"), (22, 9, "id-broken"), (25, 68, "word-unknown"),
    ], "all told in one go"
    procedure = loaded.notebook.procedures["true-the-sole"]
    assert procedure.title == "Grind the sole flat"
    assert str(procedure.conditions["heat of the foot"][0].written) == "max 40 °C"
    assert list(procedure.limits) == ["height of the foot"]
    height = procedure.limits["height of the foot"][0]
    assert (str(height.written), height.above[0].do, height.above[0].then) == (
        "32 +0.3/0 mm", "Take one more pass.", "sweep")
    sweep, try_it, edge = procedure.steps
    rows = {names: str(cell.written) for names, cell in sweep.settings["belt speed"][0].cells()}
    assert rows == {("zinc",): "15..20 m/s", ("steel",): "30 m/s"}
    assert [(h.hazard, h.word) for h in sweep.hazards] == [("abrasion", "warning"), ("heat", None)]
    assert (try_it.id, try_it.do) == (None, "Slide the feeler under the sole.")
    assert (edge.until[0].sign, edge.until[0].wins) == ("The burr is gone.", None)
    assert str(edge.wait[0].written) == "max 2 d"
    assert {"length", "brass"} <= loaded.notebook.unread, "nothing may be concluded from what was left out"


def test_a_missing_key_costs_only_what_lacks_it(tmp_path: Path) -> None:
    write(tmp_path, "tools/grinder.yml",
          "machine: grinder\ntitle: Belt grinder\nhazards:\n  - word: danger\n  - hazard: abrasion\nmaker: Brann\n")
    loaded = load(tmp_path)
    assert told(loaded) == [("tools/grinder.yml", 4, 5, "key-missing")]
    assert [h.hazard for h in loaded.notebook.tools["grinder"].hazards] == ["abrasion"]
    assert loaded.notebook.tools["grinder"].maker == "Brann"


def test_what_stands_behind_a_second_document_is_not_lost(shop: Path) -> None:
    write(shop, "tools/both.yml", "machine: both\ntitle: Both\n---\nmachine: grinder\ntitle: Belt grinder\nx: 1\n")
    loaded = load(shop)
    assert told(loaded) == [("tools/both.yml", 4, 1, "yaml-broken"), ("tools/both.yml", 6, 1, "key-unknown")]
    assert set(loaded.notebook.tools) == {"both", "grinder"}


def test_a_torn_book_keeps_its_whole_entries(shop: Path) -> None:
    write(shop, "skills/records/practice.yml",
          "---\npractice: 1\nwho: tilde\npieces: 40\n---\npractice: 2\nwho: benno\n---\npractice: 3\nwho: \"til")
    loaded = load(shop)
    assert told(loaded) == [("skills/records/practice.yml", 10, 6, "yaml-broken")]
    assert [(entry.number, entry.who) for entry in loaded.notebook.practice] == [(1, "tilde"), (2, "benno")]
    assert "practice" in loaded.notebook.unread


def test_a_tab_that_breaks_a_file_gives_no_half_procedure(tmp_path: Path) -> None:
    write(tmp_path, "procedures/foot/grind-foot.yml", GOOD + "hazards:\n\t- abrasion\n")
    loaded = load(tmp_path)
    assert told(loaded) == [("procedures/foot/grind-foot.yml", 6, 1, "tab-used")]
    assert not loaded.notebook.procedures and loaded.notebook.unread == {"grind-foot"}


def test_a_file_full_of_faults_is_told_in_part_and_in_good_time(shop: Path) -> None:
    keys = "".join(f"key-{number}: 1\n" for number in range(20_000))
    write(shop, "tools/export.yml", f"machine: export\ntitle: Export\n{keys}")
    loaded = load(shop)
    assert len(loaded.findings) == MAX_TOLD
    assert loaded.findings[-1].fix.endswith("There are more faults in this file than can be told here.")
    assert loaded.notebook.tools["export"].title == "Export"


# ---------------------------------------------------------------- every value knows its place

PLACES = """\
procedure: prime-foot
title: "Prime the foot"
part: [foot, arm]
after: {done: fill-foot, because: Primer hides the filler.}
materials: [{material: primer, amount: 9 g per piece}]
time: {setup: 15 min, each: about 2 min}
conditions:
  room temperature: 12..28 °C
windows:
  recoat:
    by: room temperature
    is:
      10..15 °C: 14..70 h
      15..25 °C: {is: 9..40 h, source: primer-sheet}
    after: spray
steps:
  - id: spray
    do: >
      Spray it
      crosswise.
    settings: {distance: 20 cm}
    when: start; every 10 pieces
    repeat: about 2; max 3
  - Hang it up.
revisions:
  - {date: 2024-02-11, what: Two coats.}
"""


def test_every_value_knows_its_line_and_column(tmp_path: Path) -> None:
    path = "procedures/foot/prime-foot.yml"
    write(tmp_path, path, PLACES)
    loaded = load(tmp_path)
    assert loaded.findings == []
    index = build_index(loaded.notebook)
    found = {str(leaf.text): (leaf.at.line, leaf.at.column) for leaf, _, _ in (*index.values, *index.leaves)}
    found |= {str(spot.text).strip(): (spot.text.line, spot.text.column) for spot in index.plain}
    assert found == {
        "prime-foot": (1, 12), "Prime the foot": (2, 8), "foot": (3, 8), "arm": (3, 14),
        "fill-foot": (4, 15), "Primer hides the filler.": (4, 35), "primer": (5, 24), "9 g per piece": (5, 40),
        "15 min": (6, 15), "about 2 min": (6, 29), "12..28 °C": (8, 21), "room temperature": (11, 9),
        "14..70 h": (13, 18), "9..40 h": (14, 23), "primer-sheet": (14, 40), "spray": (17, 9),
        "Spray it crosswise.": (18, 9), "20 cm": (21, 26), "start; every 10 pieces": (22, 11),
        "about 2; max 3": (23, 13), "Hang it up.": (24, 5), "2024-02-11": (26, 12), "Two coats.": (26, 30),
    } | {"spray": found["spray"]}
    names = {str(name): (name.line, name.column) for _, place in index.under(type(loaded.notebook.procedures[
        "prime-foot"].conditions["room temperature"][0])) if (name := place.name) is not None}
    assert names == {"room temperature": (8, 3), "recoat": (10, 3), "distance": (21, 16)}
    lines = PLACES.split("\n")
    for text, (line, column) in found.items():
        rest = lines[line - 1][column - 1:].lstrip('"')
        assert rest.startswith((text, ">")), text


# ---------------------------------------------------------------- anything at all

PIECES = st.sampled_from([
    b"procedure: ", b"title: ", b"steps:", b"  - ", b"do: ", b"limits: ", b"{", b"}", b"[", b"]", b", ", b": ",
    b"\n", b"\r\n", b"\r", b"  ", b"\t", b"#", b" #8", b"&a ", b"*a", b"!t ", b"'", b'"', b">", b"|", b"---\n",
    b"...\n", b"? ",
    b"- ", b"max 0.1 mm", b"25", b"12..30 \xc2\xb0C", b"\xc2\x85", b"\xe2\x80\xa8", b"\xef\xbb\xbf", b"\xff", b"\0",
    b"id: ", b"x", b"ask", b"hazards: ", b"word: ", b"until: ", b"machine: ", b"material: ", b"is: ", b"by: ", b"for: ",
    b"skill: ", b"finds: ", b"marks: ", b"at: ", b"pictures: ", b"when: each piece", b"practice: 1\n", b"people: ",
    b"shop: s\n", b"words: ", b"%", b"%YAML 1.1\n", b"@", b"`", b"\\u", b"also: ", b"\xf0\x9f\x98\x80",
])
CONTENTS = st.one_of(st.binary(max_size=200), st.lists(PIECES, max_size=30).map(b"".join))
WHERE = st.sampled_from(["procedures/a.yml", "skills/records/practice.yml", "skills/people.yml", "procedures/s/a.md"])


@pytest.fixture(scope="module")
def anywhere(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    yield tmp_path_factory.mktemp("anywhere")


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(WHERE, CONTENTS)
@example("procedures/a.yml", b"title: a\n---")
@example("procedures/a.yml", b"procedure: a\ntitle: a\nsteps: a\nlimits: {x: >\n  25\n  }")
@example("procedures/a.yml", b"procedure: a\ntitle: a\nsteps: a\nlimits:\n  x: >\n\n    25\n    26\n")
@example("procedures/a.yml", b"procedure: a\ntitle: a\nsteps: a\nlimits: {x: 'a\n\n\n  12-30 mm'}")
@example("procedures/a.yml", b"procedure: a\ntitle: a\nsteps: a\nlimits: {x: \"\\x31\\x32-30 mm\"}")
def test_nothing_that_a_file_holds_stops_the_loading(anywhere: Path, where: str, content: bytes) -> None:
    file = write(anywhere, where, content)
    try:
        loaded = load(anywhere)
        assert_places_are_real(anywhere, loaded.findings)
        once = [(f.at, f.code, f.message) for f in loaded.findings]
        assert len(set(once)) == len(once), "nothing is told twice"
        build_index(loaded.notebook)
    finally:
        file.unlink()


KEYS = st.sampled_from([
    "procedure", "title", "steps", "do", "id", "limits", "is", "by", "with", "check", "until",
    "clock", "sign", "state", "hazards", "hazard", "word", "time", "each", "for", "finds", "skill",
    "also", "when", "repeat", "times", "pictures", "file", "marks", "at", "after", "done",
    "windows", "variants", "values", "said", "who", "tools", "tool", "yield", "hands", "count",
    "roles", "given", "follows", "grades", "tighten", "unless", "because", "note", "source",
    "flatness",
])
LEAVES = st.sampled_from([
    "", "ask", "25", "25 mm", "max 0.1 mm", "each piece", "x", "Big One", "2024-02-31", "12-30 °C",
])
TREES = st.recursive(
    LEAVES, lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(KEYS, inner, max_size=5)),
    max_leaves=25,
)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.dictionaries(KEYS, TREES, max_size=6))
def test_no_shape_of_a_procedure_stops_the_loading(anywhere: Path, keys: dict[str, object]) -> None:
    tree = {"procedure": "a", "title": "A", "steps": "Do it."} | keys
    file = write(anywhere, "procedures/a.yml", json.dumps(tree, ensure_ascii=False, indent=1))
    try:
        loaded = load(anywhere)
        assert_places_are_real(anywhere, loaded.findings)
        once = [(f.at, f.code, f.message) for f in loaded.findings]
        assert len(set(once)) == len(once), "nothing is told twice"
        assert all(f.code != "value-broken" or f.fix != "Look it up in the guide." for f in loaded.findings)
        build_index(loaded.notebook)
    finally:
        file.unlink()


def test_a_finding_without_a_path_is_never_made(shop: Path) -> None:
    write(shop, "procedures/foot/odd.yml", "procedure: odd\ntitle:\n  a: 1\nsteps:\n")
    assert {f.at.path for f in load(shop).findings} == {"procedures/foot/odd.yml"}
    assert At("", 1, 1) not in {f.at for f in load(shop).findings}


@pytest.mark.parametrize(("file", "text", "fix"), [
    ("Oil.yml", "material: oil\ntitle: Oil\n", "Rename the file to `oil.yml`."),
    ("oil.yml", "material: wax\ntitle: Wax\n", "Rename the file to `wax.yml`, or write `material: oil`."),
    ("brush.yml", "tool: brush\ntitle: Brush\n", "Did you mean `hand-tool`?"),
])
def test_what_is_told_of_a_first_line_can_be_done_as_it_is_told(
    file: str, text: str, fix: str, tmp_path: Path,
) -> None:
    write(tmp_path, f"tools/{file}", text)
    (found,) = load(tmp_path).findings
    assert found.fix.startswith(fix)


def test_a_title_that_is_asked_for_is_a_question_and_the_id_stands_in_its_place(shop: Path) -> None:
    loaded = load(write(shop, "tools/materials/rye-flour.yml", "material: rye-flour\ntitle: ask\n").parents[2])
    assert [f for f in loaded.findings if f.at.path.endswith("rye-flour.yml")] == []
    flour = loaded.notebook.materials["rye-flour"]
    assert flour.title == "Rye flour"
    assert flour.asked == {"title"}


def test_words_that_cannot_be_left_out_are_never_called_missing_where_they_are_asked_for(shop: Path) -> None:
    write(shop, "procedures/foot/rub-foot.yml",
          "procedure: rub-foot\ntitle: Rub it\nsteps: [{do: Rub., points: [ask]}]\n")
    write(shop, "procedures/foot/dip-foot.yml", "procedure: dip-foot\ntitle: Dip it\nsteps: ask\n")
    told = sorted(f.message for f in load(shop).findings if f.code == "key-missing")
    assert told == ["Without its `point` this says nothing yet.", "`steps` stands here, but nothing is written at it."]
