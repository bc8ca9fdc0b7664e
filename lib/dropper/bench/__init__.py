"""Bench: what one measures on a lamp, with meters and oscilloscope, and what the readings say."""

import lazy_loader as lazy

__getattr__, __dir__, __all__ = lazy.attach(
    __name__, submodules=["checklist", "diagnosis", "led_fit", "meter", "residual", "table", "waveform"]
)
