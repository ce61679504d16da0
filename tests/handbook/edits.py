"""Edits of a notebook at random, over all kinds of its files, as a hand or an editor makes them; good and bad ones."""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

_WORD = re.compile(r"[A-Za-z]{4,}")
_NUMBER = re.compile(r"\d+")

Edit = Callable[[random.Random, Path], None]


def _written(root: Path) -> list[Path]:
    return sorted(f for f in root.rglob("*") if f.suffix in (".yml", ".md", ".svg") and "records" not in f.parts)


def _in_text(change: Callable[[random.Random, str], str]) -> Edit:
    def edit(chance: random.Random, root: Path) -> None:
        file = chance.choice(_written(root))
        file.write_text(change(chance, file.read_text("utf-8")), "utf-8")
    return edit


def _one_of(pattern: re.Pattern[str], new: Callable[[random.Random, str], str]) -> Edit:
    def change(chance: random.Random, text: str) -> str:
        found = [*pattern.finditer(text)]
        if not found:
            return text
        one = chance.choice(found)
        return text[: one.start()] + new(chance, one[0]) + text[one.end() :]
    return _in_text(change)


def _line(change: Callable[[random.Random, list[str], int], list[str]]) -> Edit:
    def edit(chance: random.Random, text: str) -> str:
        lines = text.split("\n")
        return "\n".join(change(chance, lines, chance.randrange(len(lines))))
    return _in_text(edit)


def _renamed(chance: random.Random, root: Path) -> None:
    """A thing gets another id, and its file the name."""
    file = chance.choice([f for f in _written(root) if f.suffix == ".yml" and f.stem not in ("shop", "people")])
    text = file.read_text("utf-8")
    new = f"{file.stem}-{chance.randrange(9)}"
    file.unlink()
    text = re.sub(rf"(?m)^(\w[\w-]*: ){file.stem}$", rf"\g<1>{new}", text, count=1)
    file.with_name(f"{new}.yml").write_text(text, "utf-8")


def _gone(chance: random.Random, root: Path) -> None:
    files = [f for f in _written(root) if f.stem not in ("shop", "people")]
    if len(files) > 8:
        chance.choice(files).unlink()


def _moved(chance: random.Random, root: Path) -> None:
    """The same file in another folder: its page has another address."""
    file = chance.choice([f for f in (root / "procedures").rglob("*.yml") if f.stem != "shop"])
    target = root / "procedures" / chance.choice(["bell", "shared", "elsewhere"]) / file.name
    target.parent.mkdir(exist_ok=True)
    file.rename(target)


def _copied(chance: random.Random, root: Path) -> None:
    file = chance.choice([f for f in (root / "procedures").rglob("*.yml") if f.stem != "shop"])
    new = f"{file.stem}-too"
    text = file.read_text("utf-8").replace(f"procedure: {file.stem}", f"procedure: {new}", 1)
    file.with_name(f"{new}.yml").write_text(text, "utf-8")


def _signed(chance: random.Random, root: Path) -> None:
    """Somebody is signed for something, or an entry is taken back, by whoever it may be."""
    book = root / "skills" / "records" / "sign-offs.yml"
    text = book.read_text("utf-8") if book.exists() else ""
    number = text.count("sign-off:") + 1
    people = re.findall(r"(?m)^  ([a-z]+):", (root / "skills" / "people.yml").read_text("utf-8")) or ["a"]
    skills = [f.stem for f in (root / "skills").glob("*.yml") if f.stem != "people"] or ["a"]
    level = chance.choice(["watches", "beside", "within call", "alone", "teaches"])
    what = f"withdraws: {chance.randrange(1, number + 1)}\nbecause: A mistake." if chance.random() < 0.2 else (
        f"learner: {chance.choice(people)}\nskill: {chance.choice(skills)}\nlevel: {level}")
    book.parent.mkdir(exist_ok=True)
    entry = f"---\nsign-off: {number}\nwho: {chance.choice(people)}\ndate: 2026-0{chance.randrange(1, 9)}-11\n{what}\n"
    book.write_text(text.rstrip("\n") + "\n" + entry, "utf-8")


def _pictured(chance: random.Random, root: Path) -> None:
    """A drawing comes, changes or lies beside its file all of a sudden, and a step shows it."""
    photos = root / "procedures" / chance.choice(["photos", "bell"])
    photos.mkdir(exist_ok=True)
    size = chance.randrange(10, 90)
    (photos / "shape.svg").write_text(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size} 9"/>', "utf-8")
    file = chance.choice([f for f in (root / "procedures").rglob("*.yml") if f.stem != "shop"])
    text = file.read_text("utf-8")
    shown = text.replace("\n  - do: ", "\n  - pictures: {file: shape.svg, shows: Its shape}\n    do: ", 1)
    file.write_text(text if "shape.svg" in text else shown, "utf-8")


def _told(chance: random.Random, root: Path) -> None:
    stories = root / "procedures" / "stories"
    stories.mkdir(exist_ok=True)
    (stories / f"story-{chance.randrange(3)}.md").write_text(f"# A story {chance.random()}\n\n[[lathe]]\n", "utf-8")


EDITS: tuple[Edit, ...] = (
    _one_of(_NUMBER, lambda chance, _: str(chance.randrange(1, 90))),
    _one_of(_WORD, lambda chance, word: chance.choice([word.upper(), word[::-1], "lathe", "ask", "[[cast-bell]]"])),
    _one_of(re.compile(r"(?m)^title: .*$"), lambda _, line: f"{line} anew"),
    _one_of(re.compile(r"(?m)(?<=do: ).+$"), lambda _chance, _: "Do it like [[turn-bell]], on the [[lathe]]."),
    _line(lambda _, lines, n: lines[:n] + lines[n + 1 :]),
    _line(lambda _, lines, n: [*lines[:n], lines[n], *lines[n:]]),
    _line(lambda _, lines, n: [*lines[:n], "# a note to the next one", *lines[n:]]),
    _one_of(re.compile(r"(?m)^steps:$"), lambda _, line: f"{line}\n  - do: Put the apron on."),
    _one_of(re.compile(r"(?m)^words:$"), lambda _, line: f"{line}\n  lip: The edge of a bell."),
    _renamed, _gone, _moved, _copied, _signed, _signed, _pictured, _told,
)


def edited(chance: random.Random, root: Path) -> str:
    """One edit; what it was called."""
    edit = chance.choice(EDITS)
    edit(chance, root)
    return getattr(edit, "__qualname__", "edit")


def copy_of(source: Path, target: Path) -> Path:
    """A copy of a notebook to be edited."""
    return Path(shutil.copytree(source, target))
