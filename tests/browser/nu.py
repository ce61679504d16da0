"""The Nu HTML checker (vnu.jar, under Java) on files of a built site."""

import json
import re
import subprocess
from collections.abc import Sequence
from pathlib import Path

JAR = Path(__file__).parent.parent / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
OPTIONS = ("--format", "json", "--errors-only", "--exit-zero-always", "--stdout")
AT_ONCE = 200  # files for one start of Java; a command line is not endless

# What the checker does not know yet though the standards do, each with the reason.
_UNKNOWN = re.compile(
    r"CSS: .*(font-size-adjust|text-wrap|:has\()"  # CSS Fonts 5, CSS Text 4, Selectors 4
)


def nu_html(paths: Sequence[Path], java: str = "java") -> list[str]:
    """Check files; one complaint an error, with file and line. Warnings are not errors: the roles that keep
    a table a table when it is folded on a phone are needless in the checker's eyes."""
    complaints = []
    for start in range(0, len(paths), AT_ONCE):
        files = [str(path) for path in paths[start : start + AT_ONCE]]
        command = [java, "-jar", str(JAR), *OPTIONS, *files]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        for said in json.loads(done.stdout)["messages"]:
            if not _UNKNOWN.search(said["message"]):
                place = f"{Path(said.get('url', '')).name}:{said.get('lastLine', '?')}"
                complaints.append(f"{place}: {said['message']} … {said.get('extract', '').strip()[:160]}")
    return complaints
