"""A telling brought to the desk: its words and its voice laid into the notebook, once it is known who agreed."""

from __future__ import annotations

import io
import os
from dataclasses import dataclass
from pathlib import Path

from site_builder.amend import Amendment, Change, Plain, clean, id_for, look_up, tree_in
from site_builder.notebook.atomic import write_new
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reader import decode
from site_builder.pictures.recordings import hushed
from site_builder.tellings.cue import TranscriptError
from site_builder.tellings.transcript import read_transcript

FOLDER = "procedures/tellings"
ENDINGS = (".m4a", ".mp3", ".wav", ".ogg", ".webm", ".flac", ".opus")
AGREED, DECLINED, LATER = "agreed", "declined", "later"


class NotBrought(Exception):
    """It cannot be taken in; says why, and at which field."""

    def __init__(self, field: str, why: str) -> None:
        super().__init__(why)
        self.field = field


@dataclass(frozen=True, slots=True)
class Brought:
    """What the form brought. ``agrees``: what whoever tells said of being heard in the handbook."""

    title: str
    words: bytes
    teller: str = ""
    date: str = ""
    place: str = ""
    voice: bytes = b""
    voice_name: str = ""
    agrees: str = ""


def brought(root: Path, book: Notebook, form: Brought) -> tuple[str, Amendment]:
    """Lay the words and the voice beside each other under names of our own; the telling's name, and the amendment that
    begins its file. Nothing is copied before it is known what whoever tells said. Raises NotBrought, OSError.
    """
    title = " ".join(clean(form.title).split())
    if not title:
        raise NotBrought("title", "Say in a line what is told.")
    text = _words(form.words)
    ending = _ending(form) if form.voice else ""
    if form.voice and form.agrees not in (AGREED, DECLINED, LATER):
        raise NotBrought("agrees", "Ask first whether whoever is heard agrees. The recording is not copied before.")
    if form.voice and not form.teller:
        raise NotBrought("teller", "Say whose voice it is.")
    known = set(book.tellings)
    name = id_for(title, known, "telling")
    while (root / FOLDER / f"{name}.yml").exists() or (root / FOLDER / f"{name}.vtt").exists():
        known.add(name)
        name = id_for(title, known, "telling")
    words = f"{name}{'.vtt' if '-->' in text else '.txt'}"
    if not write_new(root / FOLDER / words, text):
        raise NotBrought("words", "Somebody brought a telling of this name meanwhile. Try again.")
    tree: dict[str, Plain] = {"telling": name, "title": title}
    tree |= {key: value for key, value in (("teller", form.teller), ("transcript", words)) if value}
    if form.voice:
        _put(root / FOLDER / f"{name}{ending}", form.voice)
        tree["recording"] = f"{name}{ending}"
    place = " ".join(clean(form.place).split())
    tree |= {key: value for key, value in (("date", form.date), ("place", place)) if value}
    changes = [Change(f"{FOLDER}/{name}.yml", (), None, tree)]
    if form.voice and form.agrees in (AGREED, DECLINED):
        changes += agreement(root, book, form.teller, form.agrees)
    return name, Amendment(f"A telling: {title}", tuple(changes))


def agreement(root: Path, book: Notebook, who: str, answer: str) -> list[Change]:
    """Somebody agreed, or did not, that the handbook plays their voice; nothing where it is known already."""
    shop = book.shop
    if shop is None:
        return []
    file = str(shop.at.path)
    held = look_up(tree_in(root, file) or {}, ("recordings",))
    if not isinstance(held, dict):
        first: Plain = {answer: [who]} if held is None else {"show": held, answer: [who]}
        return [Change(file, ("recordings",), held, first)]
    stands = held.get(answer)
    old = stands if isinstance(stands, list) else [] if stands in (None, "") else [str(stands)]
    return [] if who in old else [Change(file, ("recordings", answer), stands, [*old, who])]


def _words(data: bytes) -> str:
    text, found = decode(data, "the words")
    if found:
        raise NotBrought("words", f"{found[0].message} {found[0].fix}")
    try:
        read_transcript(text)
    except TranscriptError as error:
        raise NotBrought("words", f"Line {error.line}: {error.message} {error.fix}") from None
    return text


def _ending(form: Brought) -> str:
    ending = Path(form.voice_name).suffix.lower()
    if ending not in ENDINGS or hushed(io.BytesIO(form.voice), len(form.voice)).problem is not None:
        raise NotBrought(
            "voice", "This is no recording that every browser can play. Bring it as m4a, mp3, wav, ogg or webm.")
    return ending


def _put(file: Path, data: bytes) -> None:
    beside = file.with_name(f".coming-{file.name}")
    try:
        with beside.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        beside.rename(file)
    finally:
        beside.unlink(missing_ok=True)
