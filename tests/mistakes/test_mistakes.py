"""Of the mistakes that can be known, nineteen in twenty are named at their place, and no fix leads astray.

One of each kind is made here, in one of the small notebooks; `make mistakes` makes them all, in the demo too.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from zlib import crc32

import pytest

from tests.mistakes.__main__ import share, told
from tests.mistakes.kind import Kind
from tests.mistakes.notebooks import Copy, copies
from tests.mistakes.tables import CLASSES
from tests.mistakes.trial import Outcome, Trial, try_out

KINDS = [kind for kinds in CLASSES.values() for kind in kinds]


@pytest.fixture(scope="module")
def notebooks(tmp_path_factory: pytest.TempPathFactory) -> list[Copy]:
    return list(copies(tmp_path_factory.mktemp("notebooks")))


@pytest.fixture(scope="module")
def sample(notebooks: list[Copy]) -> list[Trial]:
    """Each kind once, in a small notebook that has room for it; which one is told by its name."""
    small = [copy for copy in notebooks if copy.name != "demo"]
    return [trial for kind in KINDS for trial in _once(kind, small)]


def _once(kind: Kind, notebooks: list[Copy]) -> Iterator[Trial]:
    chance = crc32(kind.what.encode())
    for copy in notebooks[chance % len(notebooks) :] + notebooks[: chance % len(notebooks)]:
        made = list(kind.made_in(copy.files))
        if made:
            yield try_out(kind, made[chance % len(made)], copy)
            return


def test_there_are_kinds_enough_and_each_is_told_apart() -> None:
    assert len(KINDS) >= 200
    assert [what for what, count in Counter(kind.what for kind in KINDS).items() if count > 1] == []


def test_every_kind_finds_room_in_some_notebook(notebooks: list[Copy]) -> None:
    without = [kind.what for kind in KINDS if not any(any(True for _ in kind.made_in(c.files)) for c in notebooks)]
    assert without == []


def test_what_can_be_known_is_named_at_its_place(sample: list[Trial]) -> None:
    counts = Counter(trial.outcome for trial in sample)
    missed = [told(trial) for trial in sample if trial.outcome in (Outcome.BITES, Outcome.SILENT)]
    assert counts.total() >= 200
    assert share(counts) >= 95, "\n".join(missed)


def test_no_fix_leads_astray(sample: list[Trial]) -> None:
    assert [told(trial) for trial in sample if trial.outcome is Outcome.ASTRAY] == []


def test_a_mistake_is_undone_after_it_was_tried(notebooks: list[Copy]) -> None:
    copy = notebooks[0]
    path, text = next(iter(copy.files.items()))
    copy.found_with(path, "")
    assert (copy.folder / path).read_text("utf-8") == text
