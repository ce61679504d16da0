"""What the books tell of a learner, a limit and a change, on books small enough to reckon by hand."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.skills.changed import failures, shifts, times_of_one
from site_builder.skills.feel_told import compared, together
from site_builder.skills.measured import measured, timed
from site_builder.skills.progress import Progress, paces, progress
from site_builder.skills.proof.wording import tell_agreement

TODAY = date(2026, 3, 2)
SHOP = """\
=== skills/people.yml
people: {edda: {name: Edda, founding: yes}, tilde: Tilde, ansa: Ansa}
=== skills/deburring.yml
skill: deburring
title: Deburring
covers: deburr
proof: {pieces: 20, share: min 90 %, confidence: min 90 %}
refresh: 12 mo
=== procedures/deburr.yml
procedure: deburr
title: Deburr
time: {each: 4 min}
steps:
  - id: feel
    do: Feel the edge.
    feel: {good: Nothing., bad: It catches., sense: touch}
    limits:
      edge: {is: 0.3 ±0.1 mm}
"""


def shop(folder: Path, text: str) -> Analysis:
    write_example(SHOP + text, folder)
    return analysis(folder, TODAY)


def practice(*entries: str) -> str:
    lines = [f"---\npractice: {n}\nwho: ansa\ndate: 2026-01-{n:02}\nprocedure: deburr\nlevel: beside\n{said}\n"
             for n, said in enumerate(entries, 1)]
    return "=== skills/records/practice.yml\n" + "".join(lines)


def of_ansa(surveyed: Analysis) -> Progress:
    return progress(surveyed.law.evidence, surveyed.notebook.skills["deburring"], "ansa", TODAY)


def test_bad_pieces_are_spread_evenly_over_their_entry(tmp_path: Path) -> None:
    """One of four is bad in the middle, two of four after a quarter and three quarters."""
    surveyed = shop(tmp_path, practice("pieces: 4\nrework: 1", "pieces: 4\nscrap: 1\nrework: 1", "pieces: 2"))
    assert "".join("good" if good else "BAD" for good in of_ansa(surveyed).order) == (
        "goodBADgoodgood" "BADgoodBADgood" "goodgood")


def test_twenty_two_pieces_without_a_fault_prove_nine_in_ten(tmp_path: Path) -> None:
    """ln(1 - 0.9) / ln 0.9 = 21.85 (success run, classical)."""
    due = of_ansa(shop(tmp_path, practice("pieces: 12", "pieces: 3"))).due
    assert due is not None
    assert (due.needed, due.more) == (22, 7)


def test_after_not_ready_the_test_begins_anew(tmp_path: Path) -> None:
    """Ready is a third of the tenth that may fail, so 32 good pieces pass: ln(0.95/0.1) / ln(0.9667/0.9) = 31.5."""
    tests = of_ansa(shop(tmp_path, practice("pieces: 3\nrework: 3", "pieces: 40"))).tests
    assert [test.verdict for test in tests] == ["not ready", "ready"]
    first, second = tests
    assert first.at == 3  # ln(0.9/0.05) / ln(0.0967/0.03) = 2.47 faults and a little with each piece
    assert second.at == 3 + 32


def test_where_no_share_is_asked_for_nothing_is_due(tmp_path: Path) -> None:
    surveyed = shop(tmp_path, practice("pieces: 5") + "=== skills/sweeping.yml\nskill: sweeping\ntitle: Sweeping\n")
    found = progress(surveyed.law.evidence, surveyed.notebook.skills["sweeping"], "ansa", TODAY)
    assert (found.due, found.tests, found.steadiness) == (None, (), None)


def test_the_pace_falls_to_the_standard_time(tmp_path: Path) -> None:
    """Lots of one piece at 8, 6.4 and 5.595 min lie on an 80 % curve, which comes to 4 min at piece 8.6:
    8 · n^log2(0.8) = 4."""
    surveyed = shop(tmp_path, practice(*(f"pieces: 1\ntook: {s} s" for s in (480, 384, 337.01))))
    pace, = paces(of_ansa(surveyed).batches, surveyed.law.evidence)
    assert pace.fitted is not None
    assert (pace.unit, pace.target) == ("min", 4)
    assert pace.fitted.rate == pytest.approx(0.8, abs=0.001)
    assert pace.fitted.reaches(4).piece == pytest.approx(8.6, abs=0.1)


TRIALS = """\
=== skills/records/trials.yml
---
trial: 1
who: edda
date: 2026-02-01
felt: deburr/feel
verdicts: {a: good, b: bad, c: bad, d: good}
---
trial: 2
who: ansa
teacher: edda
date: 2026-02-01
felt: deburr/feel
verdicts: {a: good, b: bad, c: good, d: good, e: bad}
"""


def test_a_trial_is_held_against_the_teachers(tmp_path: Path) -> None:
    """Piece e the teacher never felt. Kappa: 3 of 4 alike, 1/2 by luck, (3/4 - 1/2) / (1 - 1/2) = 1/2."""
    one, = compared(shop(tmp_path, TRIALS).law.evidence, "ansa", "deburring", TODAY)
    assert (one.agreed.alike, one.agreed.pieces) == (3, 4)
    assert one.kappa is not None
    assert one.kappa.value == pytest.approx(0.5)
    assert (one.leaning.passed, one.leaning.thrown) == (("c",), ())


GRADED = TRIALS.replace("deburr/feel", "paint/look").replace(
    "{a: good, b: bad, c: bad, d: good}", "{a: bad, b: second, c: first, d: first}").replace(
    "{a: good, b: bad, c: good, d: good, e: bad}", "{a: bad, b: first, c: first, d: second}") + """\
