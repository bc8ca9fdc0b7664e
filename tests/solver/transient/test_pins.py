"""What a meter between the pins of a pulled plug reads: the bus stands against the dropper."""

import math

import numpy as np
import pytest
from dropper import Lamp
from dropper.solver.transient import unplug
from transient_reference import Circuit, follow, parts_of, settled
from transient_scenes import LINE

METER = 10e6
NAMES = ("stair_marker", "display_case")
PULLED = 90.0  # degrees


def lamp_named(name):
    return Lamp.from_toml(f"notebooks/lamps/{name}.toml")


def witness(lamp, seconds):
    """SciPy's own account: its settled cycle, a quarter of a period more, then the meter in place of the mains."""
    live = Circuit(parts_of(lamp), LINE)
    clear = np.array([1, 1, 1, 1, 1, 0, 0])
    start = settled(live, 0.0, lamp.string.voltage_at(0.01)).end * clear
    crest = follow(live, 0.0, PULLED / 360 * live.period, start).end * clear
    out = Circuit(parts_of(lamp), METER)
    out.factor = 0.0
    return follow(out, 0.0, seconds, crest, longest=0.01, resistance=lamp.inrush_resistor)


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_volts_between_the_pins_agree_with_scipy(name):
    lamp = lamp_named(name)
    trace, seen = unplug(lamp, PULLED, 1.05, METER, LINE), witness(lamp, 1.05)
    for seconds in (1e-3, 0.5, 1.0):
        for mine, theirs in (
            (trace.pins_voltage, seen.pins),
            (trace.dropper_voltage, seen.dropper),
            (trace.bus_voltage, seen.bus),
        ):
            expected = np.interp(seconds, seen.time, np.abs(theirs))
            assert np.interp(seconds, trace.time, np.abs(mine)) == pytest.approx(expected, rel=0.01, abs=0.1), seconds


def test_the_pins_show_the_dropper_less_the_bus_worked_by_hand():
    """Kirchhoff's voltage law once round: meter, inrush resistor, dropper, two diodes, bus.

    Display case, pulled at the crest, by pencil: 325.3 V less 102.7 V of string and two diodes leave 222.6 V on its
    dropper; a second later 1 MΩ and 680 nF leave 222.6·e^(−1/0.68) = 51.2 V of it, the meter has taken 3 V more, and
    the bus stands at 34.7 V. 48.0 − 34.7 less two diodes of 0.4 V at a microampere: 12.5 V show. Stair marker: 12 V
    stand against a bus of 44 V, and nothing shows.
    """
    trace = unplug(lamp_named("display_case"), PULLED, 1.0, METER)
    dropper, bus, pins = (
        abs(float(wave[-1])) for wave in (trace.dropper_voltage, trace.bus_voltage, trace.pins_voltage)
    )
    assert pins == pytest.approx(222.6 * math.exp(-1 / 0.68) - 3.2 - 34.7 - 0.8, abs=0.3)
    current = pins / METER
    assert pins == pytest.approx(dropper - bus - 2 * lamp_named("display_case").diode.voltage_at(current), abs=0.05)
    trace = unplug(lamp_named("stair_marker"), PULLED, 1.0, METER)
    assert abs(trace.dropper_voltage[-1]) < trace.bus_voltage[-1] and abs(trace.pins_voltage[-1]) < 0.1


def test_nothing_between_the_pins_is_no_empty_dropper():
    """Half a second after the pull the stair marker shows 1 V, and 52 V wait behind it."""
    trace = unplug(lamp_named("stair_marker"), PULLED, 0.5, METER)
    assert abs(trace.pins_voltage[-1]) < 2 and abs(trace.dropper_voltage[-1]) > 45 and trace.bus_voltage[-1] > 45
    open_pins = unplug(lamp_named("stair_marker"), PULLED, 0.5)
    left = abs(float(open_pins.dropper_voltage[0])) * math.exp(-0.5 / 0.33)  # 1 MΩ times 330 nF
    assert abs(float(open_pins.dropper_voltage[-1])) == pytest.approx(left, rel=0.01)
