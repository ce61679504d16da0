"""Words that keep their capital letter inside a sentence: names of people, of months and of days."""

from __future__ import annotations

from site_builder.handbook.site import Site
from site_builder.views.typeset import MONTHS

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def proper_names(site: Site) -> frozenset[str]:
    """Worked out once a book."""
    kept: frozenset[str] | None = site.__dict__.get("_proper_names")
    if kept is None:
        names = {word for person in site.notebook.people.values() for word in str(person.name).split()}
        kept = site.__dict__["_proper_names"] = frozenset({*names, *MONTHS, *_DAYS})
    return kept
