"""What comforts is said only when the notebook shows it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from markupsafe import Markup

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.site import WITHOUT, Site
from site_builder.views.blocks import Gauge
from site_builder.views.notebook_view import NotebookView
from site_builder.views.scope import ProcedureScope
from site_builder.views.step import steps

TODAY = date(2026, 3, 2)


def gauge(limit: str, folder: Path) -> Gauge:
    write_example("=== procedures/cask/drive-hoop.yml\nprocedure: drive-hoop\ntitle: Drive the hoop\n"
                  f"steps:\n  - do: Drive it.\n    limits:\n      gap: {limit}\n", folder)
    view = NotebookView(analysis(folder, TODAY))
    scope = ProcedureScope(view, view.notebook.procedures["drive-hoop"])
    (found,) = [block for step in steps(scope) for block in step.blocks if isinstance(block, Gauge)]
    return found


@pytest.mark.parametrize(("limit", "told"), [
    ("{is: max 2 mm, above: Drive it again.}", "Go on."),
    ("{is: max about 2 mm, above: Drive it again.}", "Go on; the line is a rough one."),
    ("{is: perhaps max 2 mm, above: Drive it again.}", "Go on; the figure is not sure."),
    ("{is: min 1 mm; max ask, below: Drive it back.}", "Go on, as far as it is told."),
])  # fmt: skip
def test_go_on_beside_a_line_that_is_none_says_so(limit: str, told: str, tmp_path: Path) -> None:
    good = gauge(limit, tmp_path).good
    assert good is not None
    assert good.then.plain == told


@pytest.mark.parametrize(("limit", "told"), [
    ("{is: max 2 mm, guide: yes, check: each piece}", True),
    ("{is: max 2 mm, guide: yes, check: {when: each piece, fails: {do: Burn it., then: scrap}}}", False),
    ("{is: max 2 mm, guide: yes, above: {means: The cask leaks., then: scrap}}", False),
])  # fmt: skip
def test_a_guide_condemns_nothing_unless_something_follows_from_it(limit: str, told: bool, tmp_path: Path) -> None:
    how = " ".join(line.plain for line in gauge(limit, tmp_path).how)
    assert "A guide" in how
    assert ("condemns nothing" in how) is told


def without(shop: str, folder: Path) -> str:
    write_example(shop, folder)
    site = Site(analysis(folder, TODAY), ())
    html = next(page for page in hand_pages(site) if page.src_uri == WITHOUT).html
    return Markup(html).striptags().replace("\u00a0", " ")


TWO = "=== skills/people.yml\npeople: {ann: {name: Ann, founding: true}, bo: {name: Bo, founding: true}%s}\n"
SAWING = "=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\n"


def test_who_holds_nothing_is_no_comfort(tmp_path: Path) -> None:
    told = without(TWO % ", cy: {name: Cy Rask}" + SAWING, tmp_path)
    assert "Without Ann or Bo nothing would stop" in told
    assert "Cy does nothing alone yet." in told


def test_what_nobody_told_is_no_comfort(tmp_path: Path) -> None:
    rip = "=== procedures/cask/rip.yml\nprocedure: rip\ntitle: Rip the staves\nsteps: [Saw.]\n"
    told = without(TWO % "" + SAWING + rip, tmp_path)
    assert "Nothing hangs on one pair of hands" not in told
    assert "of one procedure nobody has told yet what one must hold" in told
    assert "nothing of what is told would stop" in told


def test_a_skill_that_nobody_has_is_not_one_that_two_have(tmp_path: Path) -> None:
    people = "=== skills/people.yml\npeople: {cy: {name: Cy Rask}, di: {name: Di Moe}}\n"
    told = without(people + SAWING, tmp_path)
    assert "every skill has two" not in told
    assert "Nobody does sawing alone" in told
