"""Conduction view: one moment of the mains cycle, its conducting diodes, and the charge that has been moved."""

from dataclasses import dataclass

import numpy as np

from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp
from ...results.explain import clamped_voltage
from ...results.light import Light, light_of
from ...results.reading import Reading
from ...solver.steady import SteadyState, steady_state

POINTS = 1024
_LEAST = 2e-3  # of its peak: a smaller line current counts as none


@documented
@dataclass(frozen=True)
class Moment:
    """A lamp, and where in the mains cycle we stop to look."""

    lamp: Lamp
    phase: float = quantity("°", 0, 360, 40.0, meaning="angle from the mains' rise through zero")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """The period with its conduction, and the moment in it. Angles in degrees, the rest SI."""

    moment: Moment
    result: SteadyState
    angle: np.ndarray
    start: float = about("where conduction starts in the positive half, nan if dark", "°")
    end: float = about("where it ends", "°")
    conducting: str = about("'positive' (D1 and D4), 'negative' (D2 and D3) or '' (none)")
    filling: bool = about("whether the smoothing capacitor is being charged")
    lit: bool = about("whether the string carries current")
    mains_voltage: float
    line_current: float
    dropper_voltage: float
    string_current: float
    charge: float = about("charge moved since conduction began; all of a half cycle's while none conducts", "C")
    charge_whole: float = about("charge moved in half a cycle", "C")
    readings: tuple

    @property
    def glow(self) -> Light:
        """The light through a period."""
        return light_of(self.moment.lamp, self.result)


def view_of(moment: Moment) -> View:
    """What a moment shows."""
    lamp = moment.lamp
    result = steady_state(lamp, POINTS)
    angle = 360 * result.time * lamp.mains.frequency

    def now_of(curve):
        return float(np.interp(moment.phase, angle, curve, period=360))

    current = result.line_current
    least = _LEAST * max(np.abs(current).max(), 1e-9)
    positive = current > least
    start, end = _span(positive, angle)
    now = now_of(current)
    conducting = "" if abs(now) <= least else "positive" if now > 0 else "negative"
    step = 1 / (lamp.mains.frequency * POINTS)
    whole = float(np.abs(current).sum() * step / 2)
    moved = _charge_since_start(current, moment.phase / 360 * POINTS, step)
    return View(
        moment=moment,
        result=result,
        angle=angle,
        start=start,
        end=end,
        conducting=conducting,
        filling=bool(lamp.smoothing and abs(now) > now_of(result.string_current)),
        lit=bool(now_of(result.string_current) > 1e-3 * lamp.string.led.at_current),
        mains_voltage=now_of(result.mains_voltage),
        line_current=now,
        dropper_voltage=now_of(result.dropper_voltage),
        string_current=now_of(result.string_current),
        charge=moved if conducting else whole,
        charge_whole=whole,
        readings=_readings(moment, result, (now_of(result.mains_voltage), now), (start, end), conducting, moved, whole),
    )


def _span(on, angle):
    """First and last angle of the one stretch in which it is on, the first within ±180°; nan if it never is."""
    if not on.any() or on.all():
        return np.nan, np.nan
    first = np.flatnonzero(on & ~np.roll(on, 1))[0]
    last = np.flatnonzero(on & ~np.roll(on, -1))
    half = 180 / len(angle)
    start = angle[first] - half
    start -= 360 if start > 180 else 0
    return float(start), float(angle[last[0]] + half)


def _charge_since_start(current, place, step):
    """Charge since the present stretch of one direction began; the place is counted in samples, with its fraction."""
    place %= len(current)
    here = int(place)
    before = np.roll(current, len(current) - here)
    same = np.sign(before) == np.sign(current[here])
    run = np.flatnonzero(~same)
    first = run[-1] + 1 if len(run) else 0
    return float((np.abs(before[first:]).sum() + (place - here) * abs(current[here])) * step)


def _readings(moment, result, now, span, conducting, moved, whole):
    lamp, (start, end) = moment.lamp, span
    peak = lamp.mains.peak
    degrees = float(np.degrees(1))
    phase = np.radians(moment.phase)
    rows = [
        Reading(
            "mains_voltage",
            "mains voltage now",
            now[0],
            "V",
            "mains_voltage_at",
            {"voltage": lamp.mains.voltage, "phase": phase},
        )
    ]
    if result.dark:
        return tuple(rows)
    clamped = min(clamped_voltage(lamp, result), peak * (1 - 1e-6))
    clamp = {"peak_voltage": peak, "clamped_voltage": clamped}
    source = {"frequency": lamp.mains.frequency, "dropper": lamp.dropper}
    charge_values = {"dropper": lamp.dropper} | clamp
    wave = {"peak_voltage": peak, "phase": phase}
    if conducting:
        side = 0.0 if conducting == "positive" else np.pi
        rows += [
            Reading("line_current", "line current now", now[1], "A", "line_current_at", source | wave),
            Reading(
                "charge",
                "charge moved so far",
                moved,
                "C",
                "charge_so_far",
                charge_values | {"phase": _within(phase - side)},
            ),
        ]
    else:
        rows += [
            Reading("line_current", "line current now", 0.0, "A", "", note="No diode conducts now."),
            Reading("charge", "charge moved so far", whole, "C", "charge_per_half_cycle", charge_values),
        ]
    bus = result.bus_voltage_mean
    rows += [
        Reading(
            "clamped_voltage",
            "clamped voltage D",
            clamped,
            "V",
            "clamped_voltage",
            {"string_voltage": bus, "diode_voltage": (clamped - bus) / 2},
            True,
        ),
        Reading("charge_whole", "charge a half cycle", whole, "C", "charge_per_half_cycle", charge_values),
        Reading("start", "conduction starts at", start, "°", "conduction_start", clamp, scale=degrees),
        Reading("width", "and lasts for", (end - start) % 360, "°", "conduction_angle", clamp, scale=degrees),
        Reading(
            "dropper_voltage_peak",
            "dropper voltage, peak",
            result.dropper_voltage_peak,
            "V",
            "dropper_voltage_peak",
            clamp,
        ),
        Reading(
            "string_current_mean",
            "string current, mean",
            result.string_current_mean,
            "A",
            "mean_string_current",
            source | clamp,
        ),
    ]
    return tuple(rows)


def _within(angle):
    """The same angle between -180 and 180 degrees, in radians."""
    return float((angle + np.pi) % (2 * np.pi) - np.pi)
