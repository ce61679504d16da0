"""The guide for writers and the catalogue of rules: nothing in them may rot."""

import re
from pathlib import Path

import pytest
from click import Context
from expectation import TODAY, book_of, page

from site_builder.analysis.analysis import analysis
from site_builder.batch.returns import HELD, POURED
from site_builder.checks.engine import examine
from site_builder.checks.known_names import TOPICS
from site_builder.checks.rules import RULES
from site_builder.cli.main import cli
from site_builder.figures.at_machines import EXPOSURES, RUNNING_TIME
from site_builder.figures.breathed import LIMIT, MEASURED
from site_builder.figures.charges import RETURNS
from site_builder.figures.coating import AREAS as PAINTED
from site_builder.figures.coating import LOSS, SOLIDS, THINNER, WET
from site_builder.figures.fastenings import ENGAGEMENT, THREAD, TORQUE
from site_builder.figures.grits import GRIT
from site_builder.figures.hearing import RATINGS
from site_builder.figures.lifts import BETWEEN, HEIGHT, LIFT, REACH, TWIST
from site_builder.figures.mixes import POT_LIFE, ROOM
from site_builder.figures.moulds import MOULD_HEAT
from site_builder.figures.plating import AREAS as PLATED
from site_builder.figures.plating import CURRENT, EFFICIENCY, METAL, TIME
from site_builder.figures.plating_orders import CLASS_NAMES
from site_builder.figures.shells import DISCS, PROFILE, SHAPE, TRIM
from site_builder.figures.spinning import GAP
from site_builder.figures.worn import LEAST, SIZE
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.catalogue import GROUPS, catalogue_pages
from site_builder.handbook.pages.keys import FAMILIES, key_pages, name_of, places
from site_builder.handbook.pages.writers import right_row, writer_pages, wrong_row
from site_builder.handbook.pages.writers_examples import COMMANDS, GROWING, TEN_LINES, WRONG
from site_builder.handbook.site import CATALOGUE, NAMES, WRITERS
from site_builder.notebook.finding import Level
from site_builder.notebook.kinds import RECORD_KINDS, models
from site_builder.notebook.schema import ring_of
from site_builder.quantity import bounds, parse_value


def test_the_ten_lines_are_a_sound_procedure(tmp_path: Path) -> None:
    assert len(TEN_LINES.splitlines()) <= 10
    file = tmp_path / "procedures" / "foot" / "grind-foot.yml"
    file.parent.mkdir(parents=True)
    file.write_text(TEN_LINES, "utf-8")
    (tmp_path / "procedures" / "shop.yml").write_text("shop: s\ntitle: S\nparts: {foot: Foot}\n", "utf-8")
    found = examine(analysis(tmp_path, TODAY))
    assert [f for f in found if f.level is Level.ERROR] == []
    assert [f for f in found if f.level is Level.QUESTION] != []


def test_growing_changes_no_meaning(tmp_path: Path) -> None:
    speeds = []
    for n, text in enumerate(GROWING.strip().split("\n\n")):
        folder = tmp_path / str(n)
        (folder / "procedures").mkdir(parents=True)
        (folder / "procedures" / "p.yml").write_text(f"procedure: p\ntitle: P\nsteps: [Go.]\n{text}\n", "utf-8")
        loaded = analysis(folder, TODAY)
        assert loaded.reading == []
        (limit,) = loaded.notebook.procedures["p"].settings["belt speed"]
        assert limit.written is not None
        speeds.append(limit.written.value)
    assert len(speeds) == 3
    assert speeds[0] == speeds[1] == speeds[2]


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("min 3 min", "at least 3 min"),
        ("aim 45 µm; min 30; max 70", "aim at 45 µm, at least 30 µm, at most 70 µm"),
        ("12..30 °C", "12 to 30 °C"),
        ("ask", "not told yet"),
    ],
)
def test_what_a_page_says_of_a_value(written: str, said: str) -> None:
    assert right_row(written)[1].plain.replace("\u00a0", " ").startswith(said)


def test_every_refused_example_says_why() -> None:
    context = PageContext(book_of("hook-forge"), WRITERS)
    for text in WRONG:
        said = wrong_row(context, text)[1].plain
        assert len(said) > len(text)


