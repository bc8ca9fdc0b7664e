"""Tolerances: a lamp whose parts are what they are sold as."""
