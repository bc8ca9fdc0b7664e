"""A person in the circuit: against a witness by SciPy, against phasors, by the balance of energy, and in words."""

import math

import numpy as np
import pytest
from dropper import Mains, replace_at, theory
from dropper.solver.transient import HANDS, LIVE, Body, Fault, settle, touch, with_fault
from scipy.integrate import solve_ivp
from transient_reference import Circuit, parts_of, settled
from transient_scenes import LINE, STAIR

# Which nodes a body joins, as rows over w, m, V of the witness: the hand's voltage against the bridge's other terminal.
PLACES = {"minus": (0, 1, 0), "plus": (0, 1, 1), "bridge": (1, 0, 0), "string": (0, 0, 1)}
CASES = [
    *((hand, live, 1000.0, "sound") for hand in HANDS for live in LIVE),
    ("minus", "dropper", 5000.0, "sound"),
    ("plus", "bridge", 500.0, "sound"),
    ("minus", "dropper", 1000.0, "short"),
    ("minus", "bridge", 2000.0, "short"),
    ("string", "dropper", 1000.0, "short"),
]


class CircuitWithPerson(Circuit):
    """The witness's circuit with one more resistance."""

    def __init__(self, parts, in_line, hand, live, ohms):
        super().__init__(parts, in_line)
        self.place, self.ohms = np.array(PLACES[hand], float), ohms
        self.earthed_at_line = live == "bridge" and hand != "string"

    def through(self, t, nodes):
        """Current from the lamp through the person."""
        earth = self.mains(t) if self.earthed_at_line else 0.0
        return (self.place @ nodes - earth) / self.ohms

    def rates(self, t, y):
        rates = super().rates(t, y)
        rates[1:4] -= self.inverse @ (self.place * self.through(t, y[1:4]))
        return rates


def by_the_witness(hand, live, ohms, state):
    """Rms, peak and mean of the current through the person, by SciPy's LSODA on node equations of its own."""
    parts = parts_of(STAIR)
    if state == "short":
        parts["dropper"] = None
    circuit = CircuitWithPerson(parts, LINE, hand, live, ohms)
    start = settled(circuit, 0.0, 60.0).end * [1, 1, 1, 1, 1, 0, 0]
    run = solve_ivp(
        circuit.rates,
        (0, circuit.period),
        start,
        method="LSODA",
        rtol=1e-8,
        atol=1e-6,
        max_step=circuit.period / 400,
        first_step=1e-11,
    )
    current = np.array([circuit.through(t, nodes) for t, nodes in zip(run.t, run.y[1:4].T, strict=True)])
    square, mean = (np.trapezoid(wave, run.t) / circuit.period for wave in (current**2, current))
    return math.sqrt(square), np.abs(current).max(), mean


@pytest.mark.slow
@pytest.mark.parametrize(("hand", "live", "ohms", "state"), CASES)
def test_the_current_is_that_of_an_independent_model(hand, live, ohms, state):
    """Within 1 % in rms and peak, and 1 % of the rms in the direct part."""
    rms, peak, mean = by_the_witness(hand, live, ohms, state)
    subject = with_fault(STAIR, Fault("short", "dropper")) if state == "short" else STAIR
    found = touch(subject, Body(ohms, hand, live), LINE)
    assert found.settled
    assert found.current_rms == pytest.approx(rms, rel=0.01)
    assert found.current_peak == pytest.approx(peak, rel=0.01)
    assert found.current_mean == pytest.approx(mean, abs=0.01 * rms)


@pytest.mark.parametrize(("voltage", "frequency", "dropper"), [(230.0, 50.0, 330e-9), (120.0, 60.0, 680e-9)])
@pytest.mark.parametrize("ohms", [500.0, 1000.0])
def test_behind_the_dropper_it_is_one_division_of_complex_numbers(voltage, frequency, dropper, ohms):
    """As long as the body holds the bridge below its string's volts; the witness is a phasor."""
    lamp = replace_at(replace_at(STAIR, "mains", Mains(voltage, frequency)), "dropper", dropper)
    for path in ("bleeder", "smoothing_bleeder"):
        lamp = replace_at(replace_at(lamp, "inrush_resistor", 0.0), path, None)
    phasor = abs(voltage / (ohms + 1 / (2j * math.pi * frequency * dropper)))
    formula = theory.body_current_behind_dropper(
        voltage=voltage, frequency=frequency, dropper=dropper, body_resistance=ohms
    )
    found = touch(lamp, Body(ohms, "bridge", "dropper"), 0.01)
    assert found.hand_voltage_peak < settle(lamp, 0.01).bus_voltage_mean, "the bridge takes no part"
    assert formula == pytest.approx(phasor, rel=1e-12)
    assert found.current_rms == pytest.approx(phasor, rel=1e-3)
    assert found.current_mean == pytest.approx(0, abs=1e-3 * phasor)


