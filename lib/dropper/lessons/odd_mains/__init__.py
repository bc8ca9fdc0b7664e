"""Odd mains: a lamp on an inverter, a dimmer or a flat-topped mains, beside the same lamp on a sine."""
