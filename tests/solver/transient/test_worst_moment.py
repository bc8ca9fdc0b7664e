"""The worst moment to plug in is found among all moments, whatever the mains looks like and whatever has failed.

The rush by brute force: every second degree of the mains, each run kept to its end. Bound: 1 part in 1000.
"""

from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp
from dropper.circuit.lamp import replace_at
from dropper.solver.transient import Fault, plug_in, unplug, with_fault, worst_plug_in
from dropper.solver.transient.pull import volts_left

LAMPS = Path(__file__).resolve().parents[3] / "notebooks" / "lamps"
STAIR = Lamp.from_toml(LAMPS / "stair_marker.toml")
SHELF = Lamp.from_toml(LAMPS / "shelf_strip.toml")
MAINS = {
    "sine": {},
    "flat": {3: (0.3, 180.0), 5: (0.2, 0.0)},
    "heavy even harmonics": {2: (0.3, 40.0), 4: (0.15, 10.0)},
    "ripple control": {2: (0.2, 40.0), 40: (0.05, 10.0)},
}
FAULTS = (None, Fault("open", "D1"), Fault("short", "D1 and D2"), Fault("short", "smoothing"))


@pytest.mark.slow
@pytest.mark.parametrize("shape", MAINS)
@pytest.mark.parametrize("inductance", [0.0, 0.8e-3, 20e-3])
def test_no_moment_makes_more_of_a_rush(shape, inductance):
    for lamp in (STAIR, SHELF):
        for fault in FAULTS:
            one = replace_at(lamp, "mains.harmonics", MAINS[shape])
            one = one if fault is None else with_fault(one, fault)
            for again in (False, True):
                worst = worst_plug_in(one, again, 0.25, line_inductance=inductance)
                most = max(
                    plug_in(one, angle, worst.precharge, 0.0, 0.25, line_inductance=inductance).line_current_peak
                    for angle in np.arange(0.0, 360.0, 4.0)
                )
                assert worst.line_current_peak > 0.999 * most, (lamp.name, shape, fault, inductance, again, worst.angle)


@pytest.mark.parametrize("fault", [None, Fault("lost", "dropper", 0.5), Fault("open", "D1")])
def test_one_walk_round_the_cycle_leaves_the_volts_that_each_pull_leaves(fault):
    """Against `unplug`, which starts anew for each moment: within 5 mV of some hundred volts."""
    lamp = STAIR if fault is None else with_fault(STAIR, fault)
    angles = [36.0, 108.0, 180.0, 252.0, 324.0]
    for angle, left in zip(angles, volts_left(lamp, angles, 0.5, 1e7), strict=True):
        trace = unplug(lamp, angle, 0.5, 1e7)
        each = [trace.pins_voltage[-1], trace.dropper_voltage[-1], trace.bus_voltage[-1]]
        np.testing.assert_allclose(left, each, atol=5e-3, err_msg=f"{angle}°")
