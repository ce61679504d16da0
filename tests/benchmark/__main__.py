"""``make benchmark``: prints ratios against peers measured in the same run, and growth from 500 to 2,000."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from tests.benchmark.generate import generate

SIZES = (100, 500, 2000)
RUNS = {100: 3, 500: 3, 2000: 2}
PYTHON = sys.executable

BARE_READ = """
import sys, yaml
from pathlib import Path
for file in sorted(Path(sys.argv[1]).rglob('*.yml')):
    with file.open('rb') as stream:
        list(yaml.load_all(stream, Loader=yaml.CSafeLoader))
"""
"""PyYAML's C loader merely reading the same files."""

DUMP_PAGES = """
import sys
from pathlib import Path
from mkdocs.config import load_config
config = load_config(config_file=sys.argv[1])
plugin = next(p for n, p in config.plugins.items() if n == 'benchlore')
config.plugins.on_startup(command='build', dirty=False)
plugin.on_config(config)
for sheet in plugin.bound.sheets:
    file = Path(sys.argv[2]) / sheet.src_uri
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(f'---\\ntitle: {sheet.title!r}\\n---\\n\\n' + sheet.html, 'utf-8')
"""
"""The very Markdown that our plugin made, as files for a plain build."""

PLAIN_SETTINGS = """\
site_name: A large shop
docs_dir: docs
use_directory_urls: false
theme: {name: material, features: [navigation.prune]}
plugins: [search]
validation: {nav: {omitted_files: ignore}, links: {not_found: ignore, unrecognized_links: ignore}}
"""


@dataclass(frozen=True)
class Run:
    """One finished command: seconds on the clock and of the processor, MB at the peak."""

    wall: float
    cpu: float
    peak: float


def run(*command: str, cwd: Path, ok: tuple[int, ...] = (0,)) -> Run:
    """Run a command and measure it from outside; children's peak is that of the largest process."""
    env = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONDONTWRITEBYTECODE": ""}
    start = os.times().elapsed
    with tempfile.TemporaryFile() as said:
        process = subprocess.Popen(command, cwd=cwd, env=env, stdout=said, stderr=subprocess.STDOUT)
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode not in ok:
            said.seek(0)
            sys.exit(f"{' '.join(command)[:200]} ended with {process.returncode}:\n{said.read().decode()[-3000:]}")
    return Run(os.times().elapsed - start, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024)


def middle(runs: list[Run]) -> Run:
    return Run(median(r.wall for r in runs), median(r.cpu for r in runs), median(r.peak for r in runs))


def told(size: int, key: str, found: Run) -> Run:
    """Each figure is told as soon as it is measured."""
    print(f"  {size:>5}  {key:12} {found.wall:8.2f} s {found.peak:6.0f} MB", flush=True)
    return found


def measure(size: int, folder: Path) -> dict[str, Run | float]:
    """Everything about a notebook of one size; the two sides of a ratio take turns."""
    root = folder / f"shop-{size}"
    generate(root, size)
    benchlore = [PYTHON, "-m", "site_builder.cli"]
    mkdocs = [PYTHON, "-m", "mkdocs", "build", "--quiet"]
    cold: dict[str, list[Run]] = {k: [] for k in ("bare read", "check", "plain build", "build", "rebuild")}
    run(*benchlore, "check", "--notebook", str(root), cwd=root, ok=(0, 1))  # byte code is written once
    for _ in range(RUNS.get(size, 2)):
        cold["bare read"].append(told(size, "bare read", run(PYTHON, "-c", BARE_READ, str(root), cwd=root)))
        cold["check"].append(told(size, "check", run(
            *benchlore, "check", "--notebook", str(root), "--only", "error", cwd=root, ok=(0,))))
    plain = folder / f"plain-{size}"
    (plain / "docs").mkdir(parents=True)
    run(PYTHON, "-c", DUMP_PAGES, str(root / "mkdocs.yml"), str(plain / "docs"), cwd=root)
    (plain / "mkdocs.yml").write_text(PLAIN_SETTINGS, "utf-8")
    edited = root / "procedures" / "part-0" / "procedure-0.yml"
    before = edited.read_text("utf-8")
    for turn in range(RUNS.get(size, 2)):
        shutil.rmtree(root / ".cache", ignore_errors=True)
        shutil.rmtree(root / "site", ignore_errors=True)
        shutil.rmtree(plain / "site", ignore_errors=True)
        cold["plain build"].append(told(size, "plain build", run(*mkdocs, cwd=plain)))
        cold["build"].append(told(size, "build", run(*benchlore, "build", cwd=root)))
        edited.write_text(before.replace("Keep the", f"Turn {turn} and keep the", 1), "utf-8")
        cold["rebuild"].append(told(size, "rebuild", run(*benchlore, "build", cwd=root)))
        edited.write_text(before, "utf-8")
    site, other = root / "site", plain / "site"
    pages = len(list(site.rglob("*.html")))
    index = (site / "search" / "search_index.json").stat().st_size
    figures: dict[str, Run | float] = {name: middle(runs) for name, runs in cold.items()}
    return {**figures, "pages": pages, "site MB": _size(site) / 1e6, "plain site MB": _size(other) / 1e6,
            "index kB a page": index / 1000 / pages}


def _size(folder: Path) -> int:
    return sum(f.stat().st_size for f in folder.rglob("*") if f.is_file())


def main() -> None:
    asked = sys.argv[1:] or os.environ.get("SIZE", "").split()
    sizes = tuple(int(a) for a in asked) or SIZES
    with tempfile.TemporaryDirectory() as name:
        found = {size: measure(size, Path(name)) for size in sizes}
    def figure(size: int, key: str) -> Run:
        value = found[size][key]
        assert isinstance(value, Run)
        return value

    rows: list[tuple[str, str, list[str]]] = [
        (f"{key}, s", "", [f"{figure(s, key).wall:.2f}" for s in sizes])
        for key in ("bare read", "check", "plain build", "build", "rebuild")
    ]
    for title, aim, top, bottom in (
        ("check / bare read", "3", "check", "bare read"),
        ("build / plain build", "1.0", "build", "plain build"),
        ("rebuild / build", "0.5", "rebuild", "build"),
    ):
        rows.append((title, f"at most {aim}",
                     [f"{figure(s, top).wall / figure(s, bottom).wall:.2f}" for s in sizes]))
    rows += [(f"peak of {key}, MB", "", [f"{figure(s, key).peak:.0f}" for s in sizes])
             for key in ("check", "build", "rebuild")]
    for key in ("pages", "site MB", "plain site MB", "index kB a page"):
        aim = "at most 1.5" if key.startswith("index") else ""
        rows.append((key, aim, [f"{found[s][key]:.2f}" if key != "pages" else f"{found[s][key]:.0f}" for s in sizes]))
    print(f"{'':28}{'aim':>14}" + "".join(f"{s:>12}" for s in sizes))
    for title, aim, cells in rows:
        print(f"{title:28}{aim:>14}" + "".join(f"{cell:>12}" for cell in cells))
    if 500 in found and 2000 in found:
        for key in ("check", "build", "rebuild"):
            growth = figure(2000, key).wall / figure(500, key).wall
            print(f"{f'{key}: 500 to 2,000':28}{'at most 4.4':>14}{growth:>12.2f}")


if __name__ == "__main__":
    main()
