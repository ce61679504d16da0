"""The command ``benchlore``: a thin face over checks, handbook and schemas.

Exit codes: 0 all well, 1 errors in the notebook, 2 wrong use.
"""

from __future__ import annotations

from site_builder.cli.main import main

__all__ = ["main"]
