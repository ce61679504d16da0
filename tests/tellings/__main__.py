"""``make tellings``: how well tellings with marks are understood. ``python -m tests.tellings FOLDER NAME …`` tells
the misses.
"""

from __future__ import annotations

import sys
from pathlib import Path

from tests.tellings.measure import CASES, OTHER_TRADES, added_up, measured, told


def main(arguments: list[str]) -> int:
    """Prints the table; of the tellings that are named, every miss too."""
    folder = Path(arguments[0]) if arguments else CASES
    figures = measured(folder)
    if not figures:
        print(f"No NAME.marks.json with its NAME.vtt in {folder}.")
        return 1
    for line in told(figures):
        print(line)
    if folder == CASES:
        print("\ntwenty other trades, short tellings of our own")
        for line in told({part: added_up(OTHER_TRADES / part) for part in ("developed", "measured")}, total=False):
            print(line)
    for name in arguments[1:]:
        print(f"\n{name}")
        for miss in figures[name].misses:
            print(f"  {miss}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
