"""Dropper: capacitor-dropper LED lamps, derived, predicted and shown.

    from dropper import Lamp, steady_state
    lamp = Lamp.from_toml("lamps/stair_marker.toml")
    steady_state(lamp).power_factor

`dropper.theory` holds the derivations, `dropper.panels` the sliders and pictures; both are
loaded when first used.
"""

from .lamp import Diode, Lamp, Led, LedString, Mains, Readings, replace_at
from .lampfile import LampFileError
from .steady import SteadyState, spread, steady_state, steady_states

__version__ = "0.1.0"
__all__ = [
    "Diode", "Lamp", "LampFileError", "Led", "LedString", "Mains", "Readings", "SteadyState",
    "replace_at", "spread", "steady_state", "steady_states",
]  # fmt: skip
