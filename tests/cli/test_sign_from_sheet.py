"""`benchlore sign --from-sheet`: a checklist signed on paper comes into the book item by item."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.cli.main import cli
from site_builder.skills.sheet_code import sheet_code

SHOP = """\
=== skills/people.yml
people:
  edda: {name: Edda Corvane, founding: true}
  emil: {name: Emil Cordes, founding: true}
  tilde: {name: Tilde Marrash}
  ansa: {name: Ansa Pellery, born: 2008-06-19}
=== skills/packing.yml
skill: packing
title: Packing
covers: pack-lantern
checklist:
  - {id: clean, show: Packs with clean gloves.}
  - {id: sling, show: Hangs it free in the sling.}
  - Says what the wool is for.
  - {id: fifty, show: Packs fifty lanterns., evidence: practice}
=== procedures/lantern/pack-lantern.yml
procedure: pack-lantern
title: Pack the lantern
steps: Hang it in the sling.
"""
TODAY = "2026-05-09"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_example(SHOP, tmp_path)
    return tmp_path


def run(folder: Path, *arguments: str, typed: tuple[str, ...] = ()) -> Result:
    result = CliRunner().invoke(cli, [*arguments, "-n", str(folder), "--today", TODAY], input="\n".join((*typed, "")))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def code_of(folder: Path) -> str:
    return sheet_code(analysis(folder, date.fromisoformat(TODAY)).notebook.skills["packing"])


def sheet(folder: Path, *arguments: str, typed: tuple[str, ...] = (), code: str = "") -> Result:
    return run(folder, "sign", "--from-sheet", code or code_of(folder), *arguments, typed=typed)


def book(folder: Path) -> str:
    file = folder / "skills/records/sign-offs.yml"
    return file.read_text("utf-8") if file.is_file() else ""


def said(folder: Path, number: int) -> str:
    """An entry without its seals."""
    entry = book(folder).split("---\n")[number]
    return "".join(line + "\n" for line in entry.splitlines() if not line.startswith(("seal:", "previous:")))


def test_a_filled_sheet_is_asked_for_item_by_item_and_shown_before_it_is_written(folder: Path) -> None:
    logged = run(folder, "log", "practice", "--who", "ansa", "--procedure", "pack-lantern", "--pieces", "52",
                 "--scrap", "0", "--rework", "0", "--date", "2026-05-02", "-y")
    assert logged.exit_code == 0, logged.output
    code = code_of(folder)
    typed = ("ansa", "edda", "2026-05-02", "", "edda", "", "practice 1", "y")
    result = sheet(folder, typed=typed)
    assert result.exit_code == 0, result.output
    asked = result.output
    assert f"Sheet {code}: Packing" in asked
    assert "1. Packs with clean gloves." in asked
    assert "3. Says what the wool is for.\n   It has no id in the notebook and cannot be entered." in asked
    assert "[2026-05-02]" in asked  # the last day is proposed for the next item
    assert "NOW fifty: Packs fifty lanterns.\n  signed by Edda Corvane (edda)\n  evidence: practice 1" in asked
    assert "there: fifty: practice stands in the books" in asked
    assert asked.index("NOW fifty") < asked.index("Write it into the book?") < asked.index("Written: sign-off 1")
    assert said(folder, 1) == (
        "sign-off: 1\nwho: edda\ndate: 2026-05-02\nlearner: ansa\nskill: packing\nitems: [clean]\n"
        f"note: From the sheet {code}.\n")
    assert "items: [fifty]\nevidence: [practice 1]\n" in said(folder, 2)
    assert "2 entries, whole, within the law" in run(folder, "verify").output


def test_no_is_an_answer_and_nothing_is_written(folder: Path) -> None:
    result = sheet(folder, typed=("ansa", "edda", "2026-05-02", "", "", "n"))
    assert (result.exit_code, "Nothing was written" in result.output, book(folder)) == (1, True, "")


def test_what_is_in_the_book_already_is_passed_over(folder: Path) -> None:
    """The same sheet may be brought again when more is signed on it."""
    assert sheet(folder, typed=("ansa", "edda", "2026-05-02", "", "", "y")).exit_code == 0
    again = sheet(folder, typed=("ansa", "edda", "2026-05-08", "", "y"))
    assert "In the book already: sign-off 1." in again.output
    assert "items: [sling]" in said(folder, 2)
    third = sheet(folder, typed=("ansa", ""))
    assert third.exit_code == 1
    assert "Nothing new is signed on this sheet." in third.output


def test_initials_mean_one_person_or_it_asks_again(folder: Path) -> None:
    result = sheet(folder, typed=("ansa", "EC", "XY", "tm", "", "", "", "y"))
    assert "EC may be Edda Corvane (edda) or Emil Cordes (emil). Write the id." in result.output
    assert "XY are nobody's initials here. There are: EC edda, EC emil, TM tilde, AP ansa." in result.output
    assert "`tilde` does not teach `packing`" in result.output  # and the law is asked as ever
    assert book(folder) == ""


def test_a_day_that_is_none_is_asked_for_again(folder: Path) -> None:
    result = sheet(folder, typed=("ansa", "edda", "2 May", "2026-05-10", "2026-05-02", "", "", "y"))
    assert "Write year, month, day" in result.output
    assert "2026-05-10 is not yet come" in result.output
    assert "date: 2026-05-02" in said(folder, 1)


def test_where_the_book_has_gone_on_the_entry_is_of_today_and_tells_the_day_on_paper(folder: Path) -> None:
    """The dates of the book do not run backward; the day on which it was shown is not lost."""
    run(folder, "sign", "--who", "edda", "--learner", "tilde", "--skill", "packing", "--level", "watches", "--date",
        "2026-05-05", "-y")
    result = sheet(folder, typed=("ansa", "edda", "2026-05-02", "edda", "2026-05-07", "", "y"))
    assert result.exit_code == 0, result.output
    assert f"date: {TODAY}\n" in said(folder, 2)
    assert f"note: From the sheet {code_of(folder)}, signed there on 2026-05-02.\n" in said(folder, 2)
    assert f"note: From the sheet {code_of(folder)}, signed there on 2026-05-07.\n" in said(folder, 3)
    assert "3 entries, whole, within the law" in run(folder, "verify").output


def test_items_are_entered_in_the_order_of_their_days(folder: Path) -> None:
    sheet(folder, typed=("ansa", "edda", "2026-05-07", "edda", "2026-05-02", "", "y"))
    assert "items: [sling]" in said(folder, 1)
    assert "items: [clean]" in said(folder, 2)


def test_all_is_tried_before_anything_is_written(folder: Path) -> None:
    """The second item has no proof, so the first is not entered either."""
    result = sheet(folder, typed=("ansa", "edda", "2026-05-02", "", "edda", "", "", "", "y"))
    assert result.exit_code == 1
    assert "no entry shows it; it is shown by practice" in result.output
    assert book(folder) == ""


def test_a_key_that_does_not_open_leaves_no_half_a_sheet(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Edda signs without a key, and Emil, who has one, mistypes his passphrase: nothing of the sheet is written."""
    monkeypatch.setenv("BENCHLORE_PASSPHRASE", "the fox")
    people = folder / "skills/people.yml"
    people.write_text(people.read_text("utf-8").replace("{name: Emil Cordes, founding: true}",
                                                        "\n    name: Emil Cordes\n    founding: true"), "utf-8")
    keys = tmp_path.parent / f"{tmp_path.name}-keys"
    key = CliRunner().invoke(cli, ["key", "new", "emil", "--into", str(keys), "-n", str(folder)])
    assert key.exit_code == 0, key.output
    monkeypatch.setenv("BENCHLORE_PASSPHRASE", "the hen")
    result = sheet(folder, typed=("ansa", "edda", "2026-05-02", "emil", "2026-05-03", "", "y"))
    assert result.exit_code == 1
    assert book(folder) == ""


