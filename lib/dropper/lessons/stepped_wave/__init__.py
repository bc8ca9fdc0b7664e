"""Stepped wave: a lamp on an inverter whose wave goes in steps."""
