"""The page beside staying whole tells what a full day of each work and of each person reaches, worst first."""

from __future__ import annotations

import re
from pathlib import Path

from expectation import book_written

from site_builder.handbook.pages.staying_whole import whole_pages

SHOP = """\
=== procedures/shop.yml
shop: quay
title: Quay
=== procedures/a/saw-it.yml
procedure: saw-it
title: Saw it
tools: {TOOLS}
steps: Saw it.
=== procedures/b/grind-it.yml
procedure: grind-it
title: Grind it
tools: grinder
hazards: [{hazard: grinding dust, word: warning, harm: It stays in the lungs., avoid: Extraction on.}]
steps: Grind it.
=== tools/machines/grinder.yml
machine: grinder
title: Grinder
properties: {noise: 93 dB(A)}
=== tools/machines/saw.yml
machine: saw
title: Saw
properties: {noise: 84 dB(A)}
"""


def words(folder: Path, text: str) -> str:
    html = " ".join(sheet.html for sheet in whole_pages(book_written(text, folder)))
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html)).replace("\u00a0", " ")


def test_worst_first_with_the_caution_and_the_air(tmp_path: Path) -> None:
    told = words(tmp_path, SHOP.replace("{TOOLS}", "saw"))
    day = told[told.index("What a full day adds up to"):]
    assert day.index("Grind it") < day.index("Saw it")
    assert "93 dB(A) over eight hours limit (29 CFR 1910.95), limit value (Directive 2003/10/EC)" in day
    assert "No hearing protection is named for this work." in day
    assert "Local law and a qualified person decide what must be done" in told
    assert "Grinding dust Grind it not told" in day and "only measuring tells" in day


def test_work_that_reaches_nothing_is_only_counted(tmp_path: Path) -> None:
    told = words(tmp_path, SHOP.replace("{TOOLS}", "saw").replace("84 dB(A)", "70 dB(A)"))
    assert "1 more was reckoned and reaches no value." in told


def test_a_shop_without_exposures_has_no_such_section(tmp_path: Path) -> None:
    assert "What a full day adds up to" not in words(tmp_path, SHOP[:SHOP.index("=== procedures/a")])
