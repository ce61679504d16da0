"""Nothing that a notebook holds is lost: each text and each condition stands on the page to which it belongs."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from every_text import NOT_SHOWN, every_text, write
from expectation import TODAY
from visible_text import WHOLE, visible

from site_builder.analysis.analysis import analysis
from site_builder.handbook.pages import MAKERS
from site_builder.handbook.site import UNWRITTEN, WORDS, Site
from site_builder.notebook.kinds import models
from site_builder.notebook.load import load
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.schema import _all_models as all_models

_TOOLS = ("machine", "hand-tool", "gauge", "tooling", "protection", "sample")
_SCATTERED = ("shop",)
"""What the shop lays down stands on many pages; its products, its accidents and its words each have one."""




def pages_of(site: Site) -> Mapping[str, str]:
    """What is visible on every page but those that tell what is wrong or still to be asked."""
    made = (page for make in MAKERS for page in make(site))
    return {page.src_uri: visible(page.html)[WHOLE].lower() for page in made if "unwritten" not in page.src_uri}


def where_told(site: Site, kind: str, pages: Mapping[str, str]) -> tuple[str, ...]:
    """The pages on which a reader looks for what stands in the file of this kind."""
    if kind in _SCATTERED:
        return tuple(pages)
    if kind == "people":
        return (site.addresses["person", "anna"], WORDS)
    own = site.addresses["tool" if kind in _TOOLS else kind, f"{kind}-one"]
    return (own, site.addresses["reckoning", f"{kind}-one"]) if kind == "procedure" else (own,)


@pytest.mark.parametrize("conditions", [False, True], ids=["texts", "conditions"])
def test_every_text_stands_on_the_page_of_its_owner(tmp_path: Path, conditions: bool) -> None:
    written = every_text(conditions=conditions)
    write(written, tmp_path)
    site = Site(analysis(tmp_path, TODAY), ())
    pages = pages_of(site)
    assert UNWRITTEN not in pages
    lost = {" / ".join(place) for word, place in written.words.items()
            if not any(word in pages[page] for page in where_told(site, place[0], pages))}
    assert sorted(lost) == []
    assert len(written.words) > 2000


def test_the_notebook_made_from_the_model_is_read_without_loss_and_holds_every_kind_of_mapping(tmp_path: Path) -> None:
    """So that a new kind is thought of: what is not written here is a record, or a plan that the program writes."""
    write(every_text(), tmp_path)
    nb, found = load(tmp_path)
    assert [str(one) for one in found] == []
    assert not nb.unread
    met: set[type[Entry]] = set()

    def walk(value: object) -> None:
        if isinstance(value, Entry):
            met.add(type(value))
            value = tuple(value.fields().values())
        if isinstance(value, dict):
            value = tuple(value.values())
        for one in value if isinstance(value, tuple) else ():
            walk(one)

    for shelf in (nb.procedures, nb.changes, nb.orders, nb.skills, nb.tools, nb.materials, nb.people):
        walk(dict(shelf))
    walk(nb.shop)
    written = {model for model in all_models(Entry) if model.__module__.startswith("site_builder.notebook.")}
    unmet = {model.__name__ for model in written if not model.__subclasses__()} - {m.__name__ for m in met}
    assert unmet == {"Season", "PlannedStint", "NarrowPlace", "SignOff", "Practice", "Trial", "Measurement", "Incident",
                     "Brief", "People", "Telling",
                     "Recordings", "Archive"}  # who agreed to be heard, and what may be kept


def test_what_is_not_shown_says_why() -> None:
    known = {(model.__name__, held.alias or name) for model in {*all_models(Entry), *models().values()}
             for name, held in model.model_fields.items()}
    assert NOT_SHOWN.keys() <= known
    assert all(reason.strip() for reason in NOT_SHOWN.values())
