"""Fault finding: a learner's own readings of a lamp, and what they say."""
