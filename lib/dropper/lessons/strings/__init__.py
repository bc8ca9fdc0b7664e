"""Strings: choosing the string."""
