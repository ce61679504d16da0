"""This program and the libraries it stands on, as one digest: what another one made is not to be trusted."""

from __future__ import annotations

import sys
from functools import cache
from hashlib import blake2b
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path

PACKAGE = Path(__file__).parent.parent
_READ = (".py", ".j2", ".html", ".css", ".js", ".svg", ".json")


@cache
def program_and_libraries() -> str:
    """32 hexadecimal digits of the program's own files, of Python, and of the versions of what it requires."""
    digest = blake2b(f"{sys.version}\0{sys.platform}".encode(), digest_size=16)
    for name in _required():
        try:
            digest.update(f"{name} {version(name)}\0".encode())
        except PackageNotFoundError:
            digest.update(f"{name} none\0".encode())
    for file in sorted(PACKAGE.rglob("*")):
        if file.suffix in _READ and file.is_file():
            data = file.read_bytes()
            digest.update(f"{file.relative_to(PACKAGE).as_posix()} {len(data)}\0".encode() + data)
    return digest.hexdigest()


def _required() -> list[str]:
    """What the program requires, and what that requires in turn, by name."""
    found: set[str] = set()
    waiting = ["benchlore"]
    while waiting:
        name = waiting.pop()
        try:
            wanted = requires(name) or []
        except PackageNotFoundError:
            continue
        for line in wanted:
            if "extra ==" in line:
                continue
            other = line.split(";")[0].strip()
            for sign in " <>=!~[(":
                other = other.split(sign)[0]
            if other and other.lower() not in found:
                found.add(other.lower())
                waiting.append(other)
    return sorted(found)
