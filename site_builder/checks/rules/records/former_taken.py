from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for shelf in nb.shelves.values():
        had = Counter(str(former) for entry in shelf.values() for former in getattr(entry, "former", ()))
        for id_, entry in shelf.items():
            for former in getattr(entry, "former", ()):
                if former in shelf:
                    yield Found(former.at, f"`{former}` is the id of another thing now.",
                                "Give that one another id: entries of the books cannot mean both.", id_)
                elif had[str(former)] > 1:
                    yield Found(former.at, f"Two things say that they were called `{former}`.",
                                "Take it away at the one that the books do not mean.", id_)


RULE = Rule(
    code="former-taken",
    level=Level.ERROR,
    summary="An earlier id is that of something else too.",
    reason="Entries under seal go on naming a thing by the id it had. If two things answer to it, nobody knows whose "
           "entry it is.",
    passes="""\
=== skills/people.yml
people:
  ansa: {name: Ansa, former: anna}
  tilde: Tilde
""",
    fails="""\
=== skills/people.yml
people:
  ansa: {name: Ansa, former: ▸tilde}
  tilde: Tilde
""",
    check=check,
)
