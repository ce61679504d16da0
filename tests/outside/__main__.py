"""``make checks-from-outside``: prints every check against a published value and writes them for the handbook."""

from __future__ import annotations

import sys

from tests.outside.registry import results
from tests.outside.table import JSON, as_json, as_table


def main() -> int:
    """0 when all agree, 1 when one does not."""
    found = results()
    print(as_table(found))
    JSON.write_text(as_json(found), "utf-8")
    return 0 if all(result.agrees for result in found) else 1


if __name__ == "__main__":
    sys.exit(main())