def test_a_reason_stands_in_for_proof_here_too(folder: Path) -> None:
    result = sheet(folder, typed=("ansa", "", "", "edda", "2026-05-02", "", "She packed for her mother.", "y"))
    assert result.exit_code == 0, result.output
    assert "override: She packed for her mother.\n" in said(folder, 1)


def test_everything_can_be_given_as_options(folder: Path) -> None:
    result = sheet(folder, "--learner", "ansa", "--who", "edda", "--item", "clean", "--item", "sling", "--date",
                   "2026-05-02", "-y")
    assert result.exit_code == 0, result.output
    assert "items: [clean]" in said(folder, 1)
    assert "items: [sling]" in said(folder, 2)


@pytest.mark.parametrize(
    ("arguments", "words", "code"),
    [
        (("--skill", "packing"), "--skill does not go with --from-sheet", 2),
        (("--level", "alone"), "--level does not go with --from-sheet", 2),
        (("--learner", "ansa", "-y"), "--item is missing", 2),
        (("--item", "clean", "-y"), "--learner is missing", 2),
        (("--learner", "ansa", "--item", "clean", "-y"), "whose initials", 2),
        (("--learner", "ansa", "--who", "edda", "--item", "cleen", "-y"), "It has: clean, sling, fifty.", 1),
        (("--learner", "ansa", "--who", "ansa", "--item", "clean", "-y"), "signed for himself", 1),
    ],
)
def test_slips_are_told_in_words(arguments: tuple[str, ...], words: str, code: int, folder: Path) -> None:
    result = sheet(folder, *arguments)
    assert (result.exit_code, words in result.output, book(folder)) == (code, True, ""), result.output


def test_a_sheet_printed_from_an_older_list_is_not_taken(folder: Path) -> None:
    code = code_of(folder)
    file = folder / "skills/packing.yml"
    file.write_text(file.read_text("utf-8").replace("clean gloves", "cotton gloves"), "utf-8")
    result = sheet(folder, code=code)
    assert result.exit_code == 1
    assert "the list was changed after it was printed" in result.output
    assert "Traceback" not in result.output
