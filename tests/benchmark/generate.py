"""A notebook of any size, of random trade words, with tools, materials, skills and cross-links."""

from __future__ import annotations

import random
from pathlib import Path

VERBS = ("Grind", "File", "Turn", "Press", "Clamp", "Wipe", "Lift", "Draw", "Sweep", "Scrape", "Heat", "Quench",
         "Sand", "Polish", "Gauge", "Mark")
NOUNS = ("edge", "sole", "rim", "seat", "post", "plate", "ring", "bore", "face", "shoulder", "wheel", "guard",
         "belt", "lamp", "tray", "rack")
REASONS = (
    "a hollow there shows only under the paint", "the next one gauges from it", "metal taken off cannot be put back",
    "the belt bites harder where it runs on", "a cold piece tells the finger less",
)
PER_FOLDER = 25


def generate(root: Path, procedures: int, seed: int = 7) -> None:
    """Write a notebook of this many procedures of ten steps each into ``root``."""
    dice = random.Random(seed)
    tools, materials, skills = max(10, procedures // 20), max(5, procedures // 50), max(5, procedures // 40)
    folders = max(1, procedures // PER_FOLDER)
    _shop(root, folders)
    for number in range(tools):
        _write(root, f"tools/tool-{number}.yml", _tool(dice, number))
    for number in range(materials):
        _write(root, f"tools/material-{number}.yml", _material(dice, number))
    for number in range(skills):
        _write(root, f"skills/skill-{number}.yml", _skill(number, skills, procedures))
    _write(root, "skills/people.yml", "people:\n" + "".join(
        f"  person-{n}:\n    name: Person {n}\n    born: {1960 + n}\n    founding: yes\n" for n in range(8)))
    for number in range(procedures):
        _write(root, f"procedures/part-{number % folders}/procedure-{number}.yml",
               _procedure(dice, number, folders, tools, materials, skills))
    _write(root, "mkdocs.yml", _SETTINGS)


_SETTINGS = """\
site_name: A large shop
docs_dir: procedures
use_directory_urls: false
theme: {name: material}
plugins: [search, offline, benchlore]
validation: {nav: {omitted_files: ignore}}
"""


def _shop(root: Path, folders: int) -> None:
    numbers = range(folders)
    parts = "".join(f"  part-{n}:\n    title: Part {n}\n    sizes: {{height: {20 + n} ±0.2 mm}}\n" for n in numbers)
    of = "".join(f"      part-{n}: 1\n" for n in numbers)
    words = "".join(f"  {noun}: What we call the {noun} of a piece.\n" for noun in NOUNS[:12])
    _write(root, "procedures/shop.yml",
           f"shop: large\ntitle: A large shop\nproducts:\n  whole:\n    title: The whole\n    of:\n{of}parts:\n{parts}"
           f"words:\n{words}accident: [Stop the machine., Call for help.]\n")


def _tool(dice: random.Random, number: int) -> str:
    kind = ("machine", "hand-tool", "gauge")[number % 3]
    return (
        f"{kind}: tool-{number}\ntitle: {dice.choice(NOUNS).capitalize()} tool {number}\n"
        f"properties: {{noise: {dice.randint(70, 95)} dB(A), mass: {dice.randint(1, 90)} kg}}\n"
        "hazards:\n  - hazard: It draws in what hangs loose\n    word: warning\n"
        f"    harm: A sleeve is gone before the hand can follow.\n    avoid: Sleeves up, number {number}.\n"
    )


def _material(dice: random.Random, number: int) -> str:
    return (f"material: material-{number}\ntitle: Metal number {number}\n"
            f"properties: {{density: {dice.randint(60, 85) / 10} g/cm³}}\n")


def _skill(number: int, skills: int, procedures: int) -> str:
    covers = ", ".join(f"procedure-{n}" for n in range(number, procedures, skills))
    return (f"skill: skill-{number}\ntitle: Skill {number}\ncovers: [{covers}]\n"
            "checklist: [Names what can hurt., Finds a hollow on the plate.]\n")


def _procedure(
    dice: random.Random, number: int, folders: int, tools: int, materials: int, skills: int
) -> str:
    earlier = number - folders
    lines = [
        f"procedure: procedure-{number}", f"title: {dice.choice(VERBS)} the {dice.choice(NOUNS)} {number}",
        f"part: part-{number % folders}", f"skill: skill-{number % skills}",
        f"because: {dice.choice(REASONS).capitalize()}.",
        f"tools: [tool-{dice.randrange(tools)}, tool-{dice.randrange(tools)}]",
        f"materials: [material-{dice.randrange(materials)}]",
        f"time: {{setup: {dice.randint(5, 40)} min, each: about {dice.randint(2, 30)} min, source: measured}}",
    ]
    if earlier >= 0:
        lines.append(f"after: procedure-{earlier}")
    lines.append("steps:")
    for step in range(10):
        lines += _step(dice, step, number)
    lines += ["revisions:", "  - {date: 2024-02-11, who: person-1, what: Timed over forty pieces.}"]
    return "\n".join(lines) + "\n"


def _step(dice: random.Random, step: int, number: int) -> list[str]:
    noun, other = dice.choice(NOUNS), dice.choice(NOUNS)
    lines = [
        f"  - id: step-{step}",
        f"    do: {dice.choice(VERBS)} the {noun} along the {other}, as on [[procedure-{dice.randrange(number + 1)}]].",
        f"    points: [{{point: Keep the {other} clear., because: {dice.choice(REASONS)}.}}]",
    ]
    if step % 3 == 0:
        lines.append(f"    settings: {{speed of the {noun}: {dice.randint(5, 30)} m/s}}")
    if step % 3 == 1:
        size = f"{dice.randint(5, 90)} ±0.{dice.randint(1, 9)} mm"
        lines += ["    limits:", f"      {noun} {step}:", f"        is: {size}", "        check: every 10 pieces",
                  "        above: {do: Take one more pass., then: step-0}"]
    if step % 5 == 2:
        lines.append(f"    feel: {{sense: touch, good: The {noun} runs over., bad: It catches., where: the thumb}}")
    if step % 5 == 4:
        lines.append("    troubles: [{sign: It rocks., cause: The belt is worn., do: Change the belt., then: step-0}]")
    return lines


def _write(root: Path, path: str, text: str) -> None:
    file = root / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")
