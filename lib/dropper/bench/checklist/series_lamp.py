"""Series lamp: first power through a filament lamp, how brightly it glows, with the lamp whole and with each fault."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, check, documented, quantity
from ...circuit.lamp import Lamp
from ...circuit.values import show, show_reading
from ...solver.steady import SteadyState, spread, steady_states
from ...solver.transient import Fault, Faulty, faults_of, settle, with_fault

ROOM = 298.0  # K
# K from which a filament is seen to glow: the Draper point, value from memory. The words for what is hotter are common
# practice, no source.
GLOWS = ((798.0, "dark"), (1000.0, "a dull red"), (1400.0, "red"), (2000.0, "orange"), (2400.0, "yellow"))
_BRIGHT = "bright"
WELL_DARK = 700.0  # K
WATTS = (5.0, 15.0, 25.0, 40.0, 60.0, 100.0)
HIGHEST_HOT = 4500.0  # Ω; the transient solver takes 10 kΩ in the line, and this one is hotter than its rating at most
_POINTS = 512  # in a cycle of the mains
_HOTTEST = 1.2  # times the rated temperature; more than the mains could do in series with anything


@documented
@dataclass(frozen=True)
class FilamentLamp:
    """A filament lamp as it is marked, and what typical practice adds to that.

    Raises
    ------
    ValueError
        For a value out of range.
    """

    voltage: float = quantity("V", 12, 250, meaning="rated voltage of the filament lamp")
    power: float = quantity("W", 1, 200, meaning="rated power of the filament lamp")
    hot_temperature: float = quantity("K", 2000, 3200, 2700.0, meaning="filament's temperature at the rating")
    conducted_share: float = quantity("", 0, 0.5, 0.15, meaning="share of the rated power lost by conduction")

    def __post_init__(self):
        check(self)
        if self.voltage**2 / self.power > HIGHEST_HOT:
            least = show(self.voltage**2 / HIGHEST_HOT, "W")
            raise ValueError(
                f"FilamentLamp.power: {show(self.power, 'W')} at {show(self.voltage, 'V')} is too faint a lamp for"
                f" this; at least {least} at that voltage"
            )

    @classmethod
    def for_lamp(cls, lamp: Lamp) -> FilamentLamp:
        """The smallest common one of the mains' voltage that stays dark even with the lamp's output shorted.

        So whatever the lamp's sound dropper lets through leaves it dark, and a glow means that the dropper is bridged.

        Returns
        -------
        FilamentLamp
            The largest of them if none stays dark.
        """
        volts = min(max(lamp.mains.voltage, 12.0), 250.0)
        choices = [cls(volts, watts) for watts in WATTS if volts**2 / watts <= HIGHEST_HOT]
        shorted = with_fault(lamp, Fault("short", "D1 and D3"))
        return next((item for item in choices if first_power(shorted, item).temperature < WELL_DARK), choices[-1])

    @property
    def marked(self) -> str:
        """Volts and watts as on the glass."""
        return f"{show(self.voltage, 'V')} {show(self.power, 'W')}"

    def _rating(self):
        return {"filament_rating": self.power, "hot_temperature": self.hot_temperature}

    def resistance(self, temperature: float) -> float:
        """Ohms at a filament's temperature in K (`theory.filament_resistance`)."""
        return theory.filament_resistance(
            filament_voltage=self.voltage, filament_temperature=temperature, **self._rating()
        )

    def current(self, temperature: float | np.ndarray) -> float | np.ndarray:
        """Rms amperes that keep the filament at a temperature in K (`theory.filament_current`)."""
        return theory.filament_current(**self.values(temperature))

    def values(self, temperature: float | np.ndarray) -> dict[str, float]:
        """What to put into `theory.filament_current`, by keyword."""
        return self._rating() | {
            "filament_voltage": self.voltage,
            "filament_temperature": temperature,
            "cold_temperature": ROOM,
            "conducted_share": self.conducted_share,
        }


@documented
@dataclass(frozen=True, eq=False)
class FirstPower:
    """A lamp, whole or with a fault, in series with a filament lamp, once both are steady."""

    filament: FilamentLamp
    temperature: float = about("of the filament", "K")
    resistance: float = about("of the filament", "Ω")
    power: float = about("of the filament", "W")
    state: SteadyState = about("of the lamp in series with it")
    fault: str = about('In words; "" for the whole lamp.')

    def __repr__(self) -> str:
        return (
            f"<FirstPower of {self.filament.marked}{f', {self.fault}' if self.fault else ''}: filament {self.glow},"
            f" {self.temperature:.0f} K at {show(self.state.line_current_rms, 'A')}>"
        )

    @property
    def glow(self) -> str:
        """What is seen of the filament, in a word or two."""
        return next((word for kelvins, word in GLOWS if self.temperature < kelvins), _BRIGHT)

    @property
    def glows(self) -> bool:
        """Whether anything is seen of it."""
        return self.glow != "dark"

    @property
    def sentence(self) -> str:
        """The same with its figures."""
        head = f"{self.fault[0].upper()}{self.fault[1:]}. The" if self.fault else "With the lamp whole the"
        seen = f"glows {self.glow}" if self.glow == _BRIGHT else f"is {self.glow}"
        return (
            f"{head} filament {seen}: {show_reading(self.state.line_current_rms, 'A')} rms keep it at"
            f" {self.temperature:.0f} K, where it has {show_reading(self.resistance, 'Ω')} and takes"
            f" {show_reading(self.power, 'W')}."
        )


