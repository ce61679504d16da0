"""The season laid on the notebook: what is planned from, the plan as a file, and what was really done beside it."""
