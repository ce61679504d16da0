"""The law of sign-offs, as a table: who signs what for whom, and what the book says to it.

Edda founded the shop. Tilde teaches filing and casting; Josk works alone at both; Ansa was born on 19 June 2011 and
files beside a teacher. Havel, a founder too, died in 1994. Filing has two items on its checklist and wants 20 pieces,
nine in ten good. Casting needs filing first and an age of 16. Polishing is done at a wheel that asks for 18;
dipping meets an acid that asks for 18, and a fume that asks for 20 of who teaches it.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.skills.breach import Article

SHOP = """\
=== skills/people.yml
people:
  edda: {name: Edda, born: 1958, joined: 1974, founding: yes}
  havel: {name: Havel, born: 1919, left: 1994, founding: yes}
  tilde: {name: Tilde, born: 1984}
  josk: {name: Josk, born: 1979}
  ansa: {name: Ansa, born: 2011-06-19}
  benno: {name: Benno, born: 1995}
=== skills/filing.yml
skill: filing
title: Filing
covers: file-arm
checklist:
  - {id: card, show: Cards a file.}
  - {id: twenty, show: Files twenty arms., evidence: practice}
proof: {pieces: 20, share: min 90 %}
refresh: 12 mo
=== skills/casting.yml
skill: casting
title: Casting
covers: cast-arm
needs: {skill: filing, level: alone}
age: min 16 y
=== skills/feeling.yml
skill: feeling
title: Feeling for burrs
covers: deburr-arm
checklist: {id: samples, show: Tells the samples apart., evidence: trial}
proof: {agreement: min 90 %, limits: deburr-arm/edge}
=== skills/sweeping.yml
skill: sweeping
title: Sweeping
=== skills/polishing.yml
skill: polishing
title: Polishing
checklist:
  - {id: low, show: Says how low the piece is held and why.}
  - {id: forty, show: Polishes forty arms., evidence: practice}
covers: polish-arm
=== skills/dipping.yml
skill: dipping
title: Dipping
covers: dip-arm
=== tools/machines/wheel.yml
machine: wheel
title: Wheel
age: min 18 y
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the parting line.
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
steps: Pour it.
=== procedures/arm/deburr-arm.yml
procedure: deburr-arm
title: Deburr the arm
steps: Feel for the burr.
limits: {edge: 0.2..0.4 mm}
=== procedures/arm/polish-arm.yml
procedure: polish-arm
title: Polish the arm
tools: wheel
steps: Hold it low.
=== procedures/arm/dip-arm.yml
procedure: dip-arm
title: Dip the arm
steps:
  - do: Let it down into the pickle.
    hazards: {hazard: acid, word: danger, harm: It burns., avoid: Long tongs., age: min 18 y}
  - do: Fan the fume away.
    hazards: {hazard: fume, word: warning, harm: It chokes., avoid: Fan on., age: {is: min 20 y, for: {level: teaches}}}
