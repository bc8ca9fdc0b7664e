"""Trace of a transient: waves against time, and what a reader asks of them."""

from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.values import show
from ..state import SteadyState

_PASSED = 0.01  # of its peak: where the first rush of current counts as over


@documented
@dataclass(frozen=True, eq=False, repr=False)
class Trace:
    """A transient. SI units; a sample a step, unevenly spaced; time 0 is the event itself.

    A time may stand twice, before and after a jump. Up to the method's error, `energy_taken` = sum of `heat` +
    `energy_stored`.
    """

    what: str = about('"plug-in", "unplug" or "brownout"')
    angle: float = about("of the mains at time 0", "degrees")
    precharge: float = about("on the dropper at the start of the trace", "V")
    bus_precharge: float = about("on the smoothing capacitor at the start of the trace", "V")
    steady: SteadyState = about("the repeating cycle that the lamp comes from or tends to")
    heat: dict = about(
        'by part over the whole trace, the four diodes together; "line" for what is outside the lamp, the mains\' own'
        " resistance or what stands across the pins of a plug that is out",
        "J",
    )
    energy_taken: float = about("from the mains", "J")
    energy_stored: float = about("that the two capacitors and the line's inductance have gained", "J")
    period: float = about("of the mains", "s")
    inrush_resistor: float = about("its resistance", "Ω")
    dropper: float = about("its capacitance; 0 where it is open or short", "F")
    line_resistance: float = about("of the mains, or what stands across the pins of a plug that is out", "Ω")
    line_inductance: float = about("of the mains; 0 where it is left out", "H")
    time: np.ndarray = about("of each sample", "s", shape="shape (samples,)")
    mains_voltage: np.ndarray = about("0 with the plug out", "V", shape="shape (samples,)")
    pins_voltage: np.ndarray = about("between the plug's pins", "V", shape="shape (samples,)")
    line_current: np.ndarray = about("current from the mains", "A", shape="shape (samples,)")
    dropper_voltage: np.ndarray = about("across the dropper", "V", shape="shape (samples,)")
    bus_voltage: np.ndarray = about("across the smoothing capacitor", "V", shape="shape (samples,)")
    string_current: np.ndarray = about("current of the string", "A", shape="shape (samples,)")
    current_squared: np.ndarray = about("∫i²dt of the line so far", "A²s", shape="shape (samples,)")
    string_charge: np.ndarray = about("∫i dt of the string so far", "C", shape="shape (samples,)")

    def __repr__(self) -> str:
        return (
            f"<Trace of {self.what} at {self.angle:.4g}°, {show(float(self.time[-1]), 's')}: line current up to"
            f" {show(self.line_current_peak, 'A')}, bus up to {show(self.bus_voltage_peak, 'V')}>"
        )

    @property
    def line_current_peak(self) -> float:
        """Greatest line current from time 0 on, either way, A."""
        return float(np.abs(self.line_current[self.time >= 0]).max())

    @property
    def line_current_peak_time(self) -> float:
        """When it flowed, s."""
        since = self.time >= 0
        return float(self.time[since][np.abs(self.line_current[since]).argmax()])

    @property
    def dropper_voltage_peak(self) -> float:
        """Greatest dropper voltage from time 0 on, either way, V."""
        return float(np.abs(self.dropper_voltage[self.time >= 0]).max())

    @property
    def bus_voltage_peak(self) -> float:
        """Greatest bus voltage from time 0 on, V."""
        return float(self.bus_voltage[self.time >= 0].max())

    @property
    def string_current_peak(self) -> float:
        """Greatest string current from time 0 on, A."""
        return float(self.string_current[self.time >= 0].max())

    @property
    def inrush_energy(self) -> float:
        """Joules in the inrush resistor until the first rush has fallen to 1 % of its peak and has rung out.

        The rush is looked for in the first half cycle. 0 with no resistor or no current.
        """
        where = np.flatnonzero((self.time >= 0) & (self.time <= self.period / 2))
        current = np.abs(self.line_current[where])
        top = int(current.argmax())
        flowing = top + np.flatnonzero(current[top:] > _PASSED * current[top])
        # where it rings it passes zero and comes back within half a turn
        half_turn = np.pi * np.sqrt(self.line_inductance * self.dropper)
        rests = (np.diff(flowing) > 1) & (np.diff(self.time[where][flowing]) > half_turn)
        last = flowing[np.flatnonzero(rests)[0]] if rests.any() else (flowing[-1] if flowing.size else top)
        end = where[min(last + 1, where.size - 1)]
        return self.inrush_resistor * float(self.current_squared[end] - self.current_squared[where[0]])

    def i2t(self, seconds: float = 1e-3) -> float:
        """∫i²dt of the line current over the first so many seconds, A²s: a fuse's and a diode's question."""
        start, end = np.interp([0.0, seconds], self.time, self.current_squared)
        return float(end - start)

    def time_to_light(self, share: float = 0.95) -> float:
        """From when on the string current's mean over one mains period stays at or above a share of its settled mean.

        In seconds; 0 where it never is below, nan where it still is below at the trace's end, or
        where the lamp stays dark.
        """
        if self.steady.dark:
            return float("nan")
        since = self.time >= 0
        time, mean = self.time[since], self._means(since)
        level = share * self.steady.string_current_mean
        below = np.flatnonzero(mean < level)
        if not below.size:
            return 0.0
        last = below[-1]
        if last == mean.size - 1:
            return float("nan")
        rest = (level - mean[last]) / (mean[last + 1] - mean[last])
        return float(time[last] + (time[last + 1] - time[last]) * rest)

    @property
    def string_current_least(self) -> float:
        """Least mean of the string current over one mains period from time 0 on, A; nan in a shorter trace."""
        mean = self._means(self.time >= max(0.0, self.time[0] + self.period))
        return float(mean.min()) if mean.size else float("nan")

    def afterglow(self, share: float = 0.01) -> float:
        """Until when the string current is above a share of its mean in the settled lamp, s.

        0 where it is below from the start, nan where it still is above at the trace's end.
        """
        return self._last_above(self.string_current, share * self.steady.string_current_mean)

    def time_below(self, volts: float, where: str = "pins") -> float:
        """From when on a voltage stays at or below a limit, either way round, s.

        `where` is "pins" (between the plug's pins), "dropper" or "bus". 0 where it is below from
        the start, nan where it still is above at the trace's end. A figure for choosing a part,
        no promise that anything is discharged.
        """
        waves = {"pins": self.pins_voltage, "dropper": self.dropper_voltage, "bus": self.bus_voltage}
        if where not in waves:
            raise ValueError(f"where: {excerpt(where)} is not allowed; it must be one of {', '.join(map(repr, waves))}")
        return self._last_above(np.abs(waves[where]), volts)

    def residual_charge(self, seconds: float = 0.0) -> float:
        """Charge on the dropper so many seconds after time 0, C."""
        since = self.time >= 0
        volts = np.interp(seconds, self.time[since], np.abs(self.dropper_voltage[since]))
        return self.dropper * float(volts)

    def _means(self, where):
        before = np.interp(self.time[where] - self.period, self.time, self.string_charge)
        return (self.string_charge[where] - before) / self.period

    def _last_above(self, wave, level):
        since = self.time >= 0
        time, wave = self.time[since], wave[since]
        above = np.flatnonzero(wave > level)
        if not above.size:
            return 0.0
        last = above[-1]
        if last == wave.size - 1:
            return float("nan")
        v0, v1, t0, t1 = wave[last], wave[last + 1], time[last], time[last + 1]
        if level > 0 and v1 > 0:  # what dies away does so exponentially
            return float(t0 + (t1 - t0) * np.log(v0 / level) / np.log(v0 / v1))
        return float(t0 + (t1 - t0) * (v0 - level) / (v0 - v1))
