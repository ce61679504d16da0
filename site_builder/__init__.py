"""Benchlore: a shop's YAML notebook goes in, findings and a handbook come out.

What others may lean on is the command ``benchlore``, the plugin of MkDocs of that name, and the format of the notebook
(``tests/public_surface.txt`` lists them). Modules are for the program itself: nothing is promised to who imports them.
The layers stand in DEVELOPERS.md.
"""

__all__: list[str] = []
