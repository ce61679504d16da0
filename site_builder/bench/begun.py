"""A shop begun from nothing: its page, its people, and what the handbook is built with."""

from __future__ import annotations

import re
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

from site_builder.amend import Amendment, Plain, id_for, new_file
from site_builder.cli.templates import scalar
from site_builder.notebook.atomic import write_new
from site_builder.notebook.model.parsed_values import id_from
from site_builder.notebook.schema import write_schemas
from site_builder.start_files import lay_start_files

_IGNORED = "site/\n.cache/\n.benchlore-making-*/\nskills/records/.*.lock\n.amendments.lock\n"
_YEAR = re.compile(r"(?<=[ ,;(])(?:19|20)\d\d(?:-\d\d-\d\d)?(?=\)?$)")


def shop_begun(title: str, masters: Sequence[str], others: Sequence[str], makes: Sequence[str]) -> Amendment:
    """The first two files of a notebook. A year behind a name is when somebody was born."""
    shop: dict[str, Plain] = {"shop": id_from(title)[:60].strip("-") or "shop", "title": title, "format": "1"}
    taken: set[str] = {str(shop["shop"])}
    products: dict[str, Plain] = {}
    for one in makes:
        id_ = id_for(one, taken)
        taken.add(id_)
        products[id_] = one
    if products:
        shop["products"] = products
    people: dict[str, Plain] = {}
    for line, is_master in (*((one, True) for one in masters), *((one, False) for one in others)):
        name, born = name_and_year(line)
        id_ = id_for(name.partition(" ")[0], taken, "somebody")
        taken.add(id_)
        told: dict[str, Plain] = {"name": name, **({"born": born} if born else {}),
                                  **({"founding": "yes"} if is_master else {})}
        people[id_] = told if len(told) > 1 else name
    begun = new_file("The shop was begun", "procedures/shop.yml", shop)
    return begun + new_file("", "skills/people.yml", {"people": people}) if people else begun


def name_and_year(line: str) -> tuple[str, str]:
    """``Mara Oldfield, 1961`` as the name and when she was born; the second is empty where it is not told."""
    line = " ".join(line.split())
    found = _YEAR.search(line)
    name = line[: found.start()].rstrip(" ,;(") if found is not None else ""
    if name.endswith((" born", "(born")):
        name = name[:-4].rstrip(" ,;(")
    return (name.lstrip(" ,;("), found[0]) if found is not None and name else (line, "")


def lay_beside(root: Path, title: str) -> None:
    """What a handbook is built with, and what editors and version control need; nothing that stands there is touched.

    Raises OSError.
    """
    settings = (files("site_builder.cli") / "starter" / "mkdocs.yml").read_text("utf-8")
    for name, text in (("mkdocs.yml", settings.replace("TITLE", scalar(title))), (".gitignore", _IGNORED)):
        if not (root / name).exists():
            write_new(root / name, text)
    write_schemas(root)
    lay_start_files(root)