=== skills/records/practice.yml
---
practice: 1
who: josk
date: 2026-01-10
procedure: file-arm
pieces: 30
rework: 3
---
practice: 2
who: tilde
date: 2026-01-11
procedure: cast-arm
pieces: 30
---
practice: 3
who: ansa
date: 2026-02-01
procedure: file-arm
teacher: tilde
pieces: 19
---
practice: 4
who: benno
date: 2026-02-02
procedure: file-arm
pieces: 20
rework: 3
---
practice: 5
who: ansa
date: 2026-03-01
procedure: file-arm
teacher: tilde
pieces: 1
=== skills/records/trials.yml
---
trial: 1
who: tilde
date: 2026-01-20
felt: deburr-arm
verdicts: {a: good, b: bad}
---
trial: 2
who: ansa
date: 2026-02-20
felt: deburr-arm
teacher: tilde
verdicts: {a: bad, b: bad}
---
trial: 3
who: ansa
date: 2026-03-20
felt: deburr-arm
teacher: tilde
verdicts: {a: good, b: bad}
=== skills/records/measurements.yml
---
measurement: 1
who: tilde
date: 2026-03-05
measured: deburr-arm/edge
readings: 0.5 mm
---
measurement: 2
who: tilde
date: 2026-03-20
measured: deburr-arm/edge
readings: 0.3 mm
"""

TOLD = "; override: There was no book before."
BEFORE = (
    f"edda tilde filing teaches 2020-01-01{TOLD}",
    f"edda tilde casting teaches 2020-01-02{TOLD}",
    f"edda josk filing alone 2020-01-03{TOLD}",
    f"edda josk casting alone 2020-01-04{TOLD}",
    f"edda tilde feeling teaches 2020-01-05{TOLD}",
    "tilde ansa filing beside 2025-09-05",
)
"""Six entries that stand in the book already."""

LAW: list[tuple[str, str, Article | None]] = [
    # --- who signs
    ("who teaches the skill signs", "tilde benno filing beside", None),
    ("a founder signs without teaching it", "edda benno polishing beside", None),
    ("who does it alone does not sign", "josk benno filing beside", Article.SIGNER),
    ("who teaches something else does not sign", "tilde benno polishing beside", Article.SIGNER),
    ("a stranger does not sign", "mallory benno filing beside", Article.SIGNER),
    ("nobody does not sign", "- benno filing beside", Article.SIGNER),
    ("a founder who is dead does not sign", "havel benno filing beside", Article.SIGNER),
    ("nobody signs for himself", "tilde tilde filing beside", Article.SELF),
    ("not even the founder", "edda edda filing beside", Article.SELF),
    # --- what an entry says
    ("items may be signed without a level", "tilde ansa filing - ; items: card", None),
    ("an entry says something", "tilde ansa filing -", Article.SAYS),
    ("it names an item that there is", "tilde ansa filing - ; items: crad", Article.SAYS),
    ("it names a learner", "tilde - filing beside", Article.SAYS),
    ("it names a skill", "edda benno - beside", Article.SAYS),
    ("it names the day", "tilde benno filing beside -", Article.SAYS),
    # --- what comes first
    ("what it needs first is held", "tilde josk casting alone", None),
    ("what it needs first is not held", "tilde benno casting beside", Article.NEEDS),
    ("what it needs first is not held far enough", "tilde ansa casting beside 2027-08-01", Article.NEEDS),
    ("watching needs nothing first", "tilde benno casting watches", None),
    ("a founder needs nothing first", f"tilde edda casting alone{TOLD}", None),
    # --- age
    ("fifteen may watch the casting", "tilde ansa casting watches", None),
    ("fifteen may say how the piece is held", "edda ansa polishing watches ; items: low", None),
    ("fifteen may not hold it", "edda ansa polishing - ; items: low", Article.AGE),
    ("nor show by practice what it may only watch", f"edda ansa polishing watches{TOLD}; items: forty", Article.AGE),
    ("on the birthday it may be", "edda ansa polishing beside 2029-06-19", None),
    ("on the day before it may not", "edda ansa polishing beside 2029-06-18", Article.AGE),
    ("a machine draws the line for all its work", "edda ansa polishing beside", Article.AGE),
    ("a hazard of a step draws it too", "edda ansa dipping beside", Article.AGE),
    ("fifteen may watch from where it cannot reach", "edda ansa dipping watches", None),
    ("on the birthday the hazard may be met", "edda ansa dipping beside 2029-06-19", None),
    ("who teaches it must be older still", "edda ansa dipping teaches 2029-06-19", Article.AGE),
    ("a reason makes nobody older", f"edda ansa polishing beside{TOLD}", Article.AGE),
    # --- levels follow from what was shown
    ("within call after practice beside and an item", "tilde ansa filing within_call ; items: card", None),
    ("within call with nothing shown", "tilde ansa filing within_call", Article.LEVEL),
    ("within call without practice", "tilde tilde-s filing within_call ; items: card", Article.LEVEL),
    ("within call where no proof is asked for", "edda tilde polishing within_call ; items: low", None),
    ("within call where nothing is asked for", "edda tilde sweeping within_call", None),
    ("alone where nothing is asked for", "edda tilde sweeping alone", None),
    ("alone with an item open", "tilde josk filing teaches ; items: card", None),  # is alone already
    ("alone with the list half done", "tilde ansa filing alone ; items: card", Article.LEVEL),
    ("alone with the list done", "tilde ansa filing alone ; items: [card, twenty]", None),
    ("alone with the list half done and a reason", f"tilde ansa filing alone{TOLD}", None),
    # --- proof
    ("twenty pieces are asked for, and made", "tilde ansa filing alone 2026-03-01 ; items: [card, twenty]", None),
    ("a day before it was nineteen", "tilde ansa filing alone 2026-02-28 ; items: [card, twenty]", Article.PROOF),
    ("three of twenty went wrong", "tilde benno filing alone ; items: [card, twenty]", Article.PROOF),
    ("three of twenty went wrong, and a reason", f"tilde benno filing alone{TOLD}", None),
    ("an item by practice without practice", "tilde tilde-s filing - ; items: twenty", Article.PROOF),
    ("an item that is only seen", "tilde tilde-s filing - ; items: card", None),
    ("the last trial agrees and the edge is right",
     "tilde ansa feeling alone 2026-03-21 ; items: samples; evidence: measurement 2", None),
    ("the trial before it did not", "tilde ansa feeling alone 2026-03-06 ; items: samples; evidence: measurement 1",
     Article.PROOF),
    ("the edge was never measured", "tilde ansa feeling alone 2026-03-21 ; items: samples", Article.PROOF),
    # --- evidence
    ("evidence of this learner and skill", "tilde ansa filing beside ; evidence: practice 3", None),
    ("words of the signer's own", "tilde ansa filing beside ; evidence: the film of 3 May", None),
    ("evidence that is not there", "tilde ansa filing beside ; evidence: practice 99", Article.EVIDENCE),
    ("evidence of another", "tilde ansa filing beside ; evidence: practice 1", Article.EVIDENCE),
    ("evidence of another skill", "tilde tilde-s casting watches ; evidence: practice 3", Article.EVIDENCE),
    ("evidence from the time after", "tilde ansa filing beside 2026-02-15 ; evidence: practice 5", Article.EVIDENCE),
    ("no reason excuses false evidence", f"tilde ansa filing alone{TOLD}; evidence: practice 99", Article.EVIDENCE),
    # --- taking back
    ("who signed takes back", "tilde withdraws 6 ; because: Too soon.", None),
    ("a founder takes back", "edda withdraws 6 ; because: Too soon.", None),
    ("who does neither does not", "josk withdraws 6 ; because: Too soon.", Article.SIGNER),
    ("the learner does not", "ansa withdraws 6 ; because: Too soon.", Article.SELF),
    ("without a reason it stands", "tilde withdraws 6", Article.TAKES_BACK),
    ("what is not there is not taken back", "tilde withdraws 60 ; because: Too soon.", Article.TAKES_BACK),
    # --- dates
    ("the same day is not backward", "tilde benno filing beside 2025-09-05", None),
    ("nor a day earlier, by a clock further west", "tilde benno filing beside 2025-09-04", None),
    ("two days earlier is", "tilde benno filing beside 2025-09-03", Article.DATE),
    ("what lies ahead is not signed", "edda benno sweeping beside 2030-01-03", Article.DATE),
    ("tomorrow has come already further east", "edda benno sweeping beside 2030-01-02", None),
    # --- whom and what the notebook knows
    ("a learner whom nobody knows", "tilde nobody filing beside", Article.SAYS),
    ("a learner in other capitals", "tilde Benno filing beside", Article.SAYS),
    ("a learner with a Cyrillic letter", "tilde bеnno filing beside", Article.SAYS),
    ("a learner in another normal form", "tilde jose\u0301 filing beside", Article.SAYS),
    ("a skill that nobody knows", "edda benno flying beside", Article.SAYS),
    ("a skill with a Greek letter", "edda benno fιling beside", Article.SAYS),
    ("a signer in other capitals", "Edda benno filing beside", Article.SIGNER),
    ("a signer with a Cyrillic letter", "еdda benno filing beside", Article.SIGNER),
    ("a stranger takes nothing back", "mallory withdraws 6 ; because: Too soon.", Article.SIGNER),
    # --- age that is not known
    ("who does not say when he was born is never old enough", "edda ageless dipping beside", Article.AGE),
    ("and may watch", "edda ageless dipping watches", None),
    ("and do what asks for no age", "edda ageless sweeping beside", None),
    ("a bare year counts from its last day", "edda year dipping beside 2026-12-30", Article.AGE),
    ("and on that day it is reached", "edda year dipping beside 2026-12-31", None),
]


def entry_text(number: int, told: str) -> str:
    """``who learner skill level [day] [; key: value …]`` as an entry; a dash leaves something out."""
    words, *more = told.split(";")
    parts = words.split()
    lines = [f"sign-off: {number}"]
    if parts[1] == "withdraws":
        keys = {"who": parts[0], "withdraws": parts[2], "date": "2026-04-01"}
    else:
        keys = dict(zip(("who", "learner", "skill", "level", "date"), [*parts, "2026-04-01"], strict=False))
    lines += [f"{key}: {value.replace('_', ' ')}" for key, value in keys.items() if value != "-"]
    return "---\n" + "\n".join([*lines, *(one.strip() for one in more)]) + "\n"


def shop(folder: Path, *entries: str) -> Analysis:
    """The shop with these entries behind the six that stand there."""
    book = "".join(entry_text(number, told) for number, told in enumerate((*BEFORE, *entries), 1))
    people = "  tilde-s: {name: Tilde's sister, born: 1990}\n  josé: {name: José}\n  ageless: Ageless\n"
    people += "  year: {name: Born in a year, born: 2008}\n"
    example = SHOP.replace("  benno:", people + "  benno:") + "=== skills/records/sign-offs.yml\n" + book
    write_example(example, folder)
    return analysis(folder, date(2030, 1, 1))


def test_the_six_entries_that_stand_there_are_lawful(tmp_path: Path) -> None:
    assert shop(tmp_path).law.breaches == ()


@pytest.mark.parametrize(("said", "entry", "against"), LAW, ids=[said for said, _, _ in LAW])
def test_the_law(said: str, entry: str, against: Article | None, tmp_path: Path) -> None:
    found = shop(tmp_path, entry).law.breaches
    articles = {breach.article for breach in found}
    assert all(breach.message and breach.fix and breach.number == 7 for breach in found)
    assert articles == ({against} if against is not None else set()), said


def test_what_nobody_entitled_has_signed_gives_nothing(tmp_path: Path) -> None:
    found = shop(tmp_path, f"josk benno filing teaches{TOLD}", "benno ansa filing beside").law.breaches
    assert [(breach.number, breach.article) for breach in found] == [(7, Article.SIGNER), (8, Article.SIGNER)]


def test_a_level_that_was_taken_back_falls_to_the_one_before(tmp_path: Path) -> None:
    law = shop(tmp_path, "tilde ansa filing within_call ; items: card", "tilde withdraws 7 ; because: Too soon.").law
    held = law.ledger.held("ansa", "filing")
    assert law.breaches == () and held is not None and (held.level, held.number) == ("beside", 6)
    assert law.ledger.shown("ansa", "filing") == {}


def test_who_taught_once_and_had_it_taken_back_signs_no_more(tmp_path: Path) -> None:
    taken_back = "edda withdraws 1 ; because: She has forgotten it."
    found = shop(tmp_path, taken_back, "tilde benno filing beside").law.breaches
    assert [(breach.number, breach.article) for breach in found] == [(8, Article.SIGNER)]


def test_an_entry_against_the_law_is_answered_by_a_later_one(tmp_path: Path) -> None:
    wrong = "josk benno filing beside"
    assert shop(tmp_path / "wrong", wrong).law.breaches
    withdrawn = shop(tmp_path / "withdrawn", wrong, "edda withdraws 7 ; because: He does not teach it.")
    assert withdrawn.law.breaches == ()
    corrected = shop(tmp_path / "corrected", wrong, "tilde benno filing beside ; corrects: 7; because: Josk signed.")
    assert corrected.law.breaches == ()


def test_items_are_signed_one_by_one_and_add_up(tmp_path: Path) -> None:
    one_by_one = ("tilde ansa filing - ; items: card", "tilde ansa filing - ; items: twenty", "tilde ansa filing alone")
    assert shop(tmp_path, *one_by_one).law.breaches == ()


# --- what rests -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("person", "day", "rests"),
    [
        ("josk", date(2027, 1, 10), False),  # practised on 10 January 2026, good for twelve months
        ("josk", date(2027, 1, 11), True),
        ("tilde", date(2027, 3, 1), False),  # stood by as teacher on 1 March 2026
        ("tilde", date(2027, 3, 2), True),
        ("ansa", date(2029, 1, 1), False),  # works beside a teacher, where nothing can rest
    ],
)
def test_when_a_skill_rests(person: str, day: date, rests: bool, tmp_path: Path) -> None:
    shop(tmp_path)
    held = analysis(tmp_path, day).holders.level(person, "filing")
    assert held is not None and (held.stale_since is not None) is rests


def test_of_the_time_before_the_book_of_practice_nobody_can_say_who_practised(tmp_path: Path) -> None:
    shop(tmp_path)
    practice = tmp_path / "skills/records/practice.yml"
    practice.write_text("---\npractice: 1\nwho: benno\ndate: 2026-01-10\nprocedure: cast-arm\npieces: 1\n", "utf-8")
    assert [analysis(tmp_path, day).holders.level("josk", "filing").stale_since is None  # type: ignore[union-attr]
            for day in (date(2027, 1, 10), date(2027, 1, 11))] == [True, False]
    practice.unlink()
    assert analysis(tmp_path, date(2040, 1, 1)).holders.level("josk", "filing").stale_since is None  # type: ignore[union-attr]


def test_who_lets_it_rest_teaches_no_more(tmp_path: Path) -> None:
    late = shop(tmp_path, "tilde benno filing beside 2027-03-02").law.breaches
    assert [breach.article for breach in late] == [Article.SIGNER]
    assert "rested from 2027-03-01 on" in late[0].message


def test_nothing_is_missed_in_a_book_that_could_not_be_read(tmp_path: Path) -> None:
    shop(tmp_path, "tilde ansa filing alone ; items: [card, twenty]")
    (tmp_path / "skills/records/practice.yml").write_text("---\npractice: [\n", "utf-8")
    assert analysis(tmp_path, date(2030, 1, 1)).law.breaches == ()


def test_what_nobody_entitled_has_signed_stands_on_no_page(tmp_path: Path) -> None:
    """Josk works alone and does not teach: what he signs for Benno gives Benno nothing, and is told as an error."""
    asked = shop(tmp_path, "josk benno sweeping beside")
    assert asked.holders.level("benno", "sweeping") is None
    assert [breach.article for breach in asked.law.breaches] == [Article.SIGNER]


def test_an_entry_gives_nothing_before_its_day(tmp_path: Path) -> None:
    shop(tmp_path, "edda benno sweeping beside 2026-04-01")
    assert analysis(tmp_path, date(2026, 3, 31)).holders.level("benno", "sweeping") is None
    assert analysis(tmp_path, date(2026, 4, 1)).holders.level("benno", "sweeping") is not None


@pytest.mark.parametrize(("age", "said"), [
    ("min 18 y", "Until then `watches` can be signed, and no more"),
    ("{is: min 18 y, for: {level: [within call, alone, teaches]}}", "Until then `beside` can be signed, and no more"),
])
def test_who_is_too_young_is_told_how_far_it_goes(age: str, said: str, tmp_path: Path) -> None:
    shop(tmp_path, "edda ansa sweeping alone")
    (tmp_path / "skills/sweeping.yml").write_text(f"skill: sweeping\ntitle: Sweeping\nage: {age}\n", "utf-8")
    (breach,) = analysis(tmp_path, date(2026, 4, 1)).law.breaches
    assert breach.fix.startswith(said)


# --- dates --------------------------------------------------------------------------------------------------


def test_an_entry_from_a_wrong_clock_does_not_jam_the_book_and_is_taken_back(tmp_path: Path) -> None:
    """In 2026 somebody's clock showed 2036. Everybody else goes on with honest dates, and he takes it back."""
    ahead, honest = "edda benno sweeping beside 2036-04-01", "edda josk sweeping beside 2026-04-02"
    shop(tmp_path / "jammed", ahead, honest)
    jammed = analysis(tmp_path / "jammed", date(2026, 4, 3)).law
    assert [(breach.number, breach.article) for breach in jammed.breaches] == [(7, Article.DATE)]
    assert "is not yet come" in jammed.breaches[0].message
    assert jammed.ledger.held("benno", "sweeping") is None and jammed.ledger.held("josk", "sweeping") is not None
    shop(tmp_path / "mended", ahead, honest, "edda withdraws 7 ; because: A wrong clock.")
    book = tmp_path / "mended/skills/records/sign-offs.yml"
    book.write_text(book.read_text("utf-8").replace("date: 2026-04-01", "date: 2026-04-02"), "utf-8")
    # that year, and also when the day of the wrong clock has come
    for today in (date(2026, 4, 3), date(2036, 5, 1)):
        assert analysis(tmp_path / "mended", today).law.breaches == ()


