"""Proof by numbers: what pieces, grades, times and measurements show, and how surely. Numbers in, numbers out."""
