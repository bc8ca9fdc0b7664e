"""Body: a person as a resistance from one node of a lamp to earth, or from hand to hand across its string.

Earth is where the mains has it: at the neutral, as in most public networks. Which side of the lamp the neutral is on
depends on the way in which the plug is put in, and on most plugs nobody can see that.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ..kernel import network as net

LEAST, MOST = 100.0, 1e9  # Ω; the most is a voltmeter's, not a person's
HANDS = {
    "minus": "the minus of the string",
    "plus": "the plus of the string",
    "bridge": "the bridge's terminal behind the dropper",
    "string": "plus and minus, hand to hand",
}
LIVE = {"dropper": "live at the dropper", "bridge": "live at the bridge"}


@documented
@dataclass(frozen=True)
class Body:
    """A person in the circuit. The other end is on earth, but for a hand on each side of the string."""

    resistance: float = about("of the whole body, skin and shoes included; 100 Ω to 1 GΩ", "Ω")
    hand: str = about("where the hand is: a key of `HANDS`", default="minus")
    live: str = about("the side of the lamp that the plug puts at live: a key of `LIVE`", default="dropper")

    def __post_init__(self):
        number = self.resistance
        if isinstance(number, bool) or not isinstance(number, int | float) or not LEAST <= number <= MOST:
            raise ValueError(
                f"Body.resistance: {excerpt(number)} is not allowed; it must be from {LEAST:g} to {MOST:g} Ω"
            )
        for name, allowed in (("hand", HANDS), ("live", LIVE)):
            if getattr(self, name) not in allowed:
                raise ValueError(
                    f"Body.{name}: {excerpt(getattr(self, name))} is unknown; it can be {', '.join(allowed)}"
                )

    @property
    def to_earth(self) -> bool:
        """Whether the current leaves the lamp's own two wires."""
        return self.hand != "string"

    def enter(self, row: np.ndarray) -> None:
        """Put the body into a circuit's row of numbers."""
        row[net.BODY_BRIDGE if self.hand == "bridge" else net.BODY] = 1 / self.resistance
        row[net.BODY_MINUS] = float(self.hand in ("minus", "plus"))
        row[net.BODY_BUS] = float(self.hand in ("plus", "string"))
        row[net.EARTH_AT_LINE] = float(self.to_earth and self.live == "bridge")

    def voltage(self, bridge: np.ndarray, minus: np.ndarray, bus: np.ndarray, earth: np.ndarray) -> np.ndarray:
        """Voltage across the body, V, from those of the nodes against the bridge's other terminal.

        Parameters
        ----------
        bridge, minus
            Of the terminal behind the dropper, and of the bus's minus.
        bus
            From minus to plus.
        earth
            Of earth.
        """
        if self.hand == "string":
            return bus
        return {"bridge": bridge, "minus": minus, "plus": minus + bus}[self.hand] - earth
