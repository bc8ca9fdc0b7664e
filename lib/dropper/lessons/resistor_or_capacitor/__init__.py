"""Resistor or capacitor: one load, fed through a resistor or through a capacitor."""
