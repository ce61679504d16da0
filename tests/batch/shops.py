"""Small shops whose batches can be reckoned on the back of an envelope."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.batch.batch import CONFIDENCE, Batch, Wanted, reckon_batch
from site_builder.batch.variant import chosen_for
from site_builder.checks.example import write_example

TODAY = date(2026, 3, 2)

PEGS = """\
=== procedures/shop.yml
shop: pegs
title: Pegs
products: {peg: Peg}
=== procedures/peg/turn-peg.yml
procedure: turn-peg
title: Turn the peg
steps: Turn it.
"""


def shop(text: str, folder: Path) -> Analysis:
    """A survey of the shop written in the test."""
    write_example(text, folder)
    found = analysis(folder, TODAY)
    assert found.reading == [], found.reading
    return found


def batch(found: Analysis, product: str, pieces: int, confidence: float = CONFIDENCE) -> Batch:
    """What a batch of it takes."""
    wanted = Wanted(product, pieces, chosen_for(found.notebook, product), confidence)
    return reckon_batch(found.notebook, found.route, found.reckoning, wanted)


def pegs(lines: str, folder: Path, pieces: int = 100, confidence: float = CONFIDENCE) -> Batch:
    """A batch of pegs, turned in one procedure of which these lines tell."""
    return batch(shop(PEGS.replace("steps: Turn it.\n", lines), folder), "peg", pieces, confidence)
