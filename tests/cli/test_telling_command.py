"""``benchlore telling``: suggestions for a transcript, and taking it in."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from site_builder.analysis.analysis import analysis
from site_builder.cli import recogniser
from site_builder.cli.telling import telling

NOTEBOOK = Path(__file__).parent.parent / "notebooks/telling"
SAID = """WEBVTT

00:01.000 --> 00:04.000
Never weave with a rod that creaks, because it breaks.

00:05.000 --> 00:08.000
It stands for a good two hours.

00:08.000 --> 00:09.000
No, three hours, not two.
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    shutil.copytree(NOTEBOOK, tmp_path / "shop")
    (tmp_path / "said.vtt").write_text(SAID, "utf-8")
    return tmp_path / "shop"


def run(shop: Path, *args: str) -> tuple[int, str]:
    result = CliRunner().invoke(telling, ["-n", str(shop), *args])
    return result.exit_code, result.output


def test_what_a_transcript_suggests(shop: Path) -> None:
    code, out = run(shop, str(shop.parent / "said.vtt"))
    assert code == 0
    assert "→ never, reason" in out
    assert "min 2 h (taken back)" in out and "3 h; 2 h (taken back); takes back c002" in out


def test_it_is_taken_in_once_and_nothing_is_written_over(shop: Path) -> None:
    said = str(shop.parent / "said.vtt")
    code, out = run(shop, said, "--into", "creaking", "--teller", "mab", "--title", "Mab: what creaks")
    assert code == 0 and "Written: procedures/tellings/creaking.vtt and procedures/tellings/creaking.yml." in out
    assert (shop / "procedures/tellings/creaking.yml").read_text("utf-8") == (
        "telling: creaking\ntitle: 'Mab: what creaks'\nteller: mab\ntranscript: creaking.vtt\n")
    surveyed = analysis(shop, date(2026, 11, 24))
    assert surveyed.reading == [] and len(surveyed.coverage["creaking"].of("open")) == 3
    code, out = run(shop, said, "--into", "creaking")
    assert code == 2 and "procedures/tellings/creaking.vtt is there already" in out


def test_a_telling_of_the_notebook_shows_what_is_open(shop: Path) -> None:
    code, out = run(shop, "soaking", "--open")
    assert code == 0 and "c005  0:16  open" in out and "c001" not in out


@pytest.mark.parametrize(("args", "words"), [
    (("soakin",), "neither a file nor a telling of this notebook. Its tellings are: soaking."),
    (("SAID", "--into", "Not A Name"), "is no name"),
    (("SAID", "--into", "creaking", "--teller", "nobody"), "is nobody in skills/people.yml: mab, tor."),
])
def test_what_cannot_be_is_said(shop: Path, args: tuple[str, ...], words: str) -> None:
    code, out = run(shop, *(str(shop.parent / "said.vtt") if one == "SAID" else one for one in args))
    assert code == 2 and words in " ".join(out.split())
    assert not (shop / "procedures/tellings/creaking.yml").exists()


def test_a_broken_transcript_says_where(shop: Path) -> None:
    (shop.parent / "said.vtt").write_text(SAID.replace("00:04.000", "later"), "utf-8")
    code, out = run(shop, str(shop.parent / "said.vtt"))
    assert code == 2 and "said.vtt:3:" in "".join(out.split())


class Recogniser:
    """As somebody's own package would bring it."""

    name = "ours"

    def load(self) -> object:
        return lambda recording: SAID if recording.name == "said.wav" else 1 / 0


def test_without_a_recogniser_a_recording_is_asked_to_be_written_down(shop: Path) -> None:
    code, out = run(shop, str(shop / "procedures/tellings/soaking.wav"))
    assert code == 2 and "no program that writes down speech is installed here" in " ".join(out.split())


def test_a_recogniser_that_is_installed_is_asked(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(recogniser, "installed", lambda: (Recogniser(),))
    (shop / "said.wav").write_bytes(b"RIFF")
    code, out = run(shop, str(shop / "said.wav"), "--into", "creaking")
    assert code == 0 and "procedures/tellings/creaking.vtt" in out
    (shop / "other.wav").write_bytes(b"RIFF")
    code, out = run(shop, str(shop / "other.wav"))
    assert code == 2 and "`ours` could not write down `other.wav`: division by zero" in " ".join(out.split())