def test_an_entry_that_lies_ahead_is_refused_and_its_withdrawal_is_not(tmp_path: Path) -> None:
    asked = shop(tmp_path, "edda benno sweeping beside 2036-04-01")
    wrong, = (one for one in asked.notebook.sign_offs if one.number == 7)
    assert [one.article for one in asked.law.judge_next(wrong)] == [Article.DATE]
    # the day of the wrong clock is past; what takes it back bears its own, earlier day, and others may not
    wrong_clock = "edda benno sweeping beside 2029-12-31"
    law = shop(tmp_path / "before", wrong_clock).law
    both = shop(tmp_path / "after", wrong_clock, "edda withdraws 7 ; because: Wrong day.", "edda josk sweeping beside")
    back, other = both.notebook.sign_offs[-2:]
    assert law.judge_next(back) == []
    assert [one.article for one in law.judge_next(other)] == [Article.DATE]


def test_a_sign_off_of_tomorrow_does_not_block_those_of_today(tmp_path: Path) -> None:
    """It was signed further east, where it is tomorrow already; what is signed here today is in order for good."""
    shop(tmp_path, "edda benno sweeping beside 2026-04-03", "edda josk sweeping beside 2026-04-02")
    for today in (date(2026, 4, 2), date(2026, 4, 3), date(2030, 1, 1)):
        assert analysis(tmp_path, today).law.breaches == ()
