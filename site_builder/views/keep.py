"""What is written down, and what is kept and until when."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.judging import Keep
from site_builder.notebook.model.limit import Table
from site_builder.notebook.model.procedure import Step, Work
from site_builder.notebook.references import all_steps
from site_builder.notebook.tree import Text
from site_builder.views.blocks import Block, Grid, Row, Said
from site_builder.views.end import stage_words
from site_builder.views.prose import Prose, capital, joined, listed, prose, say, sentences, unstopped
from site_builder.views.rest import in_line
from site_builder.views.scope import ProcedureScope, Scope
from site_builder.views.value import amount


def kept(scope: Scope, keep: Keep) -> Prose:
    """``The first good foot (1 piece). Where: the shelf. Until the order is delivered.``"""
    what = unstopped(scope.lowered(scope.words(keep.what)))
    if keep.amount is not None:
        what = say("{} ({})", what, amount(scope, keep.amount))
    said: list[str | Prose] = [what]
    if keep.where is not None:
        said.append(say("Where: {}", scope.within(keep.where)))
    for end in keep.until:
        said += [scope.meant(end, say("Until {}", stage_words(scope, end, None))), in_line(scope, end)]
    if keep.because:
        said.append(scope.inline_why(keep))
    return scope.meant(keep, sentences([*said, *scope.tail(keep)]))


def written(scope: Scope, work: Work) -> list[Block]:
    """What is written down and kept at this place."""
    blocks: list[Block] = []
    if work.write:
        blocks.append(Said(label="Write down", words=listed(map(scope.within, work.write))))
    if work.keep:
        blocks.append(Said(label="Keep", words=joined(kept(scope, keep) for keep in work.keep)))
    return blocks


def in_the_book(scope: ProcedureScope) -> Grid | None:
    """Everything that is written down or kept, with the place where it arises."""
    rows: list[tuple[Prose, Prose, Prose]] = []
    for work in (scope.own, *all_steps(scope.own)):
        if id(work) not in scope.view.noted:
            continue
        where = scope.step_link(work) if isinstance(work, Step) else prose("The whole work")
        found = list(_written(work))
        texts = [(name, scope.within(w)) for name, w in found if isinstance(w, Text)]
        notes = (say("{}: {}", name, w) if name else w for name, w in texts)
        written = capital(joined(dict.fromkeys(notes), "; "))
        keeps = joined(kept(scope, k) for _, k in found if isinstance(k, Keep))
        if written or keeps:
            rows.append((capital(where), written, keeps))
    if not rows:
        return None
    columns = ("Where", "Write down", "Keep")
    used = [n for n in range(3) if any(row[n] for row in rows)]
    return Grid(caption=prose("What goes into the book and on to the shelf"), columns=tuple(columns[n] for n in used),
                rows=tuple(Row(tuple(row[n] for n in used)) for row in rows))


_Noted = tuple[str, Text | Keep]


def _written(entry: Entry, name: str = "") -> Iterator[_Noted]:
    """What stands under `write` and `keep`, here and in all that hangs here, with the name of the limit it is of."""
    for one in (*getattr(entry, "write", ()), *getattr(entry, "keep", ())):
        yield name, one
    for key, value in entry.fields().items():
        if key not in ("steps", "also", "keep", "write"):
            yield from _inside(value, name)


def _inside(value: object, name: str) -> Iterator[_Noted]:
    if not value or isinstance(value, str):
        return
    if isinstance(value, Entry):
        if not isinstance(value, Work):
            yield from _written(value, name)
    elif isinstance(value, tuple):
        for one in value:
            yield from _inside(one, name)
    elif isinstance(value, dict):
        for key, one in value.items():
            yield from _inside(one, str(key))
    elif isinstance(value, Table):
        for _, cell in value.cells():
            yield from _inside(cell, name)
