"""The trade's arithmetic laid on what the shop wrote: figures in sentences, with where each number came from.

The arithmetic itself is in ``craft`` and ``safety`` and knows no notebook. Here values of the notebook are
found, turned into numbers and put into its functions; rules and pages show what comes out. One module a
chapter of the trade; ``figure`` is the form in which all of them answer, ``known`` what they may ask.
"""
