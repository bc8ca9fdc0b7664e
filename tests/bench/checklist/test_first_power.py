"""A filament lamp in series: its balance against an independent integrator, and what its glow can tell."""

import numpy as np
import pytest
from dropper import Lamp, replace_at
from dropper.bench.checklist import FilamentLamp, faults_by_glow, first_power
from dropper.solver.transient import Fault, settle, with_fault
from transient_reference import Circuit, parts_of, readings, settled
from transient_scenes import broken

LAMPS = [f"notebooks/lamps/{name}.toml" for name in ("stair_marker", "shelf_strip", "display_case")]
STAIR = Lamp.from_toml(LAMPS[0])


@pytest.mark.parametrize("fault", [None, Fault("short", "dropper"), Fault("short", "D1")], ids=str)
def test_the_balance_holds_for_an_independent_integrator(fault):
    """SciPy's LSODA on its own equations gives the current that keeps the filament where it was found (2 %)."""
    filament = FilamentLamp(230.0, 25.0)
    lamp = STAIR if fault is None else with_fault(STAIR, fault)
    found = first_power(lamp, filament)
    parts = Circuit(broken(STAIR, fault) if fault else parts_of(STAIR), found.resistance)
    rms = readings(settled(parts, *found.state.start), parts)["line_current_rms"]
    assert rms == pytest.approx(filament.current(found.temperature), rel=0.02)
    assert found.power == pytest.approx(rms**2 * found.resistance, rel=0.05)


@pytest.mark.parametrize("path", LAMPS)
def test_a_whole_lamp_leaves_it_dark_and_a_shorted_dropper_does_not(path):
    """Common practice, no source: some tens of milliamperes leave a small filament lamp dark, any glow is a stop."""
    lamp = Lamp.from_toml(path)
    filament = FilamentLamp.for_lamp(lamp)
    assert not first_power(lamp, filament).glows
    assert "is dark" in first_power(lamp, filament).sentence
    glowing, dark = faults_by_glow(lamp, filament)
    assert {"dropper short", "dropper's bleeder short"} <= {one.fault for one in glowing}
    assert {"dropper open", "diode D1 open", "string open"} <= {one.fault for one in dark}


def test_a_shorted_bus_hides_behind_the_dropper():
    """The dropper limits the current to V over Xc, 23.8 mA: 25 W at 230 V glow from far more."""
    found = first_power(with_fault(STAIR, Fault("short", "smoothing")), FilamentLamp(230.0, 25.0))
    assert found.state.line_current_rms == pytest.approx(230 * 2 * np.pi * 50 * 330e-9, rel=0.01)
    assert not found.glows


def test_more_current_makes_it_hotter():
    filament = FilamentLamp(230.0, 15.0)
    heats = [first_power(replace_at(STAIR, "dropper", farads), filament).temperature for farads in (1e-7, 3e-7, 1e-6)]
    assert heats == sorted(heats) and heats[2] > heats[0] + 100


def test_a_lamp_too_faint_or_unheard_of_is_refused_in_words():
    with pytest.raises(ValueError, match=r"FilamentLamp.power: 5 W at 230 V is too faint .* at least 11.8 W"):
        FilamentLamp(230.0, 5.0)
    with pytest.raises(ValueError, match="FilamentLamp.voltage"):
        FilamentLamp(1000.0, 40.0)


@pytest.mark.parametrize(
    ("path", "volts", "farads"),
    [
        ("classroom_twin", 24.0, 470e-9),
        ("stair_marker", 230.0, 10e-9),
        ("stair_marker", 24.0, 470e-9),
        ("display_case", 120.0, 4.7e-9),
    ],
)
def test_a_feeble_lamp_leaves_the_filament_cold(path, volts, farads):
    lamp = Lamp.from_toml(f"notebooks/lamps/{path}.toml")
    lamp = replace_at(replace_at(lamp, "mains.voltage", volts), "dropper", farads)
    found = first_power(lamp, FilamentLamp.for_lamp(lamp))
    cold = settle(lamp, found.filament.resistance(298.0))
    assert not found.glows and found.temperature < 320
    assert found.state.line_current_rms == pytest.approx(cold.line_current_rms, rel=0.01)
