"""`benchlore sign`, `withdraw`, `log`, `key new`, `seal`, `verify`: the books from the bench."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from site_builder.checks.example import write_example
from site_builder.cli.main import cli
from site_builder.skills.last import read_last

SHOP = """\
=== skills/people.yml
people:
  edda:
    name: Edda Corvane
    founding: true
  tilde:
    name: Tilde Marrash
  ansa:
    name: Ansa Pellery
    born: 2011-06-19
=== skills/packing.yml
skill: packing
title: Packing
covers: pack-lantern
checklist:
  - {id: clean, show: Packs with clean gloves.}
  - {id: fifty, show: Packs fifty lanterns., evidence: practice}
proof: {pieces: 50, share: min 95 %, confidence: min 90 %}
=== skills/casting.yml
skill: casting
title: Casting
age: min 18 y
=== procedures/lantern/pack-lantern.yml
procedure: pack-lantern
title: Pack the lantern
steps:
  - {id: hang, do: Hang it in the sling.}
limits: {gap: min 20 mm}
"""
NEW = ("--date", "2026-05-09", "-y")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_example(SHOP, tmp_path / "shop")
    return tmp_path / "shop"


def run(folder: Path, *arguments: str, typed: str = "") -> Result:
    result = CliRunner().invoke(cli, [*arguments, "-n", str(folder), "--today", "2026-05-09"], input=typed)
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def done(folder: Path, *arguments: str, typed: str = "") -> str:
    result = run(folder, *arguments, typed=typed)
    assert result.exit_code == 0, result.output
    return result.output


def refused(folder: Path, *arguments: str, typed: str = "", code: int = 1) -> str:
    before = {file: file.read_bytes() for file in folder.rglob("*.yml")}
    result = run(folder, *arguments, typed=typed)
    assert result.exit_code == code, result.output
    assert {file: file.read_bytes() for file in folder.rglob("*.yml")} == before
    return result.output


def sign(level: str, *more: str, who: str = "edda", learner: str = "ansa", skill: str = "packing") -> tuple[str, ...]:
    return "sign", "--who", who, "--learner", learner, "--skill", skill, "--level", level, *NEW, *more


def practised(folder: Path, pieces: int, rework: int = 0) -> None:
    done(folder, "log", "practice", "--who", "ansa", "--procedure", "pack-lantern", "--pieces", str(pieces),
         "--scrap", "0", "--rework", str(rework), *NEW)


# --- signing ----------------------------------------------------------------------------------------------


def test_what_is_signed_and_what_stands_behind_it_is_shown_first(folder: Path) -> None:
    practised(folder, 14)
    practised(folder, 40)
    shown = done(folder, *sign("alone", "--item", "clean", "--item", "fifty", "--evidence", "practice 1"))
    assert "Packing: Ansa Pellery (ansa), alone" in shown
    assert "signed by Edda Corvane (edda)" in shown
    assert "NOW fifty: Packs fifty lanterns." in shown
    assert "practice 1: 2026-05-09, 14 x pack-lantern, scrap 0, rework 0, by ansa" in shown
    assert "there: 54 pieces of 50" in shown
    assert ("there: 54 of 54 good at the first go; asked for: min 95 %, and to be min 90 % sure of it; so far 94 % sure"
            in shown)
    assert shown.index("54 pieces") < shown.index("Written: sign-off 1, seal ")
    assert "1 entry, whole, within the law" in done(folder, "verify")


def test_nothing_is_written_that_is_against_the_law(folder: Path) -> None:
    assert "too young on 2026-05-09" in refused(folder, *sign("beside", skill="casting"))
    assert "does not teach `packing`" in refused(folder, *sign("beside", who="tilde"))
    assert "signed for himself" in refused(folder, *sign("beside", who="ansa"))
    missing = refused(folder, *sign("alone"))
    assert "0 pieces of 50" in missing and "`clean`, `fifty`" in missing and "--override" not in missing
    assert not (folder / "skills/records").exists() or not list((folder / "skills/records").glob("*.yml"))


def test_a_reason_stands_in_for_proof(folder: Path) -> None:
    done(folder, *sign("alone", "--override", "She packed with her mother for years."))
    book = (folder / "skills/records/sign-offs.yml").read_text("utf-8")
    assert "override: She packed with her mother for years." in book


def test_it_asks_for_what_it_is_not_told(folder: Path) -> None:
    practised(folder, 14)
    answers = ["edda", "ansa", "packing", "y", "n", "", "practice 1", "y"]
    asked = done(folder, "sign", typed="\n".join(answers) + "\n")
    assert "Shown: Packs with clean gloves." in asked
    assert "[within call]" in asked  # the level that follows from what was shown
    assert "Write it into the book?" in asked and "Written: sign-off 1" in asked
    book = (folder / "skills/records/sign-offs.yml").read_text("utf-8")
    assert "level: within call\nitems: [clean]\nevidence: [practice 1]\n" in book


def test_it_asks_for_a_reason_and_takes_no_for_an_answer(folder: Path) -> None:
    answers = ["edda", "ansa", "packing", "n", "n", "alone", ""]
    assert "Not enough proof" in refused(folder, "sign", typed="\n".join([*answers, ""]) + "\n")
    shown = refused(folder, "sign", typed="\n".join([*answers, "She knows it.", "n"]) + "\n")
    assert "Nothing was written" in shown


@pytest.mark.parametrize(
    ("arguments", "told", "code"),
    [
        (("--who", "mallory"), "There are: edda, tilde, ansa", 1),
        (("--level", "master"), "Invalid value for '--level'", 2),
        (("--date", "9.5.2026"), "Write year, month, day", 1),
        (("--date", "2026-05-10"), "not yet come", 1),
        (("--item", "cleen"), "The checklist has: ", 1),
        (("--evidence", "practice 9"), "it does not stand in the books", 1),
        (("--corrects", "nine"), "not a number of an entry", 1),
        (("--note", "a\x01b"), "no keyboard writes", 1),
    ],
)
def test_slips_are_told_in_words(arguments: tuple[str, ...], told: str, code: int, folder: Path) -> None:
    assert told in refused(folder, *sign("watches", *arguments), code=code)


def test_what_is_missing_is_asked_for_even_by_yes(folder: Path) -> None:
    assert "--learner is missing" in refused(folder, "sign", "--who", "edda", "-y", code=2)


# --- taking back ------------------------------------------------------------------------------------------


def test_a_sign_off_is_taken_back_by_a_new_entry(folder: Path) -> None:
    done(folder, *sign("watches"))
    shown = done(folder, "withdraw", "1", "--who", "edda", "--because", "It was her sister.", *NEW)
    assert "Sign-off 1: 2026-05-09, ansa, packing, watches, by edda" in shown
    assert "taken back or corrected by entry 2 already" in refused(
        folder, "withdraw", "1", "--who", "edda", "--because", "Again.", *NEW)
    assert "There is no sign-off 7" in refused(folder, "withdraw", "7", "--who", "edda", *NEW)
    assert "without a reason" in refused(folder, "withdraw", "2", "--who", "edda", *NEW)


# --- the other books --------------------------------------------------------------------------------------


def test_a_slip_of_the_pen_is_told_once_and_with_what_to_write(folder: Path) -> None:
    practice = ("log", "practice", "--who", "ansa", "--procedure", "pack-lantern", "--pieces", "3", "-y")
    assert "--scrap is missing; write `--scrap 0` if none." in refused(folder, *practice, code=2)
    made = (*practice, "--scrap", "0", "--rework", "0")
    assert refused(folder, *made, "--took", "2h30") == "Write `2 h 30 min`.\n"
    assert "2026-04-24" in refused(folder, *made, "--date", "24.4.2026")
    done(folder, *made)
    late = refused(folder, *made, "--date", "2026-04-02")
    assert "Enter it with the day of today, and say under `note` on which day it was." in late
    assert "Who did it: " in run(folder, "log", "practice").output


def test_work_before_the_age_for_it_is_entered_and_told(folder: Path) -> None:
    """What was done was done: the book says so, and says that it should not have been."""
    casting = "procedure: cast-foot\ntitle: Cast the foot\nskill: casting\nsteps: Pour it.\n"
    (folder / "procedures/lantern/cast-foot.yml").write_text(casting, "utf-8")
    said = done(folder, "log", "practice", "--who", "ansa", "--procedure", "cast-foot", "--level", "beside",
                "--pieces", "3", "--scrap", "0", "--rework", "0", *NEW)
    assert "warning: Ansa Pellery was too young for this work on 2026-05-09: Casting asks for min 18 y" in said
    assert "which is reached on 2029-06-19" in said


def test_the_other_books(folder: Path) -> None:
    done(folder, "log", "trial", "--who", "ansa", "--felt", "pack-lantern/hang", "--teacher", "edda",
         "--verdict", "a=good", "--verdict", "b=bad", *NEW)
    done(folder, "log", "measurement", "--who", "ansa", "--measured", "pack-lantern/gap", "--reading", "21 mm",
         "--reading", "22 mm", *NEW)
    done(folder, "log", "incident", "--who", "edda", "--what", "The box fell.", "--injured", "ansa", *NEW)
    records = folder / "skills/records"
    assert "verdicts:\n  a: good\n  b: bad\n" in (records / "trials.yml").read_text("utf-8")
    assert "readings: [21 mm, 22 mm]\n" in (records / "measurements.yml").read_text("utf-8")
    assert "injured: [ansa]\n" in (records / "incidents.yml").read_text("utf-8")
    assert done(folder, "verify").count(": 1 entry, whole") == 3


def test_a_measurement_says_of_which_variant_it_is(folder: Path) -> None:
    said = ("log", "measurement", "--who", "ansa", "--measured", "pack-lantern/gap", "--reading", "21 mm")
    assert "is no variant. Write its name" in refused(folder, *said, "--for", "gloss", *NEW)
    work = folder / "procedures/lantern/pack-lantern.yml"
    work.write_text(work.read_text("utf-8") + "variants: {finish: {values: [gloss, matt]}}\n", "utf-8")
    done(folder, *said, "--for", "finish=gloss", *NEW)
    assert "for:\n  finish: gloss\n" in (folder / "skills/records/measurements.yml").read_text("utf-8")


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("practice", "--who", "ansa", "--procedure", "pack-lantren", "--pieces", "3", "--scrap", "0", "--rework", "0"),
         "There is no procedure `pack-lantren`"),
        (("practice", "--who", "ansa", "--procedure", "pack-lantern", "--pieces", "3", "--scrap", "2", "--rework", "2"),
         "more than were made"),
        (("measurement", "--who", "ansa", "--measured", "pack-lantern/gap", "--reading", "21 g"), "cannot be held"),
        (("measurement", "--who", "ansa", "--measured", "pack-lantern/gap", "--reading", "21"), "21"),
        (("trial", "--who", "ansa", "--felt", "pack-lantern", "--verdict", "good"), "is no verdict"),
        (("trial", "--who", "ansa", "--felt", "pack-lantern", "--verdict", "a=fine"), "There are: `good`, `bad`."),
    ],
)
def test_what_cannot_be_is_not_entered(arguments: tuple[str, ...], told: str, folder: Path) -> None:
    assert told in refused(folder, "log", *arguments, *NEW)


# --- clocks that are wrong --------------------------------------------------------------------------------


def test_what_was_entered_with_a_wrong_clock_is_told_and_answered(folder: Path) -> None:
    """A tablet that had lost its clock entered practice in 2036. The book goes on, and the entry is put right."""
    made = ("log", "practice", "--who", "ansa", "--procedure", "pack-lantern", "--scrap", "0", "--rework", "0", "-y")
    wrong = CliRunner().invoke(cli, [*made, "--pieces", "3", "-n", str(folder), "--today", "2036-05-09"])
    assert wrong.exit_code == 0
    done(folder, *made, "--pieces", "4")
    told = run(folder, "verify")
    assert told.exit_code == 1
    assert "practice.yml:3: wrong date: 2036-05-09 is not yet come; an entry is made for what has been." in told.output
    assert "error[date-ahead]" in run(folder, "check").output
    done(folder, *made, "--pieces", "3", "--corrects", "1", "--because", "The clock was wrong.")
    assert "practice.yml: 3 entries, whole" in done(folder, "verify")
    assert "date-ahead" not in run(folder, "check").output


def test_a_sign_off_from_a_wrong_clock_is_told_and_taken_back(folder: Path) -> None:
    wrong = CliRunner().invoke(
        cli, [*sign("watches", "--date", "2036-05-09"), "-n", str(folder), "--today", "2036-05-09"])
    assert wrong.exit_code == 0, wrong.output
    assert "against the law: 2036-05-09 is not yet come" in run(folder, "verify").output
    done(folder, *sign("watches"))
    done(folder, "withdraw", "1", "--who", "edda", "--because", "The clock was wrong.", *NEW)
    assert "sign-offs.yml: 3 entries, whole, within the law" in done(folder, "verify")


def test_without_people_nobody_can_say_who_was_entitled(folder: Path) -> None:
    done(folder, *sign("watches"))
    (folder / "skills/people.yml").unlink()
    told = run(folder, "verify")
    assert told.exit_code == 1 and "skills/people.yml: nothing can be read there" in told.output


# --- seals, keys and trust --------------------------------------------------------------------------------


OLD_BOOK = "---\nsign-off: 1\nwho: edda\ndate: 2020-01-01\nlearner: tilde\nskill: casting\nlevel: watches\n"


def old_book(folder: Path, text: str = OLD_BOOK) -> Path:
    file = folder / "skills/records/sign-offs.yml"
    file.parent.mkdir(exist_ok=True)
    file.write_text(text, "utf-8")
    return file


def test_an_old_book_is_brought_under_seal_once(folder: Path) -> None:
    old_book(folder)
    assert "not under seal; nothing can be said of it" in run(folder, "verify").output
    assert "`benchlore seal`" in refused(folder, *sign("watches"))
    assert "entry 1 is brought under seal, as it stands there now" in refused(folder, "seal", typed="n\n")
    done(folder, "seal", typed="y\n")
    assert "Everything is under seal." in done(folder, "seal", "-y")
    done(folder, *sign("watches"))


def test_what_is_against_the_law_is_put_right_before_it_is_sealed(folder: Path) -> None:
    old_book(folder, OLD_BOOK.replace("who: edda", "who: ansa"))
    assert "can still be put right by hand" in refused(folder, "seal", "-y")


def test_the_first_bad_entry_is_named_and_nothing_more_is_written(folder: Path) -> None:
    for _ in range(3):
        done(folder, *sign("watches"))
    file = folder / "skills/records/sign-offs.yml"
    file.write_text(file.read_text("utf-8").replace("learner: ansa", "learner: tilde", 1), "utf-8")
    told = run(folder, "verify")
    assert told.exit_code == 1
    assert re.search(r"sign-offs\.yml:9: altered: Entry 1 does not say what it said", told.output)
    assert "the book is not as it was" in refused(folder, *sign("watches"))
    assert "error[seal-broken]" in run(folder, "check").output


def test_a_seal_from_paper(folder: Path) -> None:
    done(folder, *sign("watches"))
    last = read_last(folder / "skills/records/sign-offs.yml")
    assert last is not None
    done(folder, *sign("watches"))
    assert "that of sign-off 1; 1 came after it" in done(folder, "verify", "--against", last.seal[:16])
    assert "No entry has the seal" in refused(folder, "verify", "--against", "0" * 64)
    assert "At least 12 digits" in refused(folder, "verify", "--against", last.seal[:6], code=2)


def test_a_book_that_was_torn_is_told_and_mended_by_the_next_entry(folder: Path) -> None:
    done(folder, *sign("watches"))
    file = folder / "skills/records/sign-offs.yml"
    small = file.with_suffix(".last")
    small.write_text(small.read_text("utf-8") + f"writing: {file.stat().st_size}\n", "utf-8")
    file.write_bytes(file.read_bytes() + b"---\nsign-off: 2\nwho: ed")
    assert "torn: After entry 1" in run(folder, "verify").output
    written = done(folder, *sign("watches"))
    assert "set aside in" in written and "Written: sign-off 2" in written
    assert (file.parent / "sign-offs.torn-2-1.txt").read_text("utf-8") == "---\nsign-off: 2\nwho: ed"


def test_a_key(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = CliRunner().invoke(cli, ["key", "new", "edda", "--into", str(tmp_path / "keys"), "-n", str(folder)],
                              input="the fox\nthe fox\n")
    assert made.exit_code == 0, made.output
    people = (folder / "skills/people.yml").read_text("utf-8")
    assert re.search(r"  edda:\n    name: Edda Corvane\n    key: \S{43}=\n    founding: true\n", people)
    file = str(tmp_path / "keys" / "edda.pem")
    done(folder, *sign("watches", "--key", file), typed="the fox\n")
    book = folder / "skills/records/sign-offs.yml"
    assert "signature: " in book.read_text("utf-8")
    done(folder, "verify")
    assert "passphrase is not that" in refused(folder, *sign("watches", "--key", file), typed="the hen\n")
    assert "There is no key in" in refused(folder, *sign("watches", "--key", file + "x"), typed="the fox\n")
    monkeypatch.setenv("BENCHLORE_PASSPHRASE", "the fox")
    done(folder, *sign("watches", "--key", file))
    people_file = folder / "skills/people.yml"
    people_file.write_text(people.replace("key: ", "note: "), "utf-8")
    assert "does not stand in `people.yml` for `edda`" in run(folder, "verify").output


def test_who_names_a_key_is_never_written_down_unsigned(folder: Path, tmp_path: Path) -> None:
    told = refused(folder, *sign("watches", "--key", str(tmp_path / "edda.pem")))
    assert "No public key of `edda` stands in `people.yml`" in told
    assert "benchlore key new edda" in told


def test_a_second_key_stands_beside_the_first(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BENCHLORE_PASSPHRASE", "the fox")
    for into in ("one", "two"):
        arguments = ["key", "new", "tilde", "--into", str(tmp_path / into), "-n", str(folder)]
        assert CliRunner().invoke(cli, arguments).exit_code == 0
    assert re.search(r"  tilde:\n    key: \[\S{43}=, \S{43}=\]\n", (folder / "skills/people.yml").read_text("utf-8"))


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("mallory", "--into", "{keys}"), "does not stand in skills/people.yml"),
        (("edda", "--into", "{shop}/keys"), "does not belong into the notebook"),
    ],
)
def test_keys_that_are_not_made(arguments: tuple[str, ...], told: str, folder: Path, tmp_path: Path) -> None:
    places = {"keys": str(tmp_path / "keys"), "shop": str(folder)}
    given = [one.format(**places) for one in arguments]
    result = CliRunner().invoke(cli, ["key", "new", *given, "-n", str(folder)], input="x\nx\n")
    assert result.exit_code == 1 and told in result.output
    assert not (tmp_path / "keys").exists()
