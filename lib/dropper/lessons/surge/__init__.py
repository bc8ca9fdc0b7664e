"""Surge: what a steep pulse on the mains does to each part, with a varistor and without."""
