"""Panels: sliders, pictures and read-outs for the notebooks. No physics in here."""

from .bench import Bench

__all__ = ["Bench"]
