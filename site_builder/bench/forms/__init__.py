"""Forms made from the grammar: which keys an entry has, what fills each, and what a filled form makes of the entry."""
