"""Law of parallel branches, and the voltage that they have in common, for one set of branches or thousands at once.

Each branch obeys v = a·ln(1 + i/Is) + R·i: LEDs of any kind in series add up to one such law, for the current is far
above the saturation current of each. Turned round, i is given by Wright's omega function.
"""

from dataclasses import dataclass

import numpy as np

_CLOSE = 1e-12  # of the total current: how well the branches' currents add up to it
_ROUNDS = 100


@dataclass(frozen=True, eq=False)
class Laws:
    """Branches along the last axis: slope voltage a in V, ln(Is in A), resistance R in Ω; a is 0 for a plain wire.

    No branch may have neither slope nor resistance.
    """

    slope: np.ndarray
    log_saturation: np.ndarray
    resistance: np.ndarray

    def voltage(self, current: np.ndarray) -> np.ndarray:
        """The voltage of each branch at a current in A."""
        saturation = np.exp(self.log_saturation)
        return self.slope * np.log1p(current / saturation) + self.resistance * current

    def current(self, voltage: np.ndarray) -> np.ndarray:
        """The current of each branch at a voltage in V from 0 up."""
        from scipy.special import wrightomega

        saturation = np.exp(self.log_saturation)
        slope = np.where(self.slope > 0, self.slope, 1.0)
        resistance = np.where(self.resistance > 0, self.resistance, 1.0)
        inside = self.log_saturation + np.log(resistance / slope) + (voltage + saturation * resistance) / slope
        both = np.where(voltage > 0, slope / resistance * wrightomega(inside) - saturation, 0.0)
        if np.all((self.slope > 0) & (self.resistance > 0)):
            return both
        bare = np.exp(np.minimum(self.log_saturation + voltage / slope, 700.0)) - saturation
        return np.where(self.slope == 0, voltage / resistance, np.where(self.resistance == 0, bare, both))

    def conductance(self, current: np.ndarray) -> np.ndarray:
        """Amperes more for each volt more, of each branch at its current."""
        return 1 / (self.slope / (current + np.exp(self.log_saturation)) + self.resistance)


def in_common(laws: Laws, total: float | np.ndarray) -> np.ndarray:
    """The voltage at which the branches carry the total current together.

    The sum of the currents rises with the voltage, and ever more steeply: Newton's method comes down on it from above
    and cannot miss. It starts where the first branch carries its even share, and is held between that and where the
    first branch carries all.

    Parameters
    ----------
    total
        A, from 0 up; one for each set of branches.

    Returns
    -------
    array
        V, one for each set of branches.

    Raises
    ------
    ArithmeticError
        If the currents do not come to add up, which no lawful branch brings about.
    """
    total = np.asarray(total, float)[..., None]
    least = laws.voltage(total / laws.slope.shape[-1]).min(axis=-1, keepdims=True)
    most = laws.voltage(total).min(axis=-1, keepdims=True)
    voltage = least
    for _ in range(_ROUNDS):
        current = laws.current(voltage)
        excess = current.sum(axis=-1, keepdims=True) - total
        if np.all(np.abs(excess) <= _CLOSE * total):
            return voltage[..., 0]
        step = excess / laws.conductance(current).sum(axis=-1, keepdims=True)
        moved = np.clip(voltage - step, least, most)
        if np.all(np.abs(moved - voltage) <= 4 * np.spacing(voltage)):
            return moved[..., 0]
        voltage = moved
    raise ArithmeticError("sharing: no common voltage was found")
