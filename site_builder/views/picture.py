"""Pictures, films and sounds with their marks."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from site_builder.notebook.model import picture as model
from site_builder.notebook.model.harm import Point
from site_builder.notebook.model.picture import Picture
from site_builder.views.blocks import PictureMark, Pictures, Shot
from site_builder.views.prose import Prose, joined, prose
from site_builder.views.scope import Scope


def pictures(scope: Scope, found: Iterable[Picture]) -> Pictures | None:
    """One under the other."""
    told = shots(scope, found)
    return Pictures(shots=told) if told else None


def shots(scope: Scope, found: Iterable[Picture]) -> tuple[Shot, ...]:
    """Each of several."""
    return tuple(shot(scope, picture) for picture in found)


def shot(scope: Scope, picture: Picture) -> Shot:
    """One picture with its marks."""
    file = str(picture.file)
    alt = scope.view.plain(picture.shows) if picture.shows else Path(file).stem.replace("-", " ")
    marks = tuple(PictureMark(*mark.spot, _mark(scope, mark)) for mark in picture.marks)
    tail = (scope.inline_why(picture), *scope.tail(picture.with_changes(note=None)))
    return Shot(file, scope.view.picture_file(picture), alt, scope.words(picture.shows), scope.words(picture.note),
                marks, tuple(filter(None, tail)), scope.only(picture))


def _mark(scope: Scope, mark: model.Mark) -> Prose:
    told = scope.words(mark.note) if mark.note is not None else prose("marked, not told why")
    return scope.meant(mark, joined((told, scope.inline_why(mark), *scope.tail(mark.with_changes(note=None)))))


def point_pictures(scope: Scope, points: Iterable[Point]) -> Pictures | None:
    """The pictures of several key points."""
    return pictures(scope, [picture for point in points for picture in point.pictures])
