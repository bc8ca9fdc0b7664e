"""Bench list: the bench check-list of a lamp."""
