"""Plugging: plug in and pull out."""
