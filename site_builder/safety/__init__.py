"""Arithmetic of staying whole: noise, vibration, lifting, air. Numbers in, numbers out.

What comes out is an estimate from the figures that were given, for the day that was assumed. It replaces neither
a measurement nor the judgement of a qualified person, and local law decides.
"""
