"""Lets the tests of this folder import the reference of the transients."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "transient"))
