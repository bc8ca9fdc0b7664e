"""Markings: a resistor's bands as picked."""