def test_a_sound_value_among_the_refused_ones_is_noticed() -> None:
    with pytest.raises(ValueError, match=re.escape("`25 mm` wrong, but it is read as `25 mm`")):
        wrong_row(PageContext(book_of("hook-forge"), WRITERS), "25 mm")


def test_every_command_of_the_guide_is_one() -> None:
    ours = [command.split()[1] for command, _ in COMMANDS if command.startswith("benchlore ")]
    assert set(ours) <= set(cli.list_commands(Context(cli)))
    told = page(writer_pages, book_of("hook-forge"), WRITERS).html
    assert all(f"benchlore {name}" in told for name in ours)


def test_every_kind_of_file_has_its_keys_explained() -> None:
    explained = {name_of(model) for model in places()}
    assert set(models()) | set(RECORD_KINDS) <= explained


def test_no_key_is_without_help() -> None:
    for family in FAMILIES:
        html = page(key_pages, book_of("hook-forge"), family.src_uri).html
        assert re.findall(r'<code>([^<]+)</code></th><td data-label="What it says">\s*</td>', html) == []


def test_every_key_stands_in_the_ring_of_the_schema() -> None:
    html = page(key_pages, book_of("hook-forge"), FAMILIES[0].src_uri).html
    procedure = html[html.index('id="key-procedure"') : html.index('id="key-step"')]
    tables = procedure.split("<caption>")[1:]
    for ring, table in enumerate(tables):
        keys = re.findall(r'<th scope="row"><code>([^<]+)</code>', table)
        assert {ring_of(models()["procedure"], key) for key in keys} == {ring}
    assert "procedure" in tables[0]


def test_links_between_the_keys_lead_somewhere() -> None:
    sheets = {sheet.src_uri.removesuffix(".md"): sheet.html for sheet in key_pages(book_of("hook-forge"))}
    for at, html in sheets.items():
        for page_name, anchor in re.findall(r'href="([\w-]*)(?:\.html)?#([\w-]+)"', html):
            target = sheets[f"for-writers/{page_name}"] if page_name else sheets[at]
            assert f'id="{anchor}"' in target, (at, page_name, anchor)


def test_the_catalogue_holds_every_rule_with_both_examples() -> None:
    html = page(catalogue_pages, book_of("hook-forge"), CATALOGUE).html
    assert [rule.code for _, _, rules in GROUPS for rule in rules] == [rule.code for rule in RULES]
    for rule in RULES:
        assert html.count(f'<h3 id="{rule.code}">') == 1
    assert html.count("Found here") == html.count("Not found here") == len(RULES)


def test_what_a_rule_finds_is_marked_and_the_sign_is_gone() -> None:
    html = page(catalogue_pages, book_of("hook-forge"), CATALOGUE).html
    assert "<mark>limitz</mark>: {flatness: max 0.1 mm}" in html
    assert "▸" not in html


def test_every_example_of_a_known_name_has_the_unit_that_is_asked_for() -> None:
    for known in (one for names in TOPICS.values() for one in names if one.kinds):
        found = bounds(parse_value(known.example))
        assert found is not None and found.kind in known.kinds, known.name


def test_no_name_stands_twice_in_the_table() -> None:
    names = [one.name for found in TOPICS.values() for one in found]
    assert len(names) == len(set(names))


def test_the_names_that_figures_look_for_are_told() -> None:
    """What the chapters look for by name is in the table from which the page is made."""
    told = {one.name for found in TOPICS.values() for one in found}
    constants = {*POURED, *HELD, MOULD_HEAT[0], RETURNS, CURRENT, TIME, EFFICIENCY, METAL, CLASS_NAMES[0], PLATED[0],
                 SOLIDS, WET, THINNER, LOSS, PAINTED[0], POT_LIFE, ROOM, PROFILE, SHAPE, TRIM, DISCS[0], GAP, GRIT,
                 *RATINGS, *EXPOSURES, RUNNING_TIME, LIMIT, MEASURED, LIFT, REACH, HEIGHT, TWIST, BETWEEN, TORQUE,
                 THREAD, ENGAGEMENT, SIZE, LEAST}
    assert constants <= told
    html = page(writer_pages, book_of("hook-forge"), NAMES).html
    for one in (known for found in TOPICS.values() for known in found):
        assert f"<code>{one.name}: {one.example}</code>" in html