def first_power(lamp: Lamp | Faulty, filament: FilamentLamp) -> FirstPower:
    """First power of a lamp in series with a filament lamp.

    The filament is at the temperature at which it gives off what its current brings.

    Raises
    ------
    ArithmeticError
        If the circuit's equations could not be solved.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> first_power(lamp, FilamentLamp(230, 25))
    <FirstPower of 230 V 25 W: filament dark, 351 K at 21.6 mA>
    """
    return _first_power(lamp, filament)


def currents_behind(lamp: Lamp | Faulty, filament: FilamentLamp, temperatures: Sequence[float]) -> np.ndarray:
    """Line current, rms, that a lamp lets through a filament held at each of some temperatures.

    Parameters
    ----------
    temperatures
        K.

    Returns
    -------
    ndarray
        A.

    Raises
    ------
    ArithmeticError
        If the circuit's equations could not be solved.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> [round(1e3 * float(amperes), 1) for amperes in currents_behind(lamp, FilamentLamp(230, 25), (300, 2700))]
    [21.6, 20.3]
    """
    ohms = np.array([filament.resistance(kelvins) for kelvins in temperatures])
    if isinstance(lamp, Lamp):  # to a whole lamp, ohms in the line are ohms of its resistor
        return steady_states(spread(lamp, {"inrush_resistor": lamp.inrush_resistor + ohms}), _POINTS).line_current_rms
    return np.array([settle(lamp, each).line_current_rms for each in ohms])


@functools.lru_cache(maxsize=16)
def _heating_curve(filament):
    """Temperatures, K, and the currents, A, that keep the filament at them."""
    kelvins = np.linspace(ROOM + 1e-3, _HOTTEST * filament.hot_temperature, 4000)
    return kelvins, filament.current(kelvins)


@functools.lru_cache(maxsize=256)
def _first_power(lamp, filament):
    kelvins, currents = _heating_curve(filament)

    @functools.cache
    def circuit_at(current):
        """The filament's temperature at a current, its ohms, and the state of the lamp."""
        temperature = float(np.interp(current, currents, kelvins))
        resistance = filament.resistance(temperature)
        return temperature, resistance, settle(lamp, resistance)

    def excess(current):
        """By how much the lamp lets more through than a current that the filament is as warm by."""
        return circuit_at(current)[2].line_current_rms - current

    most = circuit_at(0.0)[2].line_current_rms  # a filament that warms lets less through, or hardly any more
    while excess(most) > 0:
        most *= 1.1
    current = _meeting(excess, most) if most else 0.0
    temperature, resistance, state = circuit_at(current)
    fault = lamp.fault.words(lamp.lamp) if isinstance(lamp, Faulty) else ""
    return FirstPower(filament, temperature, resistance, state.line_current_rms**2 * resistance, state, fault)


def _meeting(excess, most):
    """Where a falling function crosses zero below `most`, to a ten-thousandth: false position, Illinois's way.

    An end that stays twice running counts half (M. Dowell and P. Jarratt, BIT 11 (1971), p. 168, from memory).
    """
    low, high, above, below, last_moved = 0.0, most, excess(0.0), excess(most), ""
    for _ in range(60):
        middle = (low * below - high * above) / (below - above)
        here = excess(middle)
        if abs(here) <= 1e-7 + 1e-4 * middle:
            return middle
        if here > 0:
            low, above, below = middle, here, below / 2 if last_moved == "low" else below
        else:
            high, below, above = middle, here, above / 2 if last_moved == "high" else above
        last_moved = "low" if here > 0 else "high"
    return middle


def faults_by_glow(lamp: Lamp, filament: FilamentLamp) -> tuple[tuple[FirstPower, ...], tuple[FirstPower, ...]]:
    """Which single faults make the filament glow, and which leave it as dark as the whole lamp does.

    Returns
    -------
    (tuple of FirstPower, tuple of FirstPower)
        Those that glow, and those that do not.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02, 9.0), 22), 330e-9, 10e-6, 1e6, 220.0)
    >>> glowing, dark = faults_by_glow(lamp, FilamentLamp(230, 25))
    >>> [trial.fault for trial in glowing]
    ['dropper short', "dropper's bleeder short"]
    """
    trials = [first_power(with_fault(lamp, fault), filament) for fault in faults_of(lamp)]
    return tuple(trial for trial in trials if trial.glows), tuple(trial for trial in trials if not trial.glows)
