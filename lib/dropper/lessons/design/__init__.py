"""Design: designing a lamp."""
