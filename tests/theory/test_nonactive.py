"""Nonactive powers against the solver, on a lamp that is nearly the ideal one of the closed forms."""

import dataclasses
import math
from pathlib import Path

import pytest
from dropper import Lamp, steady_state, theory
from dropper.results import explain

STAIR = Path(__file__).resolve().parents[2] / "notebooks" / "lamps" / "stair_marker.toml"


@pytest.mark.parametrize("groups", [8, 22, 60, 85])
def test_a_lamp_with_nothing_in_the_way(groups):
    """2 % of the distortion power, 1 % of the others: conduction starts less abruptly than in the closed form, for a
    diode's drop is no constant."""
    own = Lamp.from_toml(STAIR)
    lamp = dataclasses.replace(
        own,
        string=dataclasses.replace(own.string, in_series=groups),
        smoothing=1e-2,
        bleeder=None,
        smoothing_bleeder=None,
        inrush_resistor=0.0,
    )
    result = steady_state(lamp, points=4096)
    assert result.settled and not result.dark
    voltage, fundamental = lamp.mains.voltage, result.harmonic_currents[1]
    sine = math.sqrt(1 - result.displacement_factor**2)
    read = {
        "fundamental_reactive_power": voltage * fundamental * sine,
        "fundamental_apparent_power": voltage * fundamental,
        "current_distortion_power": voltage * fundamental * result.current_thd,
        "nonactive_power": math.sqrt(result.apparent_power**2 - result.real_power**2),
    }
    for name, value in read.items():
        derivation = theory.ALL[name]
        found = derivation(**explain.values_for(derivation, lamp, result))
        tolerance = 0.02 if name == "current_distortion_power" else 0.01
        assert found == pytest.approx(value, rel=tolerance), name
    parts = theory.apparent_power_from_parts(
        real_power=result.real_power,
        reactive_power=read["fundamental_reactive_power"],
        current_distortion_power=read["current_distortion_power"],
    )
    assert parts == pytest.approx(result.apparent_power, rel=1e-6), "whatever the lamp, if the voltage is a sine"


def test_a_square_current():
    """Its fundamental is 2 root 2 / pi of its rms (IEEE 1459-2010's terms; the figure from Fourier's series)."""
    voltage, current = 230.0, 0.05
    fundamental = current * 2 * math.sqrt(2) / math.pi
    rest = math.sqrt(current**2 - fundamental**2)
    assert rest / fundamental == pytest.approx(0.483426, abs=5e-7)
    angle = math.radians(40)
    apparent = theory.apparent_power_from_parts(
        real_power=voltage * fundamental * math.cos(angle),
        reactive_power=voltage * fundamental * math.sin(angle),
        current_distortion_power=voltage * rest,
    )
    assert apparent == pytest.approx(voltage * current, rel=1e-12)
