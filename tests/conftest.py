"""For all tests: laws are tried on fresh examples at home and on the same ones in CI."""

import os

from hypothesis import settings

settings.register_profile("home", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("BENCHLORE_COMPULSORY") == "1" else "home")
