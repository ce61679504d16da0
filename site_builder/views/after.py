"""After the work: what else uses this, and how this way of working came about."""

from __future__ import annotations

from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.references import Link
from site_builder.views.dates import date_words
from site_builder.views.prose import NO_WORDS, Prose, listed, say, sentences
from site_builder.views.scope import ProcedureScope

_ELSEWHERE = frozenset({"done", "covers", "procedure", "measured", "felt", "during"})
"""References that the page tells in another place (order, skill) or that are entries of the books."""
_WORDS = {"use": "does it as one of its steps", "then": "leads back here when something goes wrong",
          "from_": "goes round from here"}


def used_by(scope: ProcedureScope) -> tuple[Prose, ...]:
    """Other work that uses this, comes back to it, or takes a figure from it."""
    found: dict[tuple[str, str, str], list[Prose]] = {}
    for link in scope.references.used_in("procedure", scope.id):
        owner = link.place.owner
        if link.key in _ELSEWHERE or not isinstance(owner, Procedure):
            continue
        name = "" if link.target is None or link.target.value is None else link.target.value.name
        words = f"takes {name} from here" if name else _WORDS.get(link.key, "names it")
        spots = found.setdefault((link.place.owner_id, link.key, words), [])
        spot = _spot(scope, link, owner)
        if spot is not None and spot not in spots:
            spots.append(spot)
    lines = []
    for (id_, _, words), spots in found.items():
        where = say(" ({})", listed(spots)) if spots else ""
        lines.append(say("{} {}{}.", scope.view.link("procedure", id_), words, where))
    return tuple(lines)


def _spot(scope: ProcedureScope, link: Link, owner: Procedure) -> Prose | None:
    step = link.place.step
    if step is None:
        return None
    name = scope.view.step_name(owner, step)
    return scope.view.link("procedure", link.place.owner_id, name, scope.view.anchor(step))


def use_places(scope: ProcedureScope) -> tuple[Prose, ...]:
    """Where shared work is done."""
    found: dict[str, Prose] = {}
    for link in scope.references.used_in("procedure", scope.id):
        if link.key == "use" and isinstance(link.place.owner, Procedure) and link.place.owner_id not in found:
            step = link.place.step
            anchor = scope.view.anchor(step) if step is not None else ""
            found[link.place.owner_id] = scope.view.link("procedure", link.place.owner_id, anchor=anchor)
    return tuple(found.values())


def came_about(scope: ProcedureScope) -> tuple[tuple[str, Prose, Prose], ...]:
    """(date, who, what), newest first; what led to it is linked."""
    rows = []
    for revision in reversed(scope.own.revisions):
        who = scope.view.person(str(revision.who)) if revision.who is not None else NO_WORDS
        what = scope.words(revision.what)
        extra: list[str | Prose] = [scope.inline_why(revision), *scope.tail(revision.with_changes(date=None))]
        if revision.change is not None:
            link = scope.view.link("change", str(revision.change), "The change and its evidence")
            extra.append(link)
        rows.append((date_words(revision.date), who, scope.meant(revision, sentences([what, *extra]))))
    return tuple(rows)
