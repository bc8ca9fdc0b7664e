"""Attribution: which part explains a difference; the dropper scales the current, the clamped voltage its start."""

from __future__ import annotations

import functools
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, replace_at
from ...solver.steady import steady_states
from .prediction import on_measured_mains, predicted_wave

if TYPE_CHECKING:
    from .measurement import Measurement

STEP = 0.02  # relative change that the slopes are taken with
ORDERS = 15
LEAST, MOST = (-0.8, -0.7), (12.0, 1.0)  # how far dropper and clamped voltage may go
NOTHING = 0.02  # of the current: what is no farther apart needs no explanation
NEAR_BY = 0.1  # of the current: what a noisy recording of the same lamp may be apart
ASTRAY = 0.2  # one sigma: with parts as unsure as that the fit has found nothing
ROUNDS = 4
NEAR = 2e-3  # a move so small is the last one


@documented
@dataclass(frozen=True)
class Attribution:
    """The changes of two parts that bring the prediction nearest to what was measured."""

    dropper: float = about("Relative change of the dropper's capacitance.")
    dropper_uncertainty: float = about(
        "One sigma, the current's scale counted: a probe that reads 3 % high looks like 3 % more capacitance."
    )
    clamped_voltage: float = about("Relative change of the string's voltage, and with it of D.")
    clamped_voltage_uncertainty: float = about("One sigma.")
    explained_share: float = about("Share of the squared difference that both changes take away, 0 to 1.")
    difference: float = about("Rms of the difference over the rms of the predicted current.")
    part: str = about(
        '"dropper" or "clamped" for what explains most of it; "" where neither does, or there is nothing to explain.'
    )
    words: str = about("What the fit says, in a sentence or two.")

    def __repr__(self) -> str:
        return (
            f"<Attribution to {self.part or 'neither'!r}: dropper {100 * self.dropper:+.3g} %, clamped voltage"
            f" {100 * self.clamped_voltage:+.3g} %, {100 * self.explained_share:.3g} % explained>"
        )


def attribute(measurement: Measurement, lamp: Lamp) -> Attribution:
    """Which of two parts explains the difference between a measured line current and the predicted one.

    Weighted least squares on the first 15 harmonics of the measured mean period (and on the mean bus voltage, where it
    was recorded), with the slopes of the solver's waveforms for relative changes of C and of the string's voltage, and
    a third unknown: by how much the current was taken out of step with the voltage, held near nothing by what is known.

    Parameters
    ----------
    measurement
        With a line current.
    lamp
        One that lights; it is put on the measured mains first, so that the mains is not attributed to a part.
    """
    return _attribution(measurement, on_measured_mains(lamp, measurement))


@functools.lru_cache(maxsize=16)
def _attribution(measurement, lamp):
    cycles = measurement.cycles["line_current"]
    wave, noise = _lines(cycles.mean), np.sqrt(cycles.variance)
    bus = measurement.cycles.get("bus_voltage")
    points = max(cycles.rows.shape[1], 256)
    late = measurement.recording.skew / np.sqrt(3) * measurement.frequency.value  # of a period, one sigma
    place, first, best, steps = np.zeros(2), None, None, STEP * np.eye(2)
    for _ in range(ROUNDS):
        states = list(steady_states([_at(lamp, place), *(_at(lamp, place + step) for step in steps)], points, True))
        currents = [_lines(predicted_wave(measurement, state, "line_current")) for state in states]
        rest = wave - currents[0]
        first = rest if first is None else first
        slopes = [(current - currents[0]) / STEP for current in currents[1:]]
        slopes = np.column_stack([*slopes, late * _delay_slope(currents[0])]) / noise
        slopes, target = np.vstack([slopes, [0, 0, 1]]), np.append(rest / noise, 0.0)
        if bus is not None:
            level = [state.bus_voltage_mean for state in states]
            # The bus' own scale is no better than its limit of error allows.
            weight = np.hypot(measurement.bus_mean.uncertainty, 1e-3 * level[0])
            slopes = np.vstack([slopes, [*((level[k] - level[0]) / STEP / weight for k in (1, 2)), 0]])
            target = np.append(target, (bus.mean.mean() - level[0]) / weight)
        move = np.linalg.lstsq(slopes, target, rcond=None)[0]
        best = rest - (slopes[: wave.size] * noise) @ move
        move = move[:2]
        place = np.clip(place + np.clip(move, (-0.6, -0.5), (6.0, 0.5)), LEAST, MOST)
        if np.abs(move).max() < NEAR:
            break
    squares = float(first @ first)
    explained = 1 - float(best @ best) / squares if squares > 0 else 0.0
    unsure = np.sqrt(np.diag(np.linalg.pinv(slopes.T @ slopes)))
    # What is left over and is no noise widens what is known of the parts.
    unsure *= np.sqrt(max(float(best @ best) / (wave.size - 2) / noise**2, 1.0))
    scale = measurement.recording.accuracy("line_current") / np.sqrt(3)
    difference = np.sqrt(squares / max(float((wave - first) @ (wave - first)), 1e-30))
    fit = place[0], float(np.hypot(unsure[0], scale)), place[1], float(np.hypot(unsure[1], 0.002))
    part = _part(fit, explained, difference)
    return Attribution(*map(float, fit), explained, float(difference), part, _words(fit, explained, difference, part))


