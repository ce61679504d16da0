"""Arithmetic of the craft: numbers in, numbers out. No files, no notebook, no pages."""
