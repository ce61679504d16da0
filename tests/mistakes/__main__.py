"""Makes every mistake and prints the table by class; `--class WORD` and `--notebook NAME` make only some."""

from __future__ import annotations

import argparse
import tempfile
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from tests.mistakes.kind import Kind
from tests.mistakes.notebooks import Copy, copies
from tests.mistakes.tables import CLASSES
from tests.mistakes.trial import Outcome, Trial, try_out

MOST = 2
"""So many mistakes of a kind are made in one notebook, spread over it."""


def trials(kinds: Iterable[Kind], notebooks: Iterable[Copy], most: int = MOST) -> Iterator[Trial]:
    """Each kind tried in each notebook that has room for it."""
    kinds = list(kinds)
    for copy in notebooks:
        for kind in kinds:
            made = list(kind.made_in(copy.files))
            for mistake in made[:: max(1, -(-len(made) // most))]:
                yield try_out(kind, mistake, copy)


def table(by_class: Mapping[str, Counter[Outcome]]) -> str:
    """The count of each outcome by class, and the share of what can be known that was named."""
    width = max(map(len, by_class)) + 2
    heads = [outcome.value for outcome in Outcome]
    lines = [" " * width + "  ".join(heads) + "  share"]
    whole: Counter[Outcome] = sum(by_class.values(), Counter())
    for name, counts in [*by_class.items(), ("in all", whole)]:
        cells = "  ".join(f"{counts[o]:>{len(o.value)}}" for o in Outcome)
        lines.append(f"{name:<{width}}{cells}  {share(counts):5.1f} %")
    return "\n".join(lines)


def share(counts: Counter[Outcome]) -> float:
    """Of what can be known, so many per cent were named at their place."""
    known = counts.total() - counts[Outcome.BEYOND]
    return 100 * counts[Outcome.NAMED] / known if known else 100.0


def main() -> None:
    """The whole, or a part of it, printed."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--class", dest="only", default="")
    asked.add_argument("--notebook", default="")
    asked.add_argument("--small", action="store_true")
    asked.add_argument("--all", action="store_true")
    args = asked.parse_args()
    classes = {name: kinds for name, kinds in CLASSES.items() if args.only in name}
    by_class: dict[str, Counter[Outcome]] = defaultdict(Counter)
    where = {id(kind): name for name, kinds in classes.items() for kind in kinds}
    tried: set[int] = set()
    with tempfile.TemporaryDirectory() as folder:
        shops = [c for c in copies(Path(folder)) if args.notebook in c.name and not (args.small and c.name == "demo")]
        for trial in trials((k for kinds in classes.values() for k in kinds), shops):
            by_class[where[id(trial.kind)]][trial.outcome] += 1
            tried.add(id(trial.kind))
            if args.all or trial.outcome not in (Outcome.NAMED, Outcome.BEYOND):
                print(told(trial), flush=True)
    print(table({name: by_class[name] for name in classes}))
    print(f"{len(tried)} kinds of {len(where)} found room.")
    for kinds in classes.values():
        for kind in kinds:
            if id(kind) not in tried:
                print(f"No room for: {kind.what}")


def told(trial: Trial) -> str:
    """One trial in a few lines."""
    line = min(trial.mistake.lines)
    text = trial.mistake.after.split("\n")[line - 1].strip()[:110]
    found = "".join(
        f"\n      {f.at.path}:{f.at.line}: {f.code}: {f.message[:100]} | {f.fix[:90]}" for f in trial.told[:3]
    )
    return f"{trial.outcome.value}: {trial.kind.what}\n   {trial.notebook}/{trial.mistake.path}:{line}: {text}{found}"


if __name__ == "__main__":
    main()
