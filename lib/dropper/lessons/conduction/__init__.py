"""Conduction: one moment of the mains cycle."""
