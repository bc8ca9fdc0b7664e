"""Smoothing: how deep the light flickers, against the smoothing capacitor and against published limits."""
