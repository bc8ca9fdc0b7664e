"""Load line: what sets the current."""
