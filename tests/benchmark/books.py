"""``python -m tests.benchmark.books``: the books of a large shop, 50 people and 500 skills, at three lengths.

Prints seconds for verifying the books and for every page of the hands and of the changes, and how both grow from
2,500 entries to 10,000 in the book of sign-offs, with as many in the book of practice and a fifth as many feel trials
and measurements. Of every tenth skill the hours of teaching are reckoned from the learning curves in the book.
"""

from __future__ import annotations

import gc
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.handbook.pages.changes import change_pages
from site_builder.handbook.pages.checklist import checklist_sheet
from site_builder.handbook.pages.hands_index import hands_sheet
from site_builder.handbook.pages.lessons import lessons_sheet
from site_builder.handbook.pages.lineage import lineage_sheet
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.person import person_sheet
from site_builder.handbook.pages.skill import skill_sheet
from site_builder.handbook.pages.study import study_sheet
from site_builder.handbook.pages.without import without_sheet
from site_builder.handbook.site import Page, Site
from site_builder.skills.append import sealed_entry
from site_builder.skills.book import book_path, read_book
from site_builder.skills.chain import verify
from site_builder.skills.entry_text import Value, entry_text
from site_builder.skills.last import Last, write_last

PEOPLE, SKILLS, CHANGES = 50, 500, 50
SIZES = (2500, 5000, 10000)
TODAY = date(2026, 3, 2)
BEGUN = date(1976, 3, 5)
LEVELS = ("beside", "within call", "alone", "teaches")


