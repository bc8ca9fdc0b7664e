"""Formulas: what the closed forms say of a lamp's spread: weights, worst case, corners, and what chance makes of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from ... import theory
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...results import explain
from ...solver.steady import SteadyState

if TYPE_CHECKING:
    from .spread import Spread

WEIGHTS = {
    "mains": "elasticity_to_peak_voltage",
    "dropper": "elasticity_to_dropper",
    "led": "elasticity_to_clamped_voltage",
    "frequency": "elasticity_to_frequency",
}
_TOLERANCES = {
    "mains": "voltage_tolerance",
    "dropper": "dropper_tolerance",
    "led": "clamped_tolerance",
    "frequency": "frequency_tolerance",
}


@documented
@dataclass(frozen=True)
class ByFormula:
    """What to put into the derivations of `theory.tolerance` and `theory.sensitivity` for one lamp and its spread."""

    lamp: dict = about("frequency, dropper, peak and clamped voltage of the nominal lamp")
    below: dict = about(
        "how far each of the four may be below its nominal value, as a fraction, by the key of its axis"
    )
    above: dict = about("how far each may be above it")
    deviations: dict = about("their standard deviations, as fractions")

    def __repr__(self) -> str:
        weights = ", ".join(f"{key} {weight:+.2f}" for key, weight in self.weights.items())
        return f"<ByFormula: per cent of current for one per cent of {weights}>"

    @cached_property
    def weights(self) -> dict[str, float]:
        """Elasticity of the mean string current to each of the four, by the key of its axis."""
        return {key: theory.ALL[derivation](**self.lamp) for key, derivation in WEIGHTS.items()}

    def effect(self, key: str) -> tuple[float, float]:
        """What a part's low and high ends do to the current by its weight, as signed fractions.

        Parameters
        ----------
        key
            One of `WEIGHTS`.
        """
        weight = self.weights[key]
        return -weight * self.below[key], weight * self.above[key]

    @property
    def rise_values(self) -> dict[str, float]:
        """What `theory.greatest_current_rise` takes."""
        return self._volts | _named(self.above | {"led": self.below["led"]})

    @property
    def fall_values(self) -> dict[str, float]:
        """What `theory.greatest_current_fall` takes."""
        return self._volts | _named(self.below | {"led": self.above["led"]})

    @property
    def chance_values(self) -> dict[str, float]:
        """What `theory.root_sum_square_spread` takes, so that it gives a standard deviation."""
        return self._volts | _named(self.deviations)

    @property
    def always_lit(self) -> bool:
        """Whether the mains still reaches the string in the dimmest corner."""
        at = self.fall_values
        return at["peak_voltage"] * (1 - at["voltage_tolerance"]) > at["clamped_voltage"] * (
            1 + at["clamped_tolerance"]
        )

    @property
    def _volts(self):
        return {key: self.lamp[key] for key in ("peak_voltage", "clamped_voltage")}


def by_formula(lamp: Lamp, spread: Spread, result: SteadyState) -> ByFormula | None:
    """The closed forms' inputs for a lamp and its spread.

    A part of the clamped voltage is the diodes' and does not spread: the LEDs' tolerance counts for what they drop.

    Parameters
    ----------
    result
        Of `spread.centre(lamp)`, with waveforms or without.

    Returns
    -------
    ByFormula or None
        None where the nominal lamp is dark.
    """
    centre = spread.centre(lamp)
    peak, clamped = centre.mains.peak, explain.clamped_voltage(centre, result)
    if result.dark or clamped >= peak:
        return None
    string = lamp.string.in_series * lamp.string.led.forward_voltage / clamped
    below, above, deviations = {}, {}, {}
    for axis in spread.axes(lamp):
        if axis.key in WEIGHTS:
            share = string if axis.key == "led" else 1.0
            below[axis.key], above[axis.key] = share * (1 - axis.low), share * (axis.high - 1)
            deviations[axis.key] = share * axis.deviation
    values = {"frequency": centre.mains.frequency, "dropper": centre.dropper, "peak_voltage": peak}
    return ByFormula(values | {"clamped_voltage": clamped}, below, above, deviations)


def _named(tolerances):
    return {_TOLERANCES[key]: value for key, value in tolerances.items()}
