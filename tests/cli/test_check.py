"""`benchlore check` and `explain`: exit codes, formats, and never a traceback."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from site_builder.checks.rules import RULES
from tests.cli.notebook import GOOD, written


def benchlore(*words: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "site_builder.cli", *words], cwd=cwd, capture_output=True, text=True, check=False
    )


def test_a_sound_notebook_ends_with_0(tmp_path: Path) -> None:
    done = benchlore("check", cwd=written(tmp_path, GOOD))
    assert done.returncode == 0
    assert "benchlore explain CODE" in done.stdout


def test_an_error_ends_with_1_and_reads_like_a_compilers(tmp_path: Path) -> None:
    root = written(tmp_path, GOOD.replace("time: 2 min", "time: 1,5 min"))
    done = benchlore("check", "--only", "error", cwd=root)
    assert done.returncode == 1
    assert done.stdout.split("\n")[:4] == [
        "procedures/grind.yml:5:11: error[decimal-comma] Write `1.5 min`; write thousands without a comma.",
        "  5 |     time: 1,5 min",
        "    |           ^",
        "      Write `1.5 min`.",
    ]


def test_wrong_use_ends_with_2(tmp_path: Path) -> None:
    assert benchlore("check", cwd=tmp_path).returncode == 2
    assert benchlore("chekc", cwd=tmp_path).returncode == 2
    assert benchlore("explain", "no-such-code", cwd=tmp_path).returncode == 2


def test_json_has_every_finding_with_its_place(tmp_path: Path) -> None:
    root = written(tmp_path, GOOD.replace("time: 2 min", "tiem: 2 min"))
    done = benchlore("check", "--format", "json", cwd=root)
    found = next(f for f in json.loads(done.stdout) if f["level"] == "error")
    assert (found["code"], found["path"], found["line"], found["column"]) == (
        "key-unknown", "procedures/grind.yml", 5, 5)
    assert found["fix"] == "Did you mean `time`?"


def test_sarif_names_rules_and_places(tmp_path: Path) -> None:
    root = written(tmp_path, GOOD.replace("time: 2 min", "tiem: 2 min"))
    log = json.loads(benchlore("check", "--format", "sarif", cwd=root).stdout)
    run = log["runs"][0]
    assert log["version"] == "2.1.0"
    result = next(r for r in run["results"] if r["level"] == "error")
    assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"] == "key-unknown"
    assert result["locations"][0]["physicalLocation"]["region"] == {"startLine": 5, "startColumn": 5}


@pytest.mark.parametrize("code", [rule.code for rule in RULES])
def test_every_rule_can_be_explained(code: str) -> None:
    from site_builder.checks.report.as_rule import rule_text
    from site_builder.checks.rules import BY_CODE

    text = rule_text(BY_CODE[code])
    assert text.startswith(f"{code} (")
    assert BY_CODE[code].reason in text


@pytest.mark.parametrize("content", [b"", b"\x00\xff\xfe", b"[[[[", b"procedure: [", b"steps: &a [*a]", b"- \n-"])
def test_no_file_brings_a_traceback(tmp_path: Path, content: bytes) -> None:
    root = written(tmp_path, GOOD)
    (root / "tools").mkdir()
    (root / "tools" / "x.yml").write_bytes(content)
    done = benchlore("check", cwd=root)
    assert done.returncode == 1
    assert "Traceback" not in done.stdout + done.stderr


def test_a_reader_that_goes_away_is_no_fault(tmp_path: Path) -> None:
    root = written(tmp_path, GOOD)
    done = subprocess.run(
        f"{sys.executable} -m site_builder.cli check | head -n 1", cwd=root, shell=True, capture_output=True,
        text=True, check=False,
    )
    assert "Traceback" not in done.stderr


def test_a_folder_or_a_file_may_be_named(tmp_path: Path) -> None:
    """Only what stands there is told; the exit code speaks of it alone."""
    (tmp_path / "shop").mkdir()
    root = written(tmp_path / "shop", GOOD)
    (root / "procedures" / "foot").mkdir()
    (root / "procedures" / "foot" / "file.yml").write_text(GOOD.replace("grind", "file").replace("2 min", "2,5 min"))
    whole = benchlore("check", "shop", "--only", "error", cwd=tmp_path)
    assert (whole.returncode, whole.stdout.count("error[")) == (1, 1)
    assert benchlore("check", "shop/procedures/grind.yml", "--only", "error", cwd=tmp_path).returncode == 0
    one = benchlore("check", "procedures/foot", "--only", "error", cwd=root)
    assert (one.returncode, one.stdout.startswith("procedures/foot/file.yml:5:11: error[decimal-comma]")) == (1, True)
    nowhere = benchlore("check", "nowhere", cwd=tmp_path)
    assert nowhere.returncode == 2 and "nowhere" in nowhere.stderr and "Traceback" not in nowhere.stderr
