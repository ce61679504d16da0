"""The benchmark: notebooks of growing size against peers measured in the same run. No test depends on it."""
