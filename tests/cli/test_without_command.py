"""``benchlore without`` and ``benchlore lessons``: the words of the handbook on the terminal."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click
import pytest
from click.testing import CliRunner
from markupsafe import Markup

from site_builder.analysis.analysis import analysis
from site_builder.cli.lessons import lessons
from site_builder.cli.without import without
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.site import LESSONS, WITHOUT, Site

FORGE = Path(__file__).parent.parent / "notebooks" / "hook-forge"


def run(command: click.Command, *arguments: str) -> str:
    result = CliRunner().invoke(command, ["-n", str(FORGE), "--today", "2026-03-02", *arguments])
    assert result.exit_code == 0, result.output
    return " ".join(result.output.split())


def on_the_page(src_uri: str) -> str:
    book = Site(analysis(FORGE, date(2026, 3, 2)), ())
    sheet = next(sheet for sheet in hand_pages(book) if sheet.src_uri == src_uri)
    return " ".join(Markup(sheet.html).striptags().split())


def test_without_one_of_us() -> None:
    told = run(without, "petra")
    assert told.startswith("Without Petra Holm - Left undone: Bend the hook.")
    assert "Nobody may teach: Forging and tending the fire." in told


def test_without_somebody_who_does_nothing_alone_yet() -> None:
    assert "Without Nils Berg - Nothing is signed for them yet" in run(without, "nils")


def test_without_several_at_once() -> None:
    assert run(without, "petra", "nils").startswith("Without Petra Holm and Nils Berg - Left undone: ")


@pytest.mark.parametrize(("command", "src_uri"), [(without, WITHOUT), (lessons, LESSONS)])
def test_every_sentence_of_the_command_stands_on_the_page(command: click.Command, src_uri: str) -> None:
    page = on_the_page(src_uri)
    told = [line for line in run(command).split(" - ")[1:] if "Stops at once" not in line and " by " not in line]
    assert len(told) > 2
    for line in told:
        assert line.split(". ")[0].split(": ")[0] in page


def test_what_to_learn_next() -> None:
    told = run(lessons)
    assert "Forging: Nils from Petra: 36 h of lessons, from 17 August 2026 to 16 October 2026; then alone." in told
    assert "Tending the fire, one now: two by 8 May 2026." in told


@pytest.mark.parametrize(("person", "message"), [
    ("gerda", "`gerda` is nobody in skills/people.yml: petra, nils."),
    ("arvid", "`arvid` is not in the shop any more: nothing more is lost."),
])
def test_a_slip_of_the_pen_is_told(person: str, message: str) -> None:
    result = CliRunner().invoke(without, ["-n", str(FORGE), person])
    assert result.exit_code == 2
    assert message in " ".join(result.output.split())
