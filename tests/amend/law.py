"""The law of amendments, tried at any place of any file.

    python -m tests.amend.law [HOW MANY]

prints how many amendments were tried and how many of them could not be spliced.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path
from random import Random
from typing import cast

from site_builder.amend import Amendment, Plain, Refused, Splices, plan_bytes
from site_builder.amend.amendment import put
from site_builder.amend.splices import spliced, turned_back
from site_builder.notebook.files import NotebookFile, notebook_files
from tests.amend.any_amendment import any_amendment
from tests.amend.disturbed import disturbed, tree_of

HOME = Path(__file__).parents[2]


def files_of(*roots: Path) -> list[Path]:
    """Every file of these notebooks in which an amendment may be made, and that is read whole."""
    items = [item for root in roots for item in notebook_files(root) if isinstance(item, NotebookFile)]
    return [item.file for item in items if "/records/" not in item.path and tree_of(item.file.read_bytes())]


def notebooks() -> list[Path]:
    """The demo and all notebooks of the tests."""
    return [HOME, *sorted(one for one in (HOME / "tests" / "notebooks").iterdir() if one.is_dir())]


def tried(text: str, chance: Random) -> tuple[Amendment, Refused | None]:
    """One amendment of a file, disturbed or not; the law is asserted. What was refused is returned."""
    data = disturbed(text, chance)
    tree = cast("Plain", tree_of(data))
    name = "procedures/x/y.yml"
    amendment = any_amendment(name, tree, chance)
    outcome = plan_bytes({name: data}, amendment, None)
    assert not hasattr(outcome, "stands"), outcome
    if isinstance(outcome, Refused):
        return amendment, outcome
    assert isinstance(outcome, Splices)
    for file in outcome.files:
        assert file.before == data
        holds(data, file.after, file.splices, amendment, tree)
    return amendment, None


def holds(data: bytes, after: bytes | None, splices: tuple, amendment: Amendment, tree: Plain) -> None:  # type: ignore[type-arg]
    """What is outside the splices is equal; taken back it is what it was; the tree is as intended."""
    if after is None:
        assert amendment.what == "gone"
        return
    old = new = 0
    for splice in splices:
        same = splice.start - old
        assert data[old : splice.start] == after[new : new + same]
        assert after[new + same : new + same + len(splice.after)] == splice.after
        old, new = splice.end, new + same + len(splice.after)
    assert data[old:] == after[new:]
    assert spliced(after, turned_back(splices)) == data
    wanted = tree
    for change in amendment.changes:
        wanted = put(wanted, change)
    assert tree_of(after) == wanted


def main(count: int) -> None:
    texts = [file.read_bytes().decode("utf-8-sig").replace("\r\n", "\n") for file in files_of(*notebooks())]
    refused: list[tuple[int, Amendment, Refused]] = []
    kinds: Counter[str] = Counter()
    for seed in range(count):
        chance = Random(seed)
        amendment, no = tried(chance.choice(texts), chance)
        kinds[amendment.what] += 1
        if no is not None:
            refused.append((seed, amendment, no))
    for seed, amendment, no in refused[:20]:
        print(f"refused, seed {seed}: {amendment.what}, line {no.line}: {no.why}")
    print(", ".join(f"{kind} {number}" for kind, number in kinds.most_common()))
    print(f"{count} amendments in {len(texts)} files, {len(refused)} refused")
    if len(refused) * 1000 >= count:
        raise SystemExit("more than 1 in 1,000 could not be spliced")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20_000)
