"""The mend says what is to be done; the table of values is named only where nothing else helps."""

from __future__ import annotations

from pathlib import Path

import pytest

from site_builder.checks.example import write_example
from site_builder.notebook.load import load

STEP = """=== procedures/shared/stir.yml
procedure: stir
title: Stir it
steps:
  - id: stir
    do: Stir it.
    {}
"""


@pytest.mark.parametrize(("line", "message", "mend"), [
    ("when: if it is cold", "A condition is no moment.",
     "Where it holds for one variant only, write it under `for:`, as `for: {pattern: deck}`; "
     "where the work shows it, as a `trouble` or under `unless:`."),
    ("wait: 12 foo", "`foo` is no unit we know.", "If you count in foo, add the word under `words`."),
    ("limits: {heat: up to 80 °F}", "Write `max 80 °F`.", "Write `max 80 °F`."),
    ("limits: {share: 4/7 of 6.5 l}",
     "Work it out: `about 3.71 l`. Or write it as a share of what has a name, as `4/7 of oil`.",
     "Write `about 3.71 l`."),
    ("limits: {heat: max}", "`max` what?", "Write `max 3 mm`, or `max ask`."),
    ("limits: {heat: from 18}", "`from` wants a `to`.", "Write it like `from 18 to 12 m/s`."),
    ("repeat: {times: {by: season, is: {winter: 3, summer: 2}}}", "A text stands here, not keys of its own.",
     "Write one text or value alone; what else is to be said goes under `note`."),
    ("because:\n      The wheel: it scorches.", "A text stands here, not keys of its own.",
     "A colon inside a sentence makes a key: use a dash, or put the text after `>` on the next line."),
])
def test_the_mend_of_what_cannot_be_read_says_what_to_write(line: str, message: str, mend: str, tmp_path: Path) -> None:
    write_example(STEP.replace("{}", line), tmp_path)
    assert [(one.message, one.fix) for one in load(tmp_path)[1]] == [(message, mend)]
