"""Dropper: capacitor-dropper LED lamps, derived, predicted and shown.

    from dropper import Lamp, steady_state
    lamp = Lamp.from_toml("lamps/stair_marker.toml")
    steady_state(lamp).power_factor

The rooms, from the bottom up: `circuit`, `components`, `standards`, `theory`, `solver`, `results`, `bench`, `design`,
`sheet`, `lessons`, `lab`, `teaching`. Each is loaded when it is first named.
"""

from typing import TYPE_CHECKING

import lazy_loader as lazy

if TYPE_CHECKING:
    from .circuit.lamp import Diode, Lamp, Led, LedString, Mains, Readings, replace_at
    from .circuit.lampfile import LampFileError
    from .solver.steady import SteadyState, spread, steady_state, steady_states

_ROOMS = (
    "bench",
    "circuit",
    "components",
    "design",
    "lab",
    "lessons",
    "results",
    "sheet",
    "solver",
    "standards",
    "teaching",
    "theory",
)
# The page's server reads `dropper.lab` and needs no solver: nothing is loaded before it is named.
_NAMES = {
    "circuit.lamp": ["Diode", "Lamp", "Led", "LedString", "Mains", "Readings", "replace_at"],
    "circuit.lampfile": ["LampFileError"],
    "solver.steady": ["SteadyState", "spread", "steady_state", "steady_states"],
}
__getattr__, _, _ = lazy.attach(__name__, submodules=_ROOMS, submod_attrs=_NAMES)
__version__ = "0.1.0"
__all__ = [
    "Diode",
    "Lamp",
    "LampFileError",
    "Led",
    "LedString",
    "Mains",
    "Readings",
    "SteadyState",
    "replace_at",
    "spread",
    "steady_state",
    "steady_states",
]


def __dir__() -> list[str]:
    return sorted([*__all__, *_ROOMS, "__version__"])
