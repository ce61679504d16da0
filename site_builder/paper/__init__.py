"""The shop on paper: the book, cards for the bench, and sheets to write on. Views in, PDF out; no rule, no sum."""
