"""Planning in plain numbers: can these hands do this work by a day, who does what when, and what is narrow."""
