"""Tellings: what is read out of them, tried on phrases of many trades and measured on whole tellings with every cue
marked.
"""
