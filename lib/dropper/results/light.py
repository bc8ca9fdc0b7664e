"""Light: how bright a string is through one period, beside its light at the current that its LEDs are stated for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..circuit.fields import about, documented
from ..circuit.values import show, show_reading

if TYPE_CHECKING:
    from ..circuit.lamp import Lamp
    from ..solver.state import SteadyState

STEPS = 24  # of a period


@documented
@dataclass(frozen=True, eq=False)
class Light:
    """The light of a lamp through one period, to be drawn."""

    shares: np.ndarray = about("of full light, at even intervals from start to end of a period; may pass 1")
    period: float = about("of the mains", "s")
    words: str = about("what full light is, and how much is there")
    filament: str = about("what is seen of a filament, in a word; '' for LEDs", default="")

    @property
    def mean(self) -> float:
        """The mean of the shares."""
        return float(self.shares[:-1].mean())

    @property
    def steady(self) -> bool:
        """Whether its flicker is too little to be drawn."""
        return bool(np.ptp(self.shares) < 0.02 * max(self.shares.max(), 0.05))

    @property
    def flashes(self) -> int:
        """How often in a period it rises through the middle between its least and its most."""
        above = self.shares[:-1] > (self.shares.max() + self.shares.min()) / 2
        return int(np.sum(above & ~np.roll(above, 1)))


def light_of(lamp: Lamp, result: SteadyState) -> Light:
    """The light of a lamp's string: each LED's current over the current that it is stated for.

    Parameters
    ----------
    result
        With its waves.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains, steady_state
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF")
    >>> light = light_of(lamp, steady_state(lamp))
    >>> round(light.mean, 2), light.flashes, light.period
    (0.85, 2, 0.02)
    """
    full = lamp.string.in_parallel * lamp.string.led.at_current
    period = 1 / lamp.mains.frequency
    shares = np.zeros(STEPS + 1)
    if not result.dark:
        times = np.linspace(0.0, period, STEPS + 1)
        shares = np.maximum(np.interp(times, result.time, result.string_current, period=period), 0.0) / full
    words = (
        f"Full light is that of {show(full, 'A')} through the string, the current that its LEDs are stated for."
        f" Here {show_reading(result.string_current_mean, 'A', full=True)} flows on average."
    )
    return Light(shares, period, words)


def glow_of(word: str, period: float, words: str) -> Light:
    """The light of a filament, which is too slow to flicker.

    Parameters
    ----------
    word
        What is seen of it: "dark", "a dull red" …

    Examples
    --------
    >>> glow_of("dark", 0.02, "").steady
    True
    """
    return Light(np.full(STEPS + 1, float(word != "dark")), period, words, word)