=== procedures/foot/paint.yml
procedure: paint
title: Paint the foot
skill: deburring
steps:
  - id: look
    do: Hold it against the window.
    checks: {good: One colour., grades: {first: Nothing to see., second: A grain or two inside.}}
"""


def test_grades_that_lie_further_apart_count_more(tmp_path: Path) -> None:
    """Two of four lie one grade apart: 2/4 grades a piece; by luck 7/8. Kappa is 1 - (1/2) / (7/8) = 3/7."""
    one, = compared(shop(tmp_path, GRADED).law.evidence, "ansa", "deburring", TODAY)
    assert one.scale == ("bad", "second", "first")
    assert one.kappa is not None
    assert one.kappa.value == pytest.approx(3 / 7)
    assert (one.leaning.passed, one.leaning.thrown) == (("b",), ("d",))
    told = tell_agreement(one.agreed, one.kappa, one.leaning, ordered=True)
    assert "graded better than the master did: b; graded worse: d." in told
    assert "kappa 0.43, weighted by how many grades apart they judged, between" in told


def test_good_and_bad_alone_will_do_where_there_are_grades(tmp_path: Path) -> None:
    plain = TRIALS.replace("deburr/feel", "paint/look") + GRADED[GRADED.index("=== procedures"):]
    one, = compared(shop(tmp_path, plain).law.evidence, "ansa", "deburring", TODAY)
    assert one.scale == ("bad", "good")
    assert one.agreed.alike == 3


def test_three_hands_are_told_together_only_on_the_same_pieces(tmp_path: Path) -> None:
    third = ("---\ntrial: {}\nwho: {}\nteacher: edda\ndate: 2026-02-01\nfelt: deburr/feel\n"
             "verdicts: {{a: good, b: bad, c: bad, d: good}}\n")
    with_two = shop(tmp_path / "two", TRIALS + third.format(3, "tilde"))
    assert not [*together(with_two.law.evidence, "deburring", TODAY)]  # Ansa's trial has a piece more
    with_three = shop(tmp_path / "three", TRIALS + third.format(3, "tilde") + third.format(4, "ansa"))
    one, = together(with_three.law.evidence, "deburring", TODAY)
    assert one.people == ("edda", "tilde", "ansa")
    assert one.kappa is not None
    assert one.kappa.value == pytest.approx(1)


def measurement(number: int, who: str, readings: str, pieces: int) -> str:
    return (f"---\nmeasurement: {number}\nwho: {who}\ndate: 2026-02-0{number}\nmeasured: deburr/feel/edge\n"
            f"readings: [{readings}]\npieces: {pieces}\n")


def test_eight_readings_tell_whether_the_work_is_steady(tmp_path: Path) -> None:
    book = "=== skills/records/measurements.yml\n"
    few = measurement(1, "ansa", "0.30 mm, 0.32 mm, 0.29 mm, 0.31 mm", 4)
    evidence = shop(tmp_path / "few", book + few).law.evidence
    one, = measured(evidence, "deburring", TODAY)
    assert (one.unit, len(one.readings), one.steady, one.fits) == ("mm", 4, None, None)
    more = few + measurement(2, "tilde", "0.30 mm, 0.28 mm, 0.31 mm, 0.30 mm", 4)
    evidence = shop(tmp_path / "more", book + more).law.evidence
    one, = measured(evidence, "deburring", TODAY)
    assert one.steady is not None
    assert one.fits is not None
    # mean 0.30125; the nearer limit is 0.4; spread of all 0.01246
    assert one.fits.ppk == pytest.approx((0.4 - 0.30125) / (3 * 0.012464), rel=0.001)


def test_rounds_over_the_same_pieces_are_a_gauge_study_and_no_work(tmp_path: Path) -> None:
    rounds = [("ansa", "0.30 mm, 0.40 mm"), ("ansa", "0.30 mm, 0.41 mm"), ("tilde", "0.31 mm, 0.40 mm"),
              ("tilde", "0.30 mm, 0.40 mm")]
    book = "".join(measurement(n, who, readings, 2).replace(f"2026-02-0{n}", "2026-02-01")
                   for n, (who, readings) in enumerate(rounds, 1))
    surveyed = shop(tmp_path, "=== skills/records/measurements.yml\n" + book)
    one, = measured(surveyed.law.evidence, "deburring", TODAY)
    assert one.readings == ()
    assert one.gauge is not None
    assert one.gauge.of_tolerance == pytest.approx(6 * one.gauge.gauge / 0.2)


def test_time_by_hands_that_work_alone(tmp_path: Path) -> None:
    took = practice(*(f"pieces: 10\ntook: {m} min" for m in (40, 42, 44, 46, 48))).replace("level: beside",
                                                                                            "level: alone")
    one, = timed(shop(tmp_path, took).law.evidence, "deburring", TODAY)
    assert one.minutes == pytest.approx((4, 4.2, 4.4, 4.6, 4.8))
    assert one.enough is not None
    # (1.96 · 0.3162 / (0.05 · 4.4))² = 7.9
    assert (one.enough.needed, one.enough.more) == (8, 3)


CHANGE = """\
=== procedures/changes/cotton.yml
change: cotton
title: Cotton wool
covers: deburr
date: 2026-01-04
evidence: [practice 1, practice 2, practice 3, practice 4, practice 5, practice 6]
results:
  chipped edges: {old: 9 pieces per 200 pieces, new: 2 pieces per 200 pieces}
  guessed: {old: about 9 pieces per 200 pieces, new: 2 pieces per 200 pieces}
  time for one edge: {old: 4 min, new: 4.5 min}
  time in all: {old: 4 h, new: 3 h}
