"""Closed forms of the lamp against waveforms computed by another road.

The witness knows nothing of the closed forms.  The dropper's voltage may differ from the mains by no more than the
clamped voltage either way; it stays where it is until it is pushed: that is all the circuit says, and it is stepped
through a period point by point.  The current is the capacitance times the change.  Its only error is the grid's.
"""

from functools import cache

import numpy as np
import pytest
import sympy
from dropper import theory
from scipy import optimize
from scipy.integrate import quad
from scipy.signal import lfilter

POINTS = 100_000  # a period; the currents' jumps are placed within one point, so means are good to about 1e-4
GRID = 2e-4
MAINS = [(230.0, 50.0), (120.0, 60.0)]
FRACTIONS = [0.02, 0.1, 0.3, 0.5, 0.65, 0.775, 0.9, 0.97]
DROPPER = 470e-9


class Witness:
    """One period in the periodic steady state, with an upper and a lower rail for the dropper's voltage."""

    def __init__(self, voltage, frequency, mains, kept):
        self.voltage = voltage
        self.current = DROPPER * np.diff(kept) * frequency * POINTS
        self.dropper_voltage = (kept[1:] + kept[:-1]) / 2
        self.mains = (mains[1:] + mains[:-1]) / 2

    @property
    def rms(self):
        return np.sqrt(np.mean(self.current**2))

    @property
    def power(self):
        return np.mean(self.mains * self.current)

    def harmonic(self, waveform, order):
        """Complex amplitude: its real part goes with the cosine, its negative imaginary part with the sine."""
        to_midpoint = np.exp(-1j * np.pi * order / POINTS)
        return 2 * np.fft.rfft(waveform)[order] / POINTS * to_midpoint


def witnesses(voltage, frequency, rails):
    """One witness for each pair of rails, stepped together."""
    upper, lower = np.array(rails).T
    angle = np.linspace(-2 * np.pi, 2 * np.pi, 2 * POINTS + 1)  # the first period forgets the start
    mains = np.sqrt(2) * voltage * np.sin(angle)
    kept, state = np.empty((mains.size, upper.size)), np.zeros(upper.size)
    for place, value in enumerate(mains):
        state = np.minimum(np.maximum(state, value - upper), value + lower)
        kept[place] = state
    return [Witness(voltage, frequency, mains[POINTS:], column) for column in kept[POINTS:].T]


@cache
def lamps(voltage, frequency):
    peak = np.sqrt(2) * voltage
    return dict(zip(FRACTIONS, witnesses(voltage, frequency, [(d * peak, d * peak) for d in FRACTIONS]), strict=True))


@pytest.fixture(params=[(v, f, d) for v, f in MAINS for d in FRACTIONS], ids=str)
def case(request):
    voltage, frequency, fraction = request.param
    peak = np.sqrt(2) * voltage
    values = {"frequency": frequency, "dropper": DROPPER, "peak_voltage": peak, "clamped_voltage": fraction * peak}
    return lamps(voltage, frequency)[fraction], values, fraction


def of(name, values):
    """A derivation's value, picking from the values what it asks for."""
    derivation = theory.ALL[name]
    return derivation(**{keyword: values[keyword] for keyword in derivation.keywords})


def test_mean_current(case):
    witness, values, _ = case
    assert of("mean_string_current", values) == pytest.approx(np.mean(np.abs(witness.current)), rel=GRID)


def test_rms_and_peak_current(case):
    witness, values, _ = case
    # the square feels a misplaced jump more than the mean does, most of all when conduction is short
    assert of("line_current_rms", values) == pytest.approx(witness.rms, rel=5 * GRID)
    assert of("line_current_peak", values) == pytest.approx(np.max(np.abs(witness.current)), rel=5 * GRID)


def test_conduction(case):
    witness, values, _ = case
    # a point more or less at either end, in each of two half cycles
    assert of("conduction_fraction", values) == pytest.approx(np.mean(witness.current != 0), abs=4 / POINTS)
    flows = witness.current > 0
    start = np.flatnonzero(flows & ~np.roll(flows, 1))[0]
    mains = values["peak_voltage"] * np.sin(of("conduction_start", values))
    assert mains == pytest.approx(witness.mains[start], abs=GRID * values["peak_voltage"])


def test_powers_and_factors(case):
    witness, values, fraction = case
    assert of("real_power", values) == pytest.approx(witness.power, rel=5 * GRID)
    apparent = witness.voltage * witness.rms
    assert of("apparent_power", values) == pytest.approx(apparent, rel=5 * GRID)
    assert theory.power_factor(clamped_fraction=fraction) == pytest.approx(witness.power / apparent, rel=5 * GRID)
    first = witness.harmonic(witness.current, 1)
    displacement = -first.imag / abs(first)
    assert theory.displacement_factor(clamped_fraction=fraction) == pytest.approx(displacement, rel=5 * GRID)
    assert first.real > 0, "the current leads"
    distortion = abs(first) / np.sqrt(2) / witness.rms
    assert theory.distortion_factor(clamped_fraction=fraction) == pytest.approx(distortion, rel=5 * GRID)
    thd = np.sqrt(witness.rms**2 - abs(first) ** 2 / 2) / (abs(first) / np.sqrt(2))
    # the difference under the root magnifies the grid's error where the distortion is small
    assert theory.current_thd(clamped_fraction=fraction) == pytest.approx(thd, rel=20 * GRID, abs=1e-2)


