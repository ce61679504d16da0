"""The handbook as an e-book: EPUB 3.3, reflowable, made of the same pages with components of its own.

``chapters`` says which pages stand in it and in which order; ``press`` makes them with the templates under
``templates/``; ``bound`` turns each into XHTML whose every link leads somewhere; ``pictures`` makes what is shown fit
for every reader; ``package`` tells what the book is and what is in it; ``epub`` puts it into one file.
"""
