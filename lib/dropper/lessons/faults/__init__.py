"""Faults: a lamp with one part broken beside the healthy one."""
