"""Part check: a print as typed."""
