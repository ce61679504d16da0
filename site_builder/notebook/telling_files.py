"""The files of tellings: where they lie, and the transcripts read."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable
from hashlib import blake2b
from pathlib import Path
from typing import NamedTuple

from site_builder.notebook.finding import At, Finding, Level
from site_builder.notebook.model.telling import Telling
from site_builder.notebook.picture_paths import PHOTOS, inside
from site_builder.notebook.reader import decode, read_bytes
from site_builder.tellings.cue import Transcript, TranscriptError
from site_builder.tellings.transcript import read_transcript


def telling_file(root: Path, telling: Telling, name: str) -> Path | None:
    """The recording or transcript of this name: beside the telling, else under ``procedures/photos/``.

    None where no such file lies within the notebook.
    """
    for folder in (posixpath.dirname(telling.at.path), PHOTOS):
        file = root / folder / name
        if inside(root, file):
            return file
    return None


class ReadTranscript(NamedTuple):
    """A transcript as it was read, where it lies, the digest of its bytes, and what was wrong with it."""

    path: str
    transcript: Transcript | None
    digest: str
    findings: list[Finding]


def read_transcripts(root: Path, tellings: Iterable[Telling]) -> dict[str, ReadTranscript]:
    """By the id of the telling; those whose file is not there are left out."""
    found: dict[str, ReadTranscript] = {}
    for telling in tellings:
        file = None if telling.transcript is None else telling_file(root, telling, str(telling.transcript))
        if file is not None:
            found[str(telling.id)] = _read(root, file)
    return found


def _read(root: Path, file: Path) -> ReadTranscript:
    path = file.relative_to(root).as_posix()
    data, problem = read_bytes(file, path)
    if data is None:
        return ReadTranscript(path, None, "", [] if problem is None else [problem])
    digest = blake2b(data, digest_size=16).hexdigest()
    text, findings = decode(data, path)
    if findings:
        return ReadTranscript(path, None, digest, findings)
    try:
        return ReadTranscript(path, read_transcript(text), digest, [])
    except TranscriptError as error:
        told = Finding(At(path, error.line, 1), "transcript-broken", Level.ERROR, error.message, error.fix)
        return ReadTranscript(path, None, digest, [told])
