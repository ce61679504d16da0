"""The Nu HTML checker (vnu.jar, under Java) on files of a built site."""

import json
import subprocess
from collections.abc import Sequence
from pathlib import Path

JAR = Path(__file__).parent.parent / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
OPTIONS = ("--format", "json", "--errors-only", "--exit-zero-always", "--stdout")
AT_ONCE = 200  # files for one start of Java; a command line is not endless


def nu_html(paths: Sequence[Path], java: str = "java") -> list[str]:
    """Check files; one complaint an error, with file and line. Warnings and advice are left out."""
    complaints = []
    for start in range(0, len(paths), AT_ONCE):
        files = [str(path) for path in paths[start : start + AT_ONCE]]
        command = [java, "-jar", str(JAR), *OPTIONS, *files]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        for said in json.loads(done.stdout)["messages"]:
            place = f"{Path(said.get('url', '')).name}:{said.get('lastLine', '?')}"
            complaints.append(f"{place}: {said['message']} … {said.get('extract', '').strip()[:160]}")
    return complaints
