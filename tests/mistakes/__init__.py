"""Mistakes made on purpose in the demo, the starter shop and every notebook of the tests, and whether they are named.

`make mistakes` makes them all and prints the table by class; `test_mistakes.py` holds the share on a sample.
"""