def generate(root: Path, entries: int) -> None:
    """A shop with so many sign-offs and as many entries of practice, under seal and within the law."""
    (root / "skills" / "records").mkdir(parents=True)
    (root / "procedures" / "changes").mkdir(parents=True)
    people = "".join(f"  p{n}: {{name: Person Nr{n}, born: 1940, hours: 35 h/week, learning: 4 h/week"
                     f"{', founding: yes' if n == 0 else ''}}}\n" for n in range(PEOPLE))
    (root / "skills" / "people.yml").write_text(f"people:\n{people}", "utf-8")
    for n in range(SKILLS):
        lessons = "lessons: about 20 h\n" if n % 10 else ""
        (root / "skills" / f"skill-{n}.yml").write_text(
            f"skill: skill-{n}\ntitle: Skill Nr{n}\nbecause: It is asked for.\ncovers: work-{n}\nage: min 16 y\n"
            "checklist:\n  - {id: one, show: Shows it.}\n  - {id: two, show: Shows it again., evidence: practice}\n"
            "proof: {pieces: 30, share: min 90 %, confidence: min 90 %, agreement: min 90 %, "
            f"limits: work-{n}/look/width}}\nrefresh: 24 mo\n{lessons}",
            "utf-8")
        (root / "procedures" / f"work-{n}.yml").write_text(
            f"procedure: work-{n}\ntitle: Work Nr{n}\nskill: skill-{n}\ntime: {{each: 5 min}}\nsteps:\n"
            "  - id: look\n    do: Do it.\n    because: It is asked for.\n    feel: {good: Smooth., bad: Rough.}\n"
            "    limits: {width: {is: 50 ±0.5 mm, check: each piece}}\n", "utf-8")
    for n in range(CHANGES):
        (root / "procedures" / "changes" / f"change-{n}.yml").write_text(
            f"change: change-{n}\ntitle: Change Nr{n}\nwhat: It is done otherwise.\ncovers: work-{n * 7}\n"
            f"date: {BEGUN + timedelta(days=9000)}\nwho: p0\noutcome: kept\nresults:\n"
            "  lost: {old: 41 pieces per 380 pieces, new: 3 pieces per 200 pieces}\n"
            f"evidence: [{', '.join(f'practice {5 * n + m + 1}' for m in range(5))}]\n", "utf-8")
    _write(root, "sign-off", entries, _sign_off)
    _write(root, "practice", entries, _practice)
    _write(root, "trial", entries // 5, _trial)
    _write(root, "measurement", entries // 5, _measurement)


def _write(root: Path, kind: str, entries: int, say: Callable[[int, date], dict[str, Value]]) -> None:
    parts, previous, day = [], "", ""
    for number in range(1, entries + 1):
        on = BEGUN + timedelta(days=(TODAY - BEGUN).days * number // (entries + 1))
        entry = sealed_entry(kind, number, previous, say(number, on), None)
        parts.append(entry_text(entry))
        previous, day = str(entry["seal"]), on.isoformat()
    file = root / book_path(kind)
    file.write_text("".join(parts), "utf-8")
    write_last(file, Last(entries, previous, day))


def _sign_off(number: int, on: date) -> dict[str, Value]:
    """Each pair of a learner and a skill goes up level by level; whoever comes later finds it begun."""
    pair, level = divmod(number - 1, len(LEVELS))
    learner, skill = 1 + pair % (PEOPLE - 1), (pair * 7) % SKILLS
    said: dict[str, Value] = {
        "who": "p0", "date": on.isoformat(), "learner": f"p{learner}", "skill": f"skill-{skill}",
        "level": LEVELS[level],
    }
    if level:
        said["override"] = "There was no book then."
    return said


def _practice(number: int, on: date) -> dict[str, Value]:
    return {
        "who": f"p{1 + number % (PEOPLE - 1)}", "date": on.isoformat(),
        "procedure": f"work-{(number // 5 * 7) % SKILLS}", "level": "beside", "teacher": "p0", "pieces": "12",
        "rework": str(number % 3), "took": f"{60 + number % 30} min",
    }


def _trial(number: int, on: date) -> dict[str, Value]:
    """The teacher judges first, then four learners judge the same pieces."""
    turn, hand = divmod(number - 1, 5)
    said: dict[str, Value] = {
        "who": f"p{1 + (turn + hand) % (PEOPLE - 1)}" if hand else "p0", "date": on.isoformat(),
        "felt": f"work-{turn * 7 % SKILLS}/look",
        "verdicts": {f"piece {n}": "bad" if (n + hand * (n % 3)) % 4 == 0 else "good" for n in range(12)},
    }
    if hand:
        said["teacher"] = "p0"
    return said


def _measurement(number: int, on: date) -> dict[str, Value]:
    return {
        "who": f"p{1 + number % (PEOPLE - 1)}", "date": on.isoformat(),
        "measured": f"work-{(number // 5 * 7) % SKILLS}/look/width",
        "readings": [f"{50 + (number * 7 + n) % 9 / 20 - 0.2:.2f} mm" for n in range(5)],
    }


def clocked(do: Callable[[], object]) -> float:
    """Seconds of the processor; the collector's pauses belong to nobody and are kept out."""
    gc.collect()
    gc.disable()
    begun = time.process_time()
    do()
    gc.enable()
    return time.process_time() - begun


def measure(entries: int, folder: Path) -> dict[str, float]:
    """Seconds for each thing, in the order in which a build does them."""
    root = folder / f"shop-{entries}"
    generate(root, entries)
    found: dict[str, float] = {}
    found["verify"] = clocked(lambda: _verified(root))
    surveys: list[Analysis] = []
    found["read the notebook"] = clocked(lambda: surveys.append(analysis(root, TODAY)))
    surveyed = surveys[0]
    found["the law"] = clocked(lambda: _lawful(surveyed))
    people_index = PeopleIndex(Site(surveyed, ()))
    for name, views in _views(people_index).items():
        found[name] = clocked(lambda views=views: sum(len(sheet.html) for sheet in views()))  # type: ignore[misc]
    found["verify and all views"] = sum(found.values()) - found["read the notebook"]
    return found


def _verified(root: Path) -> None:
    for kind in ("sign-off", "practice", "trial", "measurement"):
        faults = verify(read_book(root, kind), {})
        assert not faults, faults[0].message


def _lawful(surveyed: Analysis) -> None:
    assert not surveyed.law.breaches, surveyed.law.breaches[0].message


def _views(people_index: PeopleIndex) -> dict[str, Callable[[], Iterator[Page]]]:
    nb = people_index.book.notebook

    def study() -> Iterator[Page]:
        for id_ in nb.skills:
            for sheet in (study_sheet(people_index, id_), checklist_sheet(people_index, id_)):
                if sheet is not None:
                    yield sheet

    return {
        "the hands": lambda: iter((hands_sheet(people_index),)),
        "lineage": lambda: iter((lineage_sheet(people_index),)),
        "without": lambda: iter((without_sheet(people_index),)),
        "next lessons": lambda: iter((lessons_sheet(people_index),)),
        f"{SKILLS} skills": lambda: (skill_sheet(people_index, id_) for id_ in nb.skills),
        f"{PEOPLE} people": lambda: (person_sheet(people_index, id_) for id_ in nb.people),
        "study and sheets": study,
        "changes": lambda: change_pages(people_index.book),
    }


def main() -> None:
    sizes = tuple(int(a) for a in sys.argv[1:]) or SIZES
    with tempfile.TemporaryDirectory() as name:
        found = {size: measure(size, Path(name)) for size in sizes}
    print(f"{'seconds, at entries a book':28}" + "".join(f"{size:>10}" for size in sizes) + f"{'growth':>10}")
    for key in found[sizes[0]]:
        growth = found[sizes[-1]][key] / max(found[sizes[0]][key], 1e-9)
        print(f"{key:28}" + "".join(f"{found[size][key]:>10.2f}" for size in sizes) + f"{growth:>10.2f}")
    print(f"growth no worse than linear is at most {sizes[-1] / sizes[0]:.1f}")


if __name__ == "__main__":
    main()
