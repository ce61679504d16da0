"""What names a thing: the things whose keys or sentences lead to it."""

from __future__ import annotations

from site_builder.notebook.kinds import kind_of
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Prose, capital


def where_named(view: NotebookView, kind: str, id_: str) -> tuple[Prose, ...]:
    """Each of them once, in the order of the notebook."""
    users = dict.fromkeys((kind_of(link.place.owner), link.place.owner_id)
                          for link in view.analysis.references.used_in(kind, id_))
    return tuple(capital(view.link(*user)) for user in users if user in view.titles)
