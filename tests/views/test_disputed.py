"""What two people say otherwise, and nobody has settled: told as that, whether the value is left out or asked for."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.site import Site
from tests.handbook.visible_text import WHOLE, visible

SHOP = """=== procedures/shared/boil.yml
procedure: boil
title: Boil it
steps:
  - do: Boil it.
    limits:
      heat: {is: ask, said: [{who: anna, is: 80 °C}, {who: bo, is: 90 °C}]}
=== skills/people.yml
people: {anna: Anna Ek, bo: Bo Alm}
"""


@pytest.mark.parametrize("asked", ["is: ask, ", ""])
def test_it_is_not_settled_and_not_untold(asked: str, tmp_path: Path) -> None:
    write_example(SHOP.replace("is: ask, ", asked), tmp_path)
    page = next(iter(procedure_pages(Site(analysis(tmp_path, date(2026, 11, 25)), ()))))
    told = " ".join(visible(page.html)[WHOLE].split())
    assert "80 °C" in told and "90 °C" in told and "not settled" in told
    assert "Settled" not in told and "not told yet" not in told[told.index("Heat"):told.index("not settled")]
