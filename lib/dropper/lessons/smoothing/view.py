"""Smoothing view: how deep the light flickers, against the smoothing capacitor and against published limits."""

import math
from dataclasses import dataclass

import numpy as np

from ... import standards, theory
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...results.explain import reading, values_for
from ...results.light import Light, light_of
from ...results.reading import Reading
from ...solver import flicker
from ...solver.steady import SteadyState, spread, steady_state, steady_states

POINTS = 1024  # as every other page, so that a reading is the same number on all of them
LEAST, MOST = 0.47e-6, 1e-3  # F: the capacitors that the curve is drawn for
_SMOOTHINGS = np.geomspace(LEAST, MOST, 33)
_CURRENTS = "string_current_mean", "string_current_max", "string_current_min"


@documented
@dataclass(frozen=True, eq=False)
class View:
    """One period of light, the curve of flicker against the smoothing capacitor, and the limits."""

    lamp: Lamp
    result: SteadyState
    light: np.ndarray = about("string current over its mean; zeros if dark")
    smoothings: np.ndarray = about("smoothing capacitors of the curve", "F")
    flickers: np.ndarray = about("percent flicker with each of them", "%")
    frequency: float = about("frequency of the flicker", "Hz")
    low_risk: float = about("percent flicker of low risk there, nan where the standard gives none", "%")
    no_effect: float = about("percent flicker without effect there, nan likewise", "%")
    sufficient: tuple = about("smoothing that meets the low-risk and the no-effect line, nan where none here does", "F")
    visibility: float = about("stroboscopic visibility of the light, nan if dark")
    readings: tuple

    @property
    def glow(self) -> Light:
        """The light through a period."""
        return light_of(self.lamp, self.result)


def low_risk(lamp: Lamp) -> float:
    """Percent flicker of low risk at the frequency of the lamp's light, nan where the standard gives none."""
    return standards.low_risk_modulation(2 * lamp.mains.frequency)


def view_of(lamp: Lamp) -> View:
    """What a lamp shows."""
    result = steady_state(lamp, POINTS)
    batch = steady_states(spread(lamp, {"smoothing": _SMOOTHINGS}))
    frequency = 2 * lamp.mains.frequency
    lines = low_risk(lamp), standards.no_effect_modulation(frequency)
    dark = result.dark
    flickers = np.full(len(_SMOOTHINGS), np.nan) if dark else batch.percent_flicker
    light = result.string_current / result.string_current_mean if not dark else np.zeros(POINTS)
    visibility = math.nan if dark else float(flicker.stroboscopic_visibility(light, lamp.mains.frequency))
    sufficient = tuple(_where(flickers, line) for line in lines)
    return View(
        lamp=lamp,
        result=result,
        light=light,
        smoothings=_SMOOTHINGS,
        flickers=flickers,
        frequency=frequency,
        low_risk=lines[0],
        no_effect=lines[1],
        sufficient=sufficient,
        visibility=visibility,
        readings=() if dark else _readings(lamp, result, lines, sufficient, visibility),
    )


def _ripple(lamp, result, values):
    """Ripple of the bus and its bound; without a smoothing capacitor there is no bound."""
    names = "bus ripple, p–p", "ripple by the textbook bound"
    if not lamp.smoothing:
        why = "Without a smoothing capacitor the bus follows the string's curve down to its knee, and no bound holds."
        return (
            Reading("bus_ripple", names[0], result.bus_ripple, "V", "", note=why),
            Reading("ripple_bound", names[1], math.nan, "V", "", note=why),
        )
    bound = values("ripple_bound")
    most = theory.ripple_bound(**bound)
    return (
        reading("bus_ripple", lamp, result),
        Reading("ripple_bound", names[1], most, "V", "ripple_bound", bound, True),
    )


def _where(flickers, line):
    """The smoothing capacitor whose flicker falls to the line, on the curve; nan where it never does."""
    below = np.flatnonzero(flickers <= line)
    if not len(below):
        return math.nan
    k = below[0]
    if k == 0:
        return LEAST
    near, far = np.log(flickers[k - 1 : k + 1])
    share = (near - math.log(line)) / (near - far)
    return float(_SMOOTHINGS[k - 1] * (_SMOOTHINGS[k] / _SMOOTHINGS[k - 1]) ** share)


def _readings(lamp, result, lines, sufficient, visibility):
    def values(name):
        return values_for(theory.ALL[name], lamp, result)

    swing = values("percent_flicker_of_swing")["current_modulation"]
    visible = float(flicker.visibility_threshold(2 * lamp.mains.frequency))
    visibility_values = {"current_modulation": swing, "visible_modulation": visible}
    string_values = values("string_resistance")
    rows = [reading(name, lamp, result) for name in ("percent_flicker", *_CURRENTS)]
    rows += [
        Reading(
            "flicker_index",
            "flicker index",
            result.flicker_index,
            "",
            "flicker_index_of_swing",
            values("flicker_index_of_swing"),
        ),
        Reading(
            "visibility",
            "stroboscopic visibility",
            visibility,
            "",
            "stroboscopic_visibility_of_swing",
            visibility_values,
        ),
        Reading(
            "string_resistance",
            "dynamic resistance of the LEDs",
            theory.string_resistance(**string_values),
            "Ω",
            "string_resistance",
            string_values,
            True,
        ),
    ]
    rows += _ripple(lamp, result, values)
    lamp_values = {key: value for key, value in values("current_modulation").items() if key != "smoothing"}
    for key, name, line, farads in (
        ("low_risk", "smoothing for low risk", lines[0], sufficient[0]),
        ("no_effect", "smoothing for no effect", lines[1], sufficient[1]),
    ):
        line_values = lamp_values | {"current_modulation": line / 100}
        rows.append(Reading(key, name, farads, "F", "smoothing_for_modulation", line_values))
    return tuple(rows)