def _lines(wave):
    """Sine and cosine parts of the first harmonics, scaled so that noise is as large in each as in a sample.

    A start of conduction that moves changes the samples near it by leaps, the first harmonics in proportion.
    """
    lines = np.fft.rfft(wave)[1 : ORDERS + 1] * np.sqrt(2 / wave.size)
    return np.concatenate([lines.real, lines.imag])


def _delay_slope(lines):
    """By how much the same parts change for each period that the wave comes later."""
    real, imaginary = lines[: lines.size // 2], lines[lines.size // 2 :]
    turn = 2 * np.pi * np.arange(1, real.size + 1)
    return np.concatenate([turn * imaginary, -turn * real])


def _at(lamp, place):
    """The lamp with its dropper and its string's voltage changed by factors 1 + place."""
    led = lamp.string.led
    changed = replace_at(lamp, "dropper", min(lamp.dropper * (1 + float(place[0])), 1e-4))
    factor = 1 + float(place[1])
    return replace_at(changed, "string.led", replace(led, forward_voltage=_forward_voltage(led, factor)))


def _forward_voltage(led, factor):
    """Forward voltage changed by a factor, kept where the LED's law still holds."""
    least = 1.2 * led.series_resistance * led.at_current + 0.4
    most = led.series_resistance * led.at_current + 190 * led.slope_voltage
    low, high = min(least, led.forward_voltage), min(max(most, led.forward_voltage), 100.0)
    return min(max(led.forward_voltage * factor, low), high)


def _changed(fit):
    """Which of the two has changed by more than is unsure."""
    c, c_unsure, d, d_unsure = fit
    return abs(c) > max(2 * c_unsure, 0.01), abs(d) > max(2 * d_unsure, 0.01)


def _is_astray(fit):
    """Whether the fit went astray: to the end of its range, or with parts as unsure as they are large."""
    c, c_unsure, d, d_unsure = fit
    at_an_end = c <= 0.99 * LEAST[0] or c >= 0.99 * MOST[0] or d <= 0.99 * LEAST[1] or d >= 0.99 * MOST[1]
    return at_an_end or max(c_unsure, d_unsure) > ASTRAY


def _part(fit, explained, difference):
    c, c_unsure, d, d_unsure = fit
    dropper, clamped = _changed(fit)
    if difference < NOTHING or not (dropper or clamped) or explained < 0.5 or _is_astray(fit):
        return ""
    return "dropper" if dropper and (not clamped or abs(c) / c_unsure > abs(d) / d_unsure) else "clamped"


def _words(fit, explained, difference, part):
    c, c_unsure, d, d_unsure = fit
    changes = [
        f"{name} {100 * value:+.1f} ± {max(200 * unsure, 0.1):.1f} %".replace("-", "−")
        for name, value, unsure in (("dropper", c, c_unsure), ("clamped voltage", d, d_unsure))
    ]
    if difference < NOTHING or (difference < NEAR_BY and not (any(_changed(fit)) or _is_astray(fit))):
        return (
            f"Nothing to explain: the difference is {100 * difference:.1f} % of the current, and the parts that fit"
            f" best are those of the lamp within what is not known ({', '.join(changes)})."
        )
    if not part:
        if _is_astray(fit):
            return (
                f"No change of dropper and clamped voltage within reach brings the prediction there: they are"
                f" {100 * difference:.0f} % of the current apart. Is it the same lamp, with as many LEDs of the same"
                " volts?"
            )
        return (
            f"Neither dropper nor clamped voltage explains the difference ({100 * max(explained, 0):.0f} % of it): look"
            " at the shape of the residual for a part that is missing or broken."
        )
    cause = {
        "dropper": "The whole curve is scaled: that points to the dropper's capacitance, or of the current's own scale",
        "clamped": "The current starts at another angle: that points to the clamped voltage, of the string or the"
        " diodes",
    }[part]
    both = "; both count" if all(_changed(fit)) else ""
    return f"{cause} (best fit: {', '.join(changes)}{both}; it takes away {100 * explained:.0f} % of the difference)."
