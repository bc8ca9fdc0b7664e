"""Measurement: a recorded lamp beside the predicted one."""
