"""The worst moment to plug in is found among all moments, whatever the mains looks like and whatever has failed.

The rush by brute force: every second degree of the mains, each run kept to its end. Bound: 1 part in 1000.
"""

from pathlib import Path

import numpy as np
import pytest
from dropper import Lamp
from dropper.circuit.lamp import replace_at
from dropper.solver.transient import Fault, plug_in, with_fault, worst_plug_in

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
