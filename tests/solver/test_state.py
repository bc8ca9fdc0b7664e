"""The steady state as one result: of a healthy lamp and of a faulty one, and how it shows itself."""

import dataclasses
import math
from xml.etree import ElementTree

import numpy as np
import pytest
from dropper import Lamp, Led, LedString, Mains, SteadyState, steady_state, steady_states
from dropper.circuit.fields import unit_of
from dropper.results import style
from dropper.solver import plot
from dropper.solver.transient import Fault, settle, with_fault

LAMP = Lamp(
    name="stair <marker>",
    mains=Mains(230.0, 50.0),
    string=LedString(Led(3.1, 0.020, 9.0), 22),
    dropper=330e-9,
    bleeder=1e6,
    inrush_resistor=220.0,
    smoothing=10e-6,
)
HEALTHY, BROKEN = steady_state(LAMP), steady_state(with_fault(LAMP, Fault("short", "D1")))


def test_a_faulty_lamp_is_taken_as_a_healthy_one_is():
    assert type(HEALTHY) is type(BROKEN) is SteadyState
    assert set(HEALTHY.heat) == set(BROKEN.heat), "one scheme of keys"
    assert BROKEN.real_power == settle(with_fault(LAMP, Fault("short", "D1"))).real_power, "by the network solver"
    assert HEALTHY.word == "same" and BROKEN.word == "dim" and HEALTHY.lamp is LAMP
    assert steady_state(with_fault(LAMP, Fault("open", "string"))).dark


@pytest.mark.parametrize("wrong", ["lamp", None, HEALTHY])
def test_what_is_neither_a_lamp_nor_a_faulty_one_is_refused(wrong):
    with pytest.raises(TypeError, match="neither a Lamp nor one with a fault"):
        steady_state(wrong)
    with pytest.raises(ValueError, match="points"):
        steady_state(with_fault(LAMP, Fault("short", "D1")), 127)


def test_only_what_a_solver_does_not_know_is_missing():
    """Every other reading is there from both, so that no caller need ask which solver it was."""

    def missing(state):
        return {name for name, value in vars(state).items() if value is None or value is math.nan}

    assert missing(HEALTHY) == {"diode_heat", "diode_reverse_peak", "start"}
    quick_only = {"displacement_factor", "current_thd", "harmonic_currents", "flicker_index"}
    assert missing(BROKEN) == quick_only


def test_both_solvers_agree_on_what_both_know():
    settled = settle(LAMP, 0.001)
    for name in ("led_current_mean", "relative_current", "bus_voltage_peak", "dropper_voltage_rms", "real_power"):
        assert getattr(settled, name) == pytest.approx(getattr(HEALTHY, name), rel=0.01), name
    for part, watts in HEALTHY.heat.items():
        assert settled.heat[part] == pytest.approx(watts, rel=0.02, abs=1e-4), part


def test_the_help_says_unit_and_meaning_of_every_field():
    for field in dataclasses.fields(SteadyState):
        about = field.metadata["about"]
        assert f"\n{field.name} : {field.type}\n    {about.meaning}" in SteadyState.__doc__, field.name
        assert unit_of(field) in ("A", "V", "W", "VA", "s", "%", "")


def test_it_prints_one_short_line_and_a_table():
    assert "\n" not in repr(BROKEN) and len(repr(BROKEN)) < 140 and "mA" in repr(BROKEN)
    table = ElementTree.fromstring(HEALTHY._repr_html_())
    rows = {"".join(row[0].itertext()): row[1].text for row in table.iter("tr")}
    assert rows["line_current_rms"].endswith(" mA") and rows["percent_flicker"].endswith(" %")
    assert f"{1000 * HEALTHY.heat['inrush_resistor']:.3g} mW" == rows["heat['inrush_resistor']"]
    assert "<" in table.find("caption").text, "what a person typed is escaped"


@pytest.mark.parametrize("state", [HEALTHY, BROKEN], ids=["quick", "network"])
def test_the_plot_draws_what_the_state_holds(state):
    from matplotlib.figure import Figure

    axes = Figure().subplots()
    assert state.plot(axes) is axes
    volts = axes.figure.axes[1]
    drawn = {line.get_label(): line.get_ydata() for line in (*axes.lines, *volts.lines)}
    np.testing.assert_array_equal(drawn["line current"], 1e3 * state.line_current)
    np.testing.assert_array_equal(drawn["string current"], 1e3 * state.string_current)
    np.testing.assert_array_equal(drawn["bus voltage"], state.bus_voltage)
    assert axes.get_xlabel() == "time (ms)" and axes.get_ylabel() == "current (mA)" and "(V)" in volts.get_ylabel()
    assert state.lamp.name in axes.get_title()
    assert {text.get_text() for text in axes.get_legend().get_texts()} == set(drawn)


def test_the_plot_has_the_colours_of_the_panels():
    assert {name: style.LOOKS[name].colour for name in plot.COLOURS} == plot.COLOURS


def test_no_waves_no_plot():
    with pytest.raises(ValueError, match="keeps no waveforms"):
        steady_states([LAMP])[0].plot()
