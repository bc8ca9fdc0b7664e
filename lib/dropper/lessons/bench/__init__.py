"""Bench: one lamp, six sliders, its waveforms, its readings and its heat."""
