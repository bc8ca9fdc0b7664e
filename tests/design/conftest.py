"""Lets the tests of this folder import the second look beside them and the witness of transients."""

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "transient")]
