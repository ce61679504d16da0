"""The handbook: what the shop wrote, as pages a family can open from a stick.

``book`` knows which page tells of what; ``pen`` writes words, values and links for one page; ``pages``
makes the pages; ``theme`` is their face; ``pictures`` and ``drawings`` what is shown; ``plugin`` hands it
all to MkDocs, ``build`` runs MkDocs aside and swaps.
"""
