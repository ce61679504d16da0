"""Benchlore: a shop's YAML notebook goes in, findings and a handbook come out.

Layers, lowest first; a module imports only from layers above it in this list:

``quantity``  units, limits, durations, cadences
``notebook``  what the shop wrote, typed and frozen, each value with file, line and column
``mastery``   who holds which skill, by the book of sign-offs
``checks``    findings: errors, warnings and the questions for the master
``handbook``  pages, drawings, pictures and the MkDocs plugin
``cli``       the command ``benchlore``
"""