def test_nonactive_powers(case):
    witness, values, _ = case
    apparent = witness.voltage * witness.rms
    first = witness.harmonic(witness.current, 1) / np.sqrt(2)
    ahead = np.roll(witness.mains, -POINTS // 4)  # the mains a quarter period ahead
    reactive = np.mean(ahead * witness.current)
    assert of("fundamental_reactive_power", values) == pytest.approx(reactive, rel=5 * GRID)
    assert of("fundamental_apparent_power", values) == pytest.approx(witness.voltage * abs(first), rel=5 * GRID)
    rest = np.sqrt(witness.rms**2 - abs(first) ** 2)
    # a difference of nearly equal squares, as for the distortion itself
    assert of("current_distortion_power", values) == pytest.approx(
        witness.voltage * rest, rel=20 * GRID, abs=1e-2 * apparent
    )
    assert of("nonactive_power", values) == pytest.approx(np.sqrt(apparent**2 - witness.power**2), rel=5 * GRID)


@pytest.mark.parametrize("fraction", FRACTIONS)
def test_the_parts_make_up_the_apparent_power(fraction):
    """Each part from its own closed form; the sum of squares from a derivation that knows no lamp."""
    values = {"frequency": 50.0, "dropper": DROPPER, "peak_voltage": 325.0, "clamped_voltage": fraction * 325.0}
    parts = {
        "real_power": of("real_power", values),
        "reactive_power": of("fundamental_reactive_power", values),
        "current_distortion_power": of("current_distortion_power", values),
    }
    assert theory.apparent_power_from_parts(**parts) == pytest.approx(of("apparent_power", values), rel=1e-9)
    first = np.hypot(parts["real_power"], parts["reactive_power"])
    assert of("fundamental_apparent_power", values) == pytest.approx(first, rel=1e-9)
    other = np.hypot(parts["reactive_power"], parts["current_distortion_power"])
    assert of("nonactive_power", values) == pytest.approx(other, rel=1e-9)


def test_dropper_voltage(case):
    witness, values, _ = case
    assert of("dropper_voltage_peak", values) == pytest.approx(np.max(np.abs(witness.dropper_voltage)), rel=GRID)
    rms = np.sqrt(np.mean(witness.dropper_voltage**2))
    assert of("dropper_voltage_rms", values) == pytest.approx(rms, rel=GRID)


def test_charging_harmonic(case):
    witness, _, fraction = case
    rectified = np.abs(witness.current)
    swing = abs(witness.harmonic(rectified, 2)) / np.mean(rectified)
    assert theory.charging_harmonic(clamped_fraction=fraction) == pytest.approx(swing, rel=5 * GRID)


def test_current_modulation(case):
    witness, values, fraction = case
    resistance, smoothing, frequency = 180.0, 10e-6, values["frequency"]
    rectified = np.abs(witness.current)
    # the string's current through a low pass of the first order, stepped exactly over twenty periods
    decay = np.exp(-1 / (frequency * POINTS * resistance * smoothing))
    string = lfilter([1 - decay], [1, -decay], np.tile(rectified, 20))[-POINTS:]
    swing = abs(witness.harmonic(string, 2)) / np.mean(string)
    found = theory.current_modulation(
        clamped_fraction=fraction, frequency=frequency, smoothing=smoothing, string_resistance=resistance
    )
    assert found == pytest.approx(swing, rel=5 * GRID)


@pytest.mark.parametrize("output", [5.0, 20.0, 150.0])
def test_half_wave_current(output):
    diode, peak = 0.7, theory.peak_voltage(voltage=230.0)
    (witness,) = witnesses(230.0, 50.0, [(output + diode, diode)])
    onward = np.mean(np.clip(witness.current, 0, None))  # only the rising half reaches the output
    found = theory.half_wave_current(
        frequency=50.0, dropper=DROPPER, peak_voltage=peak, output_voltage=output, diode_voltage=diode
    )
    assert found == pytest.approx(onward, rel=GRID)


@pytest.mark.slow
@pytest.mark.parametrize("diode", [0.0, 0.7])
def test_a_half_wave_supply_breaks_even_with_a_bridge(diode):
    """Both stepped through a period: equal at the break-even voltage, a bridge ahead below it and behind above it."""
    peak = theory.peak_voltage(voltage=230.0)
    even = theory.half_wave_break_even(peak_voltage=peak)

    def bridge_over_half_wave(clamped):
        bridge, half = witnesses(230.0, 50.0, [(clamped, clamped), (clamped - diode, diode)])
        return np.mean(np.abs(bridge.current)) / np.mean(np.clip(half.current, 0, None))

    assert bridge_over_half_wave(even) == pytest.approx(1, rel=2 * GRID)
    assert bridge_over_half_wave(0.9 * even) > 1.1
    assert bridge_over_half_wave(1.1 * even) < 0.9


def test_excess_of_the_rule(case):
    witness, values, fraction = case
    rule = witness.voltage / theory.dropper_reactance(frequency=values["frequency"], dropper=DROPPER)
    excess = rule / np.mean(np.abs(witness.current))
    assert theory.reactance_rule_excess(clamped_fraction=fraction) == pytest.approx(excess, rel=GRID)


@pytest.mark.parametrize("fraction", FRACTIONS)
def test_rms_by_quadrature(fraction):
    """The same from the piece of cosine alone, by adaptive quadrature: to many more digits than a grid gives."""
    peak, omega = 325.0, 2 * np.pi * 50
    start = np.arcsin(2 * fraction - 1)
    square, _ = quad(lambda angle: (omega * DROPPER * peak * np.cos(angle)) ** 2, start, np.pi / 2, epsabs=0)
    found = theory.line_current_rms(frequency=50, dropper=DROPPER, peak_voltage=peak, clamped_voltage=fraction * peak)
    assert found == pytest.approx(np.sqrt(square / np.pi), rel=1e-9)  # quadrature is asked for 1.5e-8 of the square


def test_greatest_power_factor_against_an_optimiser():
    def loss(fraction):
        start = np.arcsin(2 * fraction - 1)
        square, _ = quad(lambda angle: np.cos(angle) ** 2, start, np.pi / 2)
        power, _ = quad(lambda angle: np.sin(angle) * np.cos(angle), start, np.pi / 2)
        return -(power / np.pi) / np.sqrt(square / np.pi / 2)

    witness = optimize.minimize_scalar(loss, bounds=(0.5, 0.99), method="bounded", options={"xatol": 1e-9})
    found = theory.greatest_power_factor()
    assert found.power_factor == pytest.approx(-witness.fun, rel=1e-9)
    assert found.clamped_fraction == pytest.approx(witness.x, abs=1e-6)  # a maximum is flat: half the digits
    assert theory.power_factor(clamped_fraction=found.clamped_fraction) == pytest.approx(found.power_factor, rel=1e-12)


def test_greatest_power_against_an_optimiser():
    values = {"frequency": 50, "dropper": 1e-6, "peak_voltage": 325.0}
    witness = optimize.minimize_scalar(
        lambda d: -theory.real_power(**values, clamped_voltage=d), bounds=(0, 324), method="bounded"
    )
    assert theory.best_clamped_voltage(peak_voltage=325.0) == pytest.approx(witness.x, rel=1e-5)
    assert theory.greatest_power(**values) == pytest.approx(-witness.fun, rel=1e-9)


def test_a_short_circuit_is_the_plain_capacitor():
    """With nothing clamped the lamp is a capacitor across the mains: the textbook's sine current."""
    values = {"frequency": 50, "dropper": 1e-6, "peak_voltage": np.sqrt(2) * 230, "clamped_voltage": 0.0}
    rms = theory.short_circuit_current(frequency=50, dropper=1e-6, voltage=230)
    assert of("line_current_rms", values) == pytest.approx(rms, rel=1e-12)
    assert of("line_current_peak", values) == pytest.approx(np.sqrt(2) * rms, rel=1e-12)
    assert rms == pytest.approx(230 / theory.dropper_reactance(frequency=50, dropper=1e-6), rel=1e-12)
    assert of("mean_string_current", values) == pytest.approx(rms * 2 * np.sqrt(2) / np.pi, rel=1e-12)
    assert of("dropper_voltage_rms", values) == pytest.approx(230, rel=1e-12)
    assert of("real_power", values) == 0
    assert theory.power_factor(clamped_fraction=0) == 0
    assert theory.distortion_factor(clamped_fraction=0) == pytest.approx(1, rel=1e-12)


@pytest.mark.parametrize(
    ("straight", "by_angle"),
    [("mean_string_current", "mean_string_current_from_angle"), ("real_power", "real_power_from_angle")],
)
def test_two_ways_give_one_result(straight, by_angle):
    """Charge against the area under the current; clamped voltage times current against voltage times current."""
    first, second = theory.ALL[straight].result.rhs, theory.ALL[by_angle].result.rhs
    angle = theory.conduction_angle.result
    assert sympy.simplify(first - second.subs(angle.lhs, angle.rhs)) == 0


@pytest.mark.parametrize("fraction", [1e-6, 1e-3, 0.999, 0.9999])
def test_the_ends_of_the_range_keep_enough_digits(fraction):
    """Against 40 digits.  The closed forms hold differences of nearly equal angles: one part in a million is left of
    the factors, and of the distortion, which is the root of a difference from one, one part in a hundred thousand."""
    for name in ("power_factor", "displacement_factor", "distortion_factor", "current_thd"):
        derivation = theory.ALL[name]
        exact = derivation.result.rhs.subs(derivation.inputs[0].symbol, sympy.Rational(str(fraction))).evalf(40)
        tolerance = 1e-5 if name == "current_thd" else 1e-6
        assert derivation(clamped_fraction=fraction) == pytest.approx(float(exact), rel=tolerance)
