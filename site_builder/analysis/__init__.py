"""One object that rules and pages ask: notebook, index, references, route, figures, holders, today."""
