"""Elasticity: per cent of the string's current for one per cent of each part, by formula and by the solver."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, value_at
from ...results import explain
from ...solver.steady import spread, steady_state, steady_states

_STEP = 0.01  # of each part, either way
_POINTS = 1024
_DROPPED = "string.led.forward_voltage"
# field, name, derivation
_ROWS = (
    ("mains.voltage", "mains voltage", "elasticity_to_peak_voltage"),
    ("dropper", "dropper", "elasticity_to_dropper"),
    ("mains.frequency", "mains frequency", "elasticity_to_frequency"),
    (_DROPPED, "clamped voltage of the LEDs", "elasticity_to_clamped_voltage"),
    ("inrush_resistor", "inrush resistor", ""),
    ("series_resistor", "series resistor", ""),
    ("smoothing", "smoothing capacitor", ""),
)


@documented
@dataclass(frozen=True)
class Elasticity:
    """Per cent of the string's mean current for one per cent of a part."""

    path: str = about("the field of the lamp")
    name: str
    formula: float = about("the ideal lamp's; 0 where its current does not depend on the part at all")
    solver: float = about("from a step of one per cent either way; nan for a lamp that is dark there")
    derivation: str = about('name of the formula; "" where the ideal lamp has no such part')
    values: dict = about("what was put into it, by keyword")

    def __repr__(self) -> str:
        return f"<Elasticity to {self.name}: {self.formula:+.2f} by formula, {self.solver:+.2f} by the solver>"

    @property
    def words(self) -> str:
        """The figure in a sentence."""
        signed = f"{self.formula:+.2f}".replace("-", "−")
        return f"One per cent more {self.name} changes the mean current by {signed} per cent."


def elasticities(lamp: Lamp, points: int = _POINTS) -> tuple[Elasticity, ...]:
    """How much each part weighs, the weightiest first.

    The last formula's per cent are those of the clamped voltage (string and two diodes), which the solver moves by the
    LEDs' forward voltage and measures. Resistors and smoothing capacitor stand in no formula of the mean current: an
    ideal lamp has none of the first and plenty of the last.

    Parameters
    ----------
    points
        As for `steady_states`.

    Returns
    -------
    tuple of Elasticity
        Empty where the lamp is dark.
    """
    result = steady_state(lamp, points)
    peak = lamp.mains.peak
    clamped = explain.clamped_voltage(lamp, result)
    if result.dark or clamped >= peak:
        return ()
    values = {
        "frequency": lamp.mains.frequency,
        "dropper": lamp.dropper,
        "peak_voltage": peak,
        "clamped_voltage": clamped,
    }
    rows = [row for row in _ROWS if value_at(lamp, row[0])]
    steps = np.ones((2 * len(rows), len(rows)))
    for place in range(len(rows)):
        steps[2 * place : 2 * place + 2, place] += (-_STEP, _STEP)
    changes = {path: value_at(lamp, path) * steps[:, place] for place, (path, _, _) in enumerate(rows)}
    states = steady_states(spread(lamp, changes), points)
    conducting = states.string_current_mean / np.maximum(states.conduction_fraction, 1e-9)
    clamped = states.bus_voltage_mean + 2 * np.array([lamp.diode.voltage_at(current) for current in conducting])
    weights = []
    for place, (path, name, derivation) in enumerate(rows):
        pair = slice(2 * place, 2 * place + 2)
        below, above = (clamped if path == _DROPPED else steps[:, place])[pair]
        low, high = states.string_current_mean[pair]
        slope = np.log(high / low) / np.log(above / below) if low > 0 and not states.dark[pair].any() else np.nan
        formula = theory.ALL[derivation](**values) if derivation else 0.0
        weights.append(Elasticity(path, name, formula, float(slope), derivation, values if derivation else {}))
    return tuple(sorted(weights, key=lambda one: -abs(one.formula if one.derivation else one.solver)))
