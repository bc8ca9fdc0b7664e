"""Budget of errors: how far each source moves each of a lamp's readings, and what they come to together."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from ...bench.meter import Multimeter, PlugInMeter
from ...bench.meter.expectation import reactive_power
from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show_estimate
from ...results import explain
from ...solver.steady import SteadyState, steady_state, steady_states
from ...solver.transient.repeating_cycle import settle
from .sources import METER, MODEL, Source, sources_of

POINTS = 1024  # as every page, so that a reading is the same number on all of them
_BATCH_POINTS = 512  # of lamps that are only compared with each other
COVERAGE = (
    "The ± is the root of the sum of the squares of half-widths that know nothing of each other (JCGM 100:2008, "
    "5.1.2): √3 standard uncertainties where each is spread evenly. Of sound lamps more than nine in ten lie within it."
)
_SHOWN_BY_PLUG_IN = {field: name for name, (_, _, field) in PlugInMeter().digits().items()}
_NOTHING = 1e-9  # A, W or V


@documented
@dataclass(frozen=True, eq=False)
class Share:
    """What one source alone does to every reading."""

    source: Source
    half_widths: Mapping[str, float] = about("by the key of the reading: how far it moves it at most", "SI units")


@documented
@dataclass(frozen=True, eq=False)
class ErrorBar:
    """The ± of one reading."""

    key: str = about("of the reading")
    name: str = about("of the reading, in words")
    unit: str
    value: float = about("as predicted", "SI units")
    half_width: float = about("of all sources together", "SI units")
    largest: Source = about("the source with the largest share")
    share: float = about("that share's own half-width", "SI units")
    metered: bool = about("whether a meter's own error is in it")

    def __repr__(self) -> str:
        return f"<ErrorBar {self.name}: {self.text}, most of it {self.largest.name}>"

    @property
    def text(self) -> str:
        """The prediction and its ±, no more digits than can be known."""
        return show_estimate(self.value, self.half_width, self.unit)

    @property
    def words(self) -> str:
        """The reading, its ± and what makes most of it, in a sentence."""
        percent = f", {100 * self.half_width / abs(self.value):.2g} %" if abs(self.value) > _NOTHING else ""
        alone = show_estimate(0.0, self.share, self.unit).partition("± ")[2]
        name = self.name[0].upper() + self.name[1:]
        return f"{name}: {self.text}{percent}. The largest part of the ±: {self.largest.name}, {alone} by itself."


@documented
@dataclass(frozen=True, eq=False)
class ErrorBudget:
    """All sources of error of one lamp, and the ± of its readings."""

    lamp: Lamp
    shares: tuple[Share, ...] = about("one for each source, the lamp's parts first")
    bars: Mapping[str, ErrorBar] = about("by the key of the reading; none for a lamp that stays dark")

    def __repr__(self) -> str:
        return f"<ErrorBudget of {self.lamp.name!r}: {len(self.shares)} sources, {len(self.bars)} readings>"

    def half_width(self, source: str, reading: str) -> float:
        """How far one source alone moves one reading at most, SI units.

        Parameters
        ----------
        source
            Its key.
        reading
            Its key.

        Raises
        ------
        KeyError
            For a source or a reading that this lamp does not have.
        """
        for share in self.shares:
            if share.source.key == source:
                return share.half_widths[reading]
        raise KeyError(
            f"{excerpt(source)} is no source here; choose from {', '.join(s.source.key for s in self.shares)}"
        )


@functools.lru_cache(maxsize=32)
def _kept(lamp, harmonics, meter, multimeter):
    """Lamps are alike where their mains' harmonics are, which no hash knows of."""
    return _budget(lamp, meter, multimeter)


