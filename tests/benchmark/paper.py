"""``python -m tests.benchmark.paper``: the book of a shop at several lengths, from 99 pages to 900 or nearly so.

Each length in a process of its own: pages, seconds of the processor, peak memory, and both per page as ratios to the
shortest. What takes time and memory that grow linearly has ratios that stay. With ``SIZE=80`` no shop has more works.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.paper.book import make_book
from tests.benchmark.generate import generate

WORKS = (25, 60, 120, 240)
AT, MOST = 600, 15.0
"""So many pages may take so many seconds of the processor."""


def measure(root: Path) -> None:
    """In a process of its own: make the book and print what it took."""
    begun = time.process_time()
    read = analysis(root, date(2026, 11, 25))
    reading = time.process_time() - begun
    made = make_book(read)
    spent = time.process_time() - begun
    print(made.pages, f"{spent:.3f}", f"{reading:.3f}", resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)


def main() -> None:
    """All rows, each as soon as it is measured."""
    most = int(os.environ.get("SIZE") or WORKS[-1])
    rows: list[tuple[float, float, float]] = []
    print(f"{'works':>6}{'pages':>7}{'processor':>11}{'memory':>10}{'a page':>11}{'ratio':>7}"
          f"{'memory a page':>15}{'ratio':>7}")
    with tempfile.TemporaryDirectory() as folder:
        for works in (one for one in WORKS if one <= max(most, WORKS[0])):
            root = Path(folder) / f"shop-{works}"
            generate(root, works)
            done = subprocess.run([sys.executable, "-m", "tests.benchmark.paper", str(root)], capture_output=True,
                                  text=True, check=True)
            pages, spent, _, peak = map(float, done.stdout.split())
            rows.append((pages, spent, peak))
            (first, short, small), each, room = rows[0], spent / pages, peak / pages
            print(f"{works:>6}{pages:>7.0f}{spent:>9.1f} s{peak:>7.0f} MB{each * 1000:>8.1f} ms"
                  f"{each / (short / first):>7.2f}{room:>12.2f} MB{room / (small / first):>7.2f}", flush=True)
    reached = [(pages, spent) for pages, spent, _ in rows if pages >= AT]
    if reached:
        pages, spent = reached[0]
        at = spent * AT / pages
        print(f"{AT} pages: {at:.1f} s of the processor, {'within' if at <= MOST else 'OVER'} the aim of {MOST:.0f} s")


if __name__ == "__main__":
    if len(sys.argv) > 1:
        measure(Path(sys.argv[1]))
    else:
        main()