def test_from_minus_to_earth_it_is_a_half_wave_pump():
    """What goes one way through the dropper comes back the other: the charge of `half_wave_current` once a period.

    In the other half cycle the body lies beside a diode that conducts, and takes that diode's volts over its own ohms.
    """
    lamp = replace_at(STAIR, "inrush_resistor", 0.0)
    for ohms in (300.0, 1000.0):
        found = touch(lamp, Body(ohms, "minus", "dropper"))
        pump = theory.half_wave_current(
            frequency=50,
            dropper=lamp.dropper,
            peak_voltage=lamp.mains.peak,
            output_voltage=found.bus_voltage_mean,
            diode_voltage=0.8,
        )
        one_way = 50 * np.trapezoid(np.minimum(found.current, 0.0), found.time)
        assert -one_way == pytest.approx(pump, rel=0.01)
        assert 0 < found.current.max() < 0.9 / ohms


def test_plus_and_minus_are_alike_and_opposite():
    for live in LIVE:
        plus, minus = (touch(STAIR, Body(1000.0, hand, live)) for hand in ("plus", "minus"))
        assert plus.current_rms == pytest.approx(minus.current_rms, rel=1e-3)
        assert plus.current_mean == pytest.approx(-minus.current_mean, rel=1e-3)


def test_turned_the_mains_itself_drives_the_current_whatever_the_dropper():
    for dropper in (100e-9, 330e-9, 1e-6):
        lamp = replace_at(STAIR, "dropper", dropper)
        found = touch(lamp, Body(1500.0, "minus", "bridge"))
        assert found.current_peak == pytest.approx(lamp.mains.peak / 1500, rel=0.01)
        assert 0.75 * 230 / 1500 < found.current_rms < 230 / 1500


def test_a_body_of_no_account_changes_nothing():
    """With a gigaohm in its place the lamp is as it was."""
    alone = settle(STAIR)
    for hand in HANDS:
        for live in LIVE:
            found = touch(STAIR, Body(1e9, hand, live))
            assert found.string_current_mean == pytest.approx(alone.string_current_mean, rel=1e-3), (hand, live)
            assert found.bus_voltage_mean == pytest.approx(alone.bus_voltage_mean, rel=1e-3), (hand, live)


def test_only_a_current_to_earth_unbalances_the_two_wires():
    for live in LIVE:
        assert touch(STAIR, Body(1000.0, "string", live)).earth_current_rms == 0
        found = touch(STAIR, Body(1000.0, "minus", live))
        assert found.earth_current_rms == found.current_rms > 0


def test_minus_stands_at_the_strings_volts_or_at_the_mains_peak_from_earth():
    meter = {live: touch(STAIR, Body(10e6, "minus", live)) for live in LIVE}
    bus, peak = settle(STAIR).bus_voltage_peak, STAIR.mains.peak
    assert meter["dropper"].minus_voltage_peak == pytest.approx(bus, abs=2)
    assert meter["bridge"].minus_voltage_peak == pytest.approx(peak, abs=2)
    assert np.ptp(meter["bridge"].minus_voltage) > 1.7 * peak, "it swings with live, both ways"


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: Body(10.0), "Body.resistance: 10.0 is not allowed; it must be from 100 to 1e+09 Ω"),
        (lambda: Body(math.nan), "Body.resistance: nan is not allowed"),
        (lambda: Body("1k"), "Body.resistance: '1k' is not allowed"),
        (lambda: Body(1000.0, "foot"), "Body.hand: 'foot' is unknown; it can be minus, plus, bridge, string"),
        (lambda: Body(1000.0, "plus", "both"), "Body.live: 'both' is unknown; it can be dropper, bridge"),
    ],
)
def test_what_cannot_be_is_said_in_words(call, words):
    with pytest.raises(ValueError) as told:
        call()
    assert words in str(told.value)