def error_budget(lamp: Lamp, meter: PlugInMeter | None = None, multimeter: Multimeter | None = None) -> ErrorBudget:
    """The ± of every reading of a lamp: parts within tolerance, what the model leaves out, and the meter.

    Each source is put into the solver by itself; what it moves a reading at most is its half-width, either way. A
    lamp's budget is kept, so that asking twice costs nothing.

    Parameters
    ----------
    meter
        For amperes, watts, volt-amperes and power factor in the line, and for the mains' volts.
    multimeter
        For the volts on the bus. What neither of them shows has parts and model in its ± alone.

    Raises
    ------
    ValueError
        If a part at the end of its tolerance is more than a lamp may have.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", 220)
    >>> error_budget(lamp).bars["string_current_mean"]
    <ErrorBar string current, mean: 16.9 ± 1.9 mA, most of it dropper>

    Source: JCGM 100:2008, 5.1.2 (independent quantities) and 4.3.7 (bounds alone are known); from memory.
    """
    return _kept(lamp, tuple(lamp.mains.harmonics.items()), meter or PlugInMeter(), multimeter or Multimeter())


def combined(half_widths: Iterable[float]) -> float:
    """What half-widths that know nothing of each other come to: the root of the sum of their squares.

    Examples
    --------
    >>> combined([3.0, 4.0])
    5.0

    Source: JCGM 100:2008, 5.1.2, every weight taken up in its half-width; from memory.
    """
    return math.hypot(*half_widths)


def _budget(lamp, meter, multimeter):
    result = steady_state(lamp, POINTS)
    if result.dark:
        return ErrorBudget(lamp, (), {})
    sources = sources_of(lamp, result, meter)
    shares = [Share(source, widths) for source, widths in zip(sources, _solved(lamp, sources), strict=True)]
    coarse = steady_state(lamp, POINTS // 2)
    steps = Source("steps", "steps of the solver", MODEL, f"{POINTS // 2} in place of {POINTS}", "its own two answers")
    shares.append(Share(steps, {key: abs(getattr(coarse, key) - getattr(result, key)) for key in explain.QUESTIONS}))
    shown = _by_meter(result, meter, multimeter)
    display = Source("meter", "the meter", METER, "digits and error", "common practice, no source")
    shares.append(Share(display, {key: shown.get(key, 0.0) for key in explain.QUESTIONS}))
    bars = {key: _bar(key, lamp, result, shares, key in shown) for key in explain.QUESTIONS}
    return ErrorBudget(lamp, tuple(shares), bars)


def _solved(lamp, sources):
    """Half-widths by reading, of each source: all their lamps solved together."""
    lamps = [lamp, *(one for source in sources for one in source.lamps)]
    states = steady_states(lamps, _BATCH_POINTS)
    first = 1
    for source in sources:
        last = first + len(source.lamps)
        if source.lamps:
            yield {
                key: float(np.nanmax(np.abs(column[first:last] - column[0])))
                for key in explain.QUESTIONS
                for column in [getattr(states, key)]
            }
        else:
            ideal, real = settle(lamp), settle(lamp, smoothing_series=source.smoothing_series)
            moved = {key: abs(getattr(real, key) - getattr(ideal, key)) for key in explain.QUESTIONS}
            # the network solver gives no harmonics of the line current, which this hardly moves
            yield {key: 0.0 if math.isnan(width) else width for key, width in moved.items()}
        first = last


def _by_meter(result: SteadyState, meter, multimeter):
    """Half-widths of what meters show: their stated limits of error, a phase error's watts, half a digit."""
    watts = math.sin(meter.phase_error) * reactive_power(result)
    phase = {"power": watts, "power_factor": watts / result.apparent_power}
    widths = {}
    for field, name in _SHOWN_BY_PLUG_IN.items():
        scale, value = meter.scales()[name], getattr(result, field)
        widths[field] = scale.error_limit(value) + phase.get(name, 0.0) + scale.step(value) / 2
    volts = result.bus_voltage_mean
    widths["bus_voltage_mean"] = multimeter.dc_volts.error_limit(volts) + multimeter.dc_volts.step(volts) / 2
    return widths


def _bar(key, lamp, result, shares, metered):
    reading = explain.reading(key, lamp, result)
    largest = max(shares, key=lambda share: share.half_widths[key])
    width = combined(share.half_widths[key] for share in shares)
    return ErrorBar(
        key, reading.name, reading.unit, reading.value, width, largest.source, largest.half_widths[key], metered
    )
