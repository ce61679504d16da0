"""The page of a material: its sheet outranks it, and what it must never meet stands on both pages."""

from expectation import book_of, expect, page

from site_builder.handbook.pages.material import material_sheets


def test_the_page_as_it_was_found_good() -> None:
    expect(page(material_sheets, book_of("hand-bell"), "the-tools/materials/bell-bronze.md"), "material")


def test_two_that_keep_apart_both_say_so() -> None:
    """Only the bronze has it written down."""
    oil = page(material_sheets, book_of("hand-bell"), "the-tools/materials/cutting-oil.md").html
    assert 'id="apart"' in oil
    assert "Bell bronze" in oil


def test_a_hazardous_material_without_a_sheet_sends_the_reader_for_it() -> None:
    oil = page(material_sheets, book_of("hand-bell"), "the-tools/materials/cutting-oil.md").html
    assert "No safety data sheet is named here." in oil


def test_a_disputed_value_names_both_sides() -> None:
    bronze = page(material_sheets, book_of("hand-bell"), "the-tools/materials/bell-bronze.md").html
    assert "Mira Ostry</a></i>" in bronze
    assert "Oro Lentz</a></i>" in bronze
    assert "not settled" in bronze


def test_a_doubtful_value_leads_to_its_question() -> None:
    bronze = page(material_sheets, book_of("hand-bell"), "the-tools/materials/bell-bronze.md").html
    assert "perhaps 10\u00a0years" in bronze
    assert "not sure" in bronze
