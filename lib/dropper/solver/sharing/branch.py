"""Branches as data, and how a few of them share a current."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.fields import Spec, about, check, check_value, documented, quantity
from ...circuit.lamp import Led
from ...circuit.values import show
from .law import Laws, in_common

_MOST = 1000
_MOST_SHOWN = 4  # branches in a line
TOTAL = Spec("A", 1e-9, 100, zero=True, meaning="current of all branches together")


@documented
@dataclass(frozen=True)
class Warmth:
    """How an LED's own heat lowers its voltage."""

    coefficient: float = quantity("V/K", -0.5, 0, 0.0, meaning="change of an LED's forward voltage with temperature")
    thermal_resistance: float = quantity("K/W", 0, 1e4, 0.0, meaning="from one LED to the air around it")

    def __post_init__(self):
        check(self)

    def taken_from(self, led: Led) -> float:
        """Ω that the warmth of an LED takes from its resistance, 0 or below; see `theory.branch_resistance`."""
        return self.coefficient * self.thermal_resistance * led.forward_voltage


COLD = Warmth()


@documented
@dataclass(frozen=True)
class Branch:
    """LEDs in series, of any kinds, and a resistor of their own."""

    leds: tuple = about("in series, of any kinds; none of them: a wire, as where the only LED is short")
    resistor: float = quantity("Ω", 0, 1e6, 0.0, meaning="resistor of its own in each branch")
    open: bool = about("nothing flows through it", default=False)

    def __post_init__(self):
        check(self)
        if not isinstance(self.leds, tuple) or not all(isinstance(led, Led) for led in self.leds):
            raise TypeError(f"Branch.leds: {excerpt(self.leds)} is no tuple of Led")
        if len(self.leds) > _MOST:
            raise ValueError(f"Branch.leds: {len(self.leds)} are too many; allowed are up to {_MOST}")

    @classmethod
    def of(cls, led: Led, in_series: int = 1, resistor: float = 0.0) -> Branch:
        """A branch of LEDs that are all alike.

        Parameters
        ----------
        resistor
            Ω.
        """
        return cls((led,) * in_series, resistor)

    @cached_property
    def _law(self):
        slopes = [led.slope_voltage for led in self.leds]
        slope = math.fsum(slopes)
        logs = [led.slope_voltage * math.log(led.saturation_current) for led in self.leds]
        resistance = math.fsum(led.series_resistance for led in self.leds)
        return slope, math.fsum(logs) / slope if self.leds else 0.0, resistance + self.resistor

    def law(self, warmth: Warmth = COLD) -> tuple[float, ...]:
        """Slope voltage, logarithm of the saturation current and resistance of the whole branch.

        Raises
        ------
        ValueError
            If warmth takes more ohms than the branch has: then the warmest of several would draw ever more.
        """
        slope, log_saturation, resistance = self._law
        left = resistance + math.fsum(warmth.taken_from(led) for led in self.leds)
        if left < 0:
            raise ValueError(
                f"Warmth: it takes {show(resistance - left, 'Ω')} from a branch that has {show(resistance, 'Ω')}; such"
                " branches come to no steady share, the warmest draws more and more. Give each a resistor"
            )
        return slope, log_saturation, left

    def voltage_at(self, current: float | np.ndarray, warmth: Warmth = COLD) -> np.ndarray:
        """Voltage in V at a current in A; arrays work."""
        return Laws(*map(np.asarray, self.law(warmth))).voltage(current)


@documented
@dataclass(frozen=True, repr=False)
class CurrentShares:
    """How a current splits among branches."""

    voltage: float = about("what the branches have in common", "V")
    currents: tuple = about("of each branch", "A")
    total: float = about("of all branches together", "A")

    def __repr__(self) -> str:
        currents = ", ".join(show(current, "A") for current in self.currents[:_MOST_SHOWN])
        more = " …" * (len(self.currents) > _MOST_SHOWN)
        return f"<CurrentShares at {show(self.voltage, 'V')}: {currents}{more}>"

    @property
    def shares(self) -> tuple[float, ...]:
        """Each branch's part of the total; even parts where nothing flows."""
        if not self.total:
            return (1 / len(self.currents),) * len(self.currents)
        return tuple(current / self.total for current in self.currents)

    @property
    def hottest(self) -> float:
        """The largest current over an even share of all branches, open ones too."""
        return max(self.shares) * len(self.currents)

    @property
    def words(self) -> str:
        """The split in a sentence."""
        currents = ", ".join(show(current, "A") for current in self.currents)
        return f"At {show(self.voltage, 'V')} in common the branches carry {currents}."


def share(branches: Sequence[Branch], total: float, warmth: Warmth = COLD) -> CurrentShares:
    """Split a current among branches side by side.

    Parameters
    ----------
    total
        A, 0 or 1 nA to 100 A, of all together.
    warmth
        Of every LED; none by default, all are equally warm then.

    Raises
    ------
    ValueError
        If there is no branch that is not open, or the current is out of range, or warmth leaves a branch no resistance.

    Examples
    --------
    A white LED and a red one side by side: the red one takes nearly all.

    >>> white, red = Led(3.0, 0.020, 9.0), Led(2.0, 0.020, 6.0)
    >>> [f"{100 * part:.1f} %" for part in share([Branch.of(white), Branch.of(red)], 0.020).shares]
    ['0.0 %', '100.0 %']
    """
    branches = tuple(branches)
    total = check_value("total", total, TOTAL)
    left = [place for place, branch in enumerate(branches) if not branch.open]
    if not left:
        raise ValueError("branches: one at least must be there that is not open")
    laws = np.array([branches[place].law(warmth) for place in left])
    currents = np.zeros(len(branches))
    wires = [place for place, (slope, _, ohms) in zip(left, laws, strict=True) if slope == ohms == 0]
    if wires:  # nothing is left to drop a voltage: they take all
        voltage, currents[wires] = 0.0, total / len(wires)
    else:
        laws = Laws(*laws.T)
        voltage = in_common(laws, total)
        currents[left] = laws.current(voltage)
    return CurrentShares(float(voltage), tuple(currents.tolist()), total)
