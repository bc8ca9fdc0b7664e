"""Shape of the current: when it starts, peaks and stops in a half cycle, as IEC 61000-3-2 asks of small lamps.

Angles are of the mains: 0° where its fundamental passes zero upwards. The threshold of flowing, 5 % of the current's
peak: value from memory.
"""

from dataclasses import dataclass

import numpy as np

from ..circuit.fields import about, documented
from ..circuit.values import show

THRESHOLD = 0.05  # of the highest peak: less does not count as flowing
START_BY, PEAK_BY, STOP_FROM = 60.0, 65.0, 90.0  # degrees
_FEWEST = 72


@documented
@dataclass(frozen=True)
class CurrentShape:
    """Start, last peak and stop of the current in a half cycle, degrees; the worse half of the two."""

    starts: float = about("Below 0 where the current leads; nan where none flows in the half cycle.")
    last_peak: float
    stops: float = about("180 where the current flows to the end.")

    @property
    def met(self) -> bool:
        """Whether it starts by 60°, has its last peak by 65° and does not stop before 90°."""
        return bool(self.starts <= START_BY and self.last_peak <= PEAK_BY and self.stops >= STOP_FROM)

    @property
    def words(self) -> str:
        """The three angles, and which of them will not do."""
        if self.starts != self.starts:
            return "in one half cycle no current flows along with the mains"
        parts = (
            f"starts at {_degrees(self.starts)}" + (f", later than {START_BY:g}°" if self.starts > START_BY else ""),
            f"peaks last at {_degrees(self.last_peak)}"
            + (f", later than {PEAK_BY:g}°" if self.last_peak > PEAK_BY else ""),
            f"stops at {_degrees(self.stops)}" + (f", before {STOP_FROM:g}°" if self.stops < STOP_FROM else ""),
        )
        return f"the current {parts[0]}; {parts[1]}; {parts[2]}"


def current_shape(waveform: np.ndarray) -> CurrentShape:
    """Start, last peak and stop of the line current.

    The current flows while it is above 5 % of its highest peak. It starts where it first does so in
    a half cycle, or earlier if it flows already at the mains' zero; it stops where it first falls
    below that again. A peak counts if the current falls by more than 5 % of the highest before the next.

    Parameters
    ----------
    waveform
        Line current over one period, from the zero of the mains' fundamental upwards, at equal
        steps, each value at its interval's middle; an even number of points, 72 or more.

    Returns
    -------
    CurrentShape
        Of both half cycles the later start, the later last peak and the earlier stop.

    Raises
    ------
    ValueError
        For another shape or number of points, values that are not finite, or no current at all.

    Source: IEC 61000-3-2:2018, 7.4.3, way (b); the angles and the threshold value from memory.

    Examples
    --------
    >>> angles = (np.arange(360) + 0.5) * np.pi / 180
    >>> shape = current_shape(np.sin(angles))
    >>> round(shape.starts), round(shape.last_peak), round(shape.stops)
    (3, 90, 177)
    """
    wave = np.asarray(waveform, float)
    if wave.ndim != 1 or len(wave) < _FEWEST or len(wave) % 2:
        raise ValueError(
            f"waveform: shape {wave.shape}; needs one period of an even number of points, {_FEWEST} or more"
        )
    highest = np.abs(wave).max()
    if not 0 < highest < np.inf:
        raise ValueError(f"waveform: its highest value is {show(float(highest), 'A')}; needs a current that flows")
    threshold = THRESHOLD * highest
    halves = [_half(wave, threshold), _half(-np.roll(wave, len(wave) // 2), threshold)]
    starts, peaks, stops = np.transpose(halves)
    return CurrentShape(float(starts.max()), float(peaks.max()), float(stops.min()))  # nan stays nan


def _half(wave, threshold):
    """Start, last peak and stop in the half cycle from 0° to 180° in which the mains is above zero."""
    points = len(wave)
    before = points // 4
    window = np.roll(wave, before)[: before + points // 2]  # from a quarter period before the zero
    step = 360 / points
    flows = window >= threshold
    if not flows[before:].any():
        return np.nan, np.nan, np.nan
    first = before + int(flows[before:].argmax())
    if first == before:
        while first > 0 and flows[first - 1]:
            first -= 1
    rest = ~flows[max(first, before) :]
    end = max(first, before) + int(rest.argmax()) if rest.any() else len(window)

    def angle(k):
        return (k - before + 0.5) * step

    def crossing(k):
        low, high = window[k - 1], window[k]
        return angle(k - 1) + step * (threshold - low) / (high - low)

    starts = crossing(first) if first else angle(0)
    stops = crossing(end) if end < len(window) else 180.0
    back = window[first:][::-1]
    later = np.maximum.accumulate(back)
    fallen = (later >= threshold) & (later - back > threshold)
    until = int(fallen.argmax()) if fallen.any() else len(back)
    last_peak = angle(len(window) - 1 - int(back[:until].argmax()))
    return float(starts), float(last_peak), float(stops)


def _degrees(angle):
    return f"{angle:.1f}°".replace("-", "−")
