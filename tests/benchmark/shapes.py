"""Notebooks that are large in one way: a procedure of many steps, a shop of many people, many photos."""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping
from datetime import date, timedelta
from pathlib import Path

from PIL import Image

from site_builder.skills.append import sealed_entry
from site_builder.skills.book import book_path
from site_builder.skills.entry_text import entry_text
from site_builder.skills.last import Last, write_last

BEGUN = date(1990, 1, 8)
TODAY = date(2026, 3, 2)

_SETTINGS = """\
site_name: A large shop
docs_dir: procedures
use_directory_urls: false
theme: {name: material}
plugins: [search, offline, benchlore]
validation: {nav: {omitted_files: ignore}}
"""
_SHOP = """\
shop: large
title: A large shop
products: {barrel: {title: Barrel, of: {stave: 24}}}
parts: {stave: {title: Stave, sizes: {width: 60 ±2 mm}}}
words: {croze: The groove for the head., chime: The end of a stave beyond the head.}
accident: [Stop the work., Call for help.]
"""


def many_steps(root: Path, number: int) -> None:
    """One procedure of so many steps; each leads back to an earlier one, waits for it or refers to it."""
    lines = ["procedure: raise-the-barrel", "title: Raise the barrel", "part: stave", "skill: raising",
             "tools: [drawknife]", "materials: [oak]", "time: {each: about 40 min, source: measured}", "steps:"]
    for n in range(number):
        lines += [
            f"  - id: step-{n}", f"    do: Shave the edge {n} down to the croze and look along the chime.",
            "    because: A hollow there leaks.", "    tools: [drawknife]",
            f"    points: [{{point: Keep the blade flat at edge {n}., because: It digs in where it stands up.}}]",
        ]
        if n:
            lines.append(f"    troubles: [{{sign: Edge {n} rocks., cause: It is hollow., do: Shave the high end., "
                         f"then: step-{n // 2}}}]")
        if n % 4 == 1:
            lines += ["    limits:", f"      gap {n}:", "        is: max 0.5 mm", "        check: every 5 pieces",
                      f"        above: {{do: Shave again., then: step-{n - 1}}}"]
        if n % 4 == 2:
            lines.append(f"    windows: {{rest {n}: {{after: step-{n - 1}, is: 10..{20 + n % 30} min}}}}")
        if n % 4 == 3:
            lines.append(f"    settings: {{reach of edge {n}: {10 + n % 50} mm}}")
    _write(root, "procedures/raise-the-barrel.yml", "\n".join(lines) + "\n")
    _write(root, "skills/raising.yml", "skill: raising\ntitle: Raising\ncovers: [raise-the-barrel]\n"
           "checklist: [Raises a barrel that is tight.]\n")
    _write(root, "skills/people.yml", "people:\n  anna: {name: Anna Reif, born: 1970, founding: yes}\n")
    _common(root)


def many_people(root: Path, number: int) -> None:
    """So many people, twenty skills, and a sign-off of each by the first."""
    skills = 20
    for n in range(skills):
        _write(root, f"procedures/work-{n}.yml",
               f"procedure: work-{n}\ntitle: Shave the stave {n}\npart: stave\nskill: skill-{n}\ntools: [drawknife]\n"
               f"materials: [oak]\nsteps:\n  - do: Shave edge {n}.\n    feel: {{good: It runs., bad: It catches.}}\n")
        _write(root, f"skills/skill-{n}.yml",
               f"skill: skill-{n}\ntitle: Shaving {n}\ncovers: [work-{n}]\nage: min 16 y\nchecklist: [Shaves it.]\n")
    people = ["people:\n  p0: {name: Anna Reif, born: 1940, founding: yes, hours: 35 h/week, learning: 4 h/week}\n"]
    people += [f"  p{n}: {{name: Hand Nr{n}, born: {1940 + n % 30}, joined: {1985 + n % 5}}}\n"
               for n in range(1, number)]
    _write(root, "skills/people.yml", "".join(people))
    parts, previous, on = [], "", BEGUN
    for n in range(1, number):
        on = BEGUN + timedelta(days=12000 * n // number)
        said = {"who": "p0", "date": on.isoformat(), "learner": f"p{n}", "skill": f"skill-{n % skills}",
                "level": "beside"}
        entry = sealed_entry("sign-off", n, previous, said, None)
        parts.append(entry_text(entry))
        previous = str(entry["seal"])
    _write(root, book_path("sign-off"), "".join(parts))
    write_last(root / book_path("sign-off"), Last(number - 1, previous, on.isoformat()))
    _common(root)


def many_photos(root: Path, number: int) -> None:
    """So many photos, ten to a procedure, each of its own colour and all of a small size."""
    for n in range(number):
        held = io.BytesIO()
        colour = (n % 256, n // 256 % 256, 90)
        Image.new("RGB", (160, 120), colour).save(held, "JPEG")
        file = root / "procedures" / "photos" / f"edge-{n}.jpg"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(held.getvalue())
    for n in range(0, number, 10):
        steps = "".join(
            f"  - do: Shave edge {m}.\n    pictures: [{{file: photos/edge-{m}.jpg, shows: Edge {m} as it must be.}}]\n"
            for m in range(n, min(n + 10, number)))
        _write(root, f"procedures/work-{n}.yml",
               f"procedure: work-{n}\ntitle: Shave the stave {n}\npart: stave\ntools: [drawknife]\nmaterials: [oak]\n"
               f"steps:\n{steps}")
    _common(root)


SHAPES: Mapping[str, Callable[[Path, int], None]] = {
    "steps": many_steps, "people": many_people, "photos": many_photos,
}


def _common(root: Path) -> None:
    _write(root, "mkdocs.yml", _SETTINGS)
    _write(root, "procedures/shop.yml", _SHOP)
    _write(root, "tools/drawknife.yml",
           "hand-tool: drawknife\ntitle: Drawknife\nhazards:\n  - hazard: The blade is open\n    word: caution\n"
           "    harm: It cuts the thigh.\n    avoid: Both hands on the handles.\n")
    _write(root, "tools/oak.yml", "material: oak\ntitle: Oak\n")


def _write(root: Path, path: str, text: str) -> None:
    file = root / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")
