"""Smoothing: how much the light wavers, against the smoothing capacitor and against published limits."""
