"""What every face tells of a notebook, as plain values: one module a concept.

A view is a frozen value of plain text and of pieces that a face must know of (a link by kind and id, a word of the
glossary, what is not told yet, what holds for one variant only). Nothing here knows of HTML, of paper or of addresses.
"""
