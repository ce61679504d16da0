"""Sound and film without what they say of themselves: title, maker, day and place.

Each form of file has a module that finds its words and blanks them where they stand, so that nothing of what is heard
or seen moves. The libraries that do this are under licences which a program as free as this one cannot pass on, or
carry all of a film studio with them; and a copy that is made in place can be held against the original byte by byte.
"""

from site_builder.pictures.recordings.hush import Hushed, ending, hushed, write_hushed

__all__ = ["Hushed", "ending", "hushed", "write_hushed"]
