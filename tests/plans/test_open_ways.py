"""A season is planned of one way only: what is left open, or split, is said and never added up."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from site_builder.checks.example import write_example
from site_builder.cli.season import season

COOPERS = """\
=== procedures/shop.yml
shop: coopers
title: Coopers
products: {cask: Cask}
variants: {wood: [oak, chestnut]}
calendar: {days: [Monday, Tuesday, Wednesday, Thursday, Friday], hours: 7 h/day}
=== procedures/cask/raise.yml
procedure: raise
title: Raise the cask
time: {by: wood, each: {oak: 3 h, chestnut: 2 h}}
steps: Raise it.
=== procedures/orders/vintage.yml
order: vintage
title: For the vintage
product: cask
pieces: 10
due: 2027-04-30
"""


@pytest.mark.parametrize(("line", "said"), [
    ("", "nothing can be reckoned, the way it is made must be chosen (wood: oak or chestnut), not left open."),
    ("split: [{chosen: {wood: oak}, pieces: 4}]\n",
     "procedures/orders/vintage.yml:6: an order that is split is not planned in one. Write an order of its own for "
     "each share."),
])
def test_a_season_of_two_ways_says_what_to_write(tmp_path: Path, line: str, said: str) -> None:
    write_example(COOPERS + line, tmp_path)
    told = CliRunner().invoke(season, ["plan", "vintage", "-n", str(tmp_path), "--today", "2027-02-01"])
    assert told.exit_code != 0
    assert said in " ".join((told.output + told.stderr).split())
