"""``benchlore batch N --with NAME=VALUE``: the way is chosen, or all ways stand side by side."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from site_builder.checks.example import write_example
from site_builder.cli.batch import batch

PLAITERS = """\
=== procedures/shop.yml
shop: plaiters
title: Plaiters
products: {basket: Basket}
variants: {handle: [none, "two"]}
=== procedures/basket/weave.yml
procedure: weave
title: Weave the basket
materials:
  - {material: osier, by: handle, amount: {none: 600 g per piece, two: 701 g per piece}}
time: {by: handle, each: {none: 1 h, two: 90 min}}
steps: Weave it.
=== tools/materials/osier.yml
material: osier
title: Osier
"""


@pytest.fixture
def plaiters(tmp_path: Path) -> Path:
    write_example(PLAITERS, tmp_path)
    return tmp_path


def run(folder: Path, *arguments: str) -> Result:
    return CliRunner().invoke(batch, ["-n", str(folder), "--today", "2026-03-02", *arguments])


def test_both_ways_are_told_side_by_side(plaiters: Path) -> None:
    told = run(plaiters, "10").output.replace("\u00a0", " ")
    assert "It can be made in 2 ways, told one beside the other and never added up." in told
    assert "To see one of them: --with handle=none" in told
    assert told.index("== Handle none ==") < told.index("6 kg") < told.index("== Handle two ==") < told.index("7.1 kg")
    assert "13 kg" not in told


def test_the_way_that_is_chosen_stands_alone(plaiters: Path) -> None:
    told = run(plaiters, "10", "--with", "handle=two").output.replace("\u00a0", " ")
    assert "15 h of hands" in told
    assert "==" not in told


def test_programs_get_the_ways_as_a_list(plaiters: Path) -> None:
    ways = json.loads(run(plaiters, "10", "--format", "json").output)["ways"]
    assert [(one["way"], one["hands_s"]) for one in ways] == [
        ({"handle": "none"}, [36000, 36000]), ({"handle": "two"}, [54000, 54000])]
    chosen = run(plaiters, "10", "--format", "json", "--with", "handle=two")
    assert json.loads(chosen.output)["hands_s"] == [54000, 54000]


@pytest.mark.parametrize(("choices", "said"), [
    (("handle",), "`handle` is no choice. Write the name, = and the value, as `pattern=deck`."),
    (("handel=two",), "Nothing that varies is called `handel`. There is handle."),
    (("handle=three",), "`handle` is never `three`. Write --with handle=none or two."),
    (("handle=two", "handle=none"), "`handle` cannot be `two` and `none` at once. Choose one of them."),
])
def test_a_choice_that_cannot_be_made_says_what_can(plaiters: Path, choices: tuple[str, ...], said: str) -> None:
    arguments = [word for choice in choices for word in ("--with", choice)]
    found = run(plaiters, "10", *arguments)
    assert found.exit_code == 2
    assert said in " ".join(found.output.split())