"""


def test_counts_before_and_since_a_change(tmp_path: Path) -> None:
    """Fisher's exact test on 9 of 200 and 2 of 200: p = 0.0618 (scipy.stats.fisher_exact)."""
    results = shop(tmp_path, CHANGE).notebook.changes["cotton"].results
    told = {str(name): (failures(result), times_of_one(str(name), result)) for name, result in results.items()}
    counted = told["chipped edges"][0]
    assert counted is not None
    assert (counted.failed_before, counted.failed_since) == (9, 2)
    assert counted.luck.either == pytest.approx(0.061814, abs=1e-6)
    assert told["guessed"] == (None, None)
    assert told["time for one edge"] == (None, (4, 4.5))
    assert told["time in all"] == (None, None)  # nobody says that it is the time of one


def test_times_that_a_change_cites(tmp_path: Path) -> None:
    """Three lots before and three since, all shorter: 2 in 20 orders are as uneven, so luck is a tenth."""
    took = practice(*(f"pieces: 10\ntook: {m} min" for m in (50, 51, 52, 40, 41, 42)))
    surveyed = shop(tmp_path, took + CHANGE)
    one, = shifts(surveyed.law.evidence, surveyed.notebook.changes["cotton"])
    assert (one.what, one.unit) == ("deburr", "min")
    assert one.moved.shift == pytest.approx(-1)
    assert one.moved.luck == pytest.approx(0.1)
