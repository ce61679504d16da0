"""A finished handbook is put in its place: only what we made is ever replaced, and no kill leaves half a book.

``place`` knows where a handbook may go and refuses the rest, ``mark`` what in a folder was made by us, ``work`` the
folder in which a book is made and how it comes from there into its place and back, ``copying`` how a book gets onto
another disk, ``turn`` that one build waits for the other; ``publish`` puts them together.
"""
