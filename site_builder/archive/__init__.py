"""One folder to burn, copy or bury: the notebook and all that is made of it, which proves itself whole.

``contents`` says what goes in, ``withheld`` what stays out and why, ``forms`` in which form, ``plain_text`` and
``as_json`` write the whole text, ``first_words`` what a stranger reads first; ``bag`` writes and reads the lists
(BagIt, RFC 8493), ``place`` puts the folder in its place, ``check`` tries it, ``mend`` takes from another copy what is
broken, ``restore`` starts a notebook from it again; ``keep`` puts them together.
"""
