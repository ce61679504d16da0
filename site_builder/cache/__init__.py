"""What was made before, kept for the next build. Nothing in it is believed: whatever is not as it was put is not there.

A store holds entries by name. Each has a note (plain JSON) and, if need be, files. An entry counts only if it is whole,
byte by byte, was put by this program with these libraries, and has a name of its own kind. Everything else is a miss:
never an error, never an older answer.
"""

from site_builder.cache.program import program_and_libraries
from site_builder.cache.store import Entry, Store

__all__ = ["Entry", "Store", "program_and_libraries"]
