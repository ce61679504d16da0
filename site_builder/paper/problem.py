"""What keeps a paper from being made, in words."""

from __future__ import annotations


class CannotPrint(Exception):
    """Nothing was written; the text says why and what to do. The paper made last stays as it was."""
