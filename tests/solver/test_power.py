"""The powers of IEEE 1459-2010: its own kind of example, waveforms with closed forms, and identities on random spectra."""

import math

import numpy as np
import pytest
from dropper import Lamp, replace_at, steady_state, steady_states, theory
from dropper.solver import power
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

STAIR = Lamp.from_toml("notebooks/lamps/stair_marker.toml")


def phasors(orders, **by_order):
    """Harmonics from (rms, degrees by which the wave lags): h3=(8, 70) is 8·√2·sin(3ωt - 70°)."""
    found = np.zeros(orders + 1, complex)
    for name, (rms, lag) in by_order.items():
        found[int(name[1:])] = rms * np.exp(-1j * math.radians(lag))
    return found


VOLTAGE = phasors(7, h1=(100, 0), h3=(8, 70), h5=(15, -141), h7=(5, -142))
CURRENT = phasors(7, h1=(100, 30), h3=(20, 165), h5=(15, -234), h7=(10, -234))

# IEEE 1459-2010, Annex B: the inputs are values from memory; the outputs follow from its definitions.
# Held to half a unit of the last digit.
ANNEX_B = dict(
    voltage="101.5579",
    current="103.5616",
    apparent="10517.493",
    real="8632.789",
    fundamental_real="8660.254",
    harmonic_real="-27.465",
    reactive="5000.000",
    fundamental_apparent="10000.000",
    nonfundamental_apparent="3258.474",
    current_distortion="2692.582",
    voltage_distortion="1772.005",
    harmonic_apparent="477.127",
    nonactive="6007.713",
    power_factor="0.820803",
    displacement_factor="0.866025",
    voltage_thd="0.177200",
    current_thd="0.269258",
)


@pytest.mark.parametrize(("name", "printed"), ANNEX_B.items())
def test_the_example_of_the_standard(name, printed):
    found = getattr(power.power_quantities(VOLTAGE, CURRENT), name)
    assert isinstance(found, float)
    assert found == pytest.approx(float(printed), rel=0, abs=0.5001 * 10.0 ** -len(printed.split(".")[1]))


def test_the_example_from_its_waveforms():
    """Real power and rms by the mean over a period, in time; no harmonics there."""
    angle = np.linspace(0, 2 * np.pi, 4096, endpoint=False)
    order = np.arange(8)[:, None]

    def wave(parts):
        return (np.sqrt(2) * np.abs(parts)[:, None] * np.sin(order * angle + np.angle(parts)[:, None])).sum(axis=0)

    v, i = wave(VOLTAGE), wave(CURRENT)
    found = power.power_quantities(VOLTAGE, CURRENT)
    assert found.real == pytest.approx((v * i).mean(), rel=1e-9)
    assert found.voltage == pytest.approx(np.sqrt((v**2).mean()), rel=1e-9)
    assert found.current == pytest.approx(np.sqrt((i**2).mean()), rel=1e-9)


def square_samples(points=8192):
    return np.where(np.arange(points) < points // 2, 1.0, -1.0)


def test_square_current_and_sine_voltage():
    """Fourier: I1/I = 2√2/π = 0.900316, so THD = √(π²/8 - 1) = 0.483426, and PF = I1/I for a current in step."""
    current = power.harmonics(square_samples())
    voltage = phasors(40, h1=(230, 0))
    whole = power.power_quantities(voltage, current, current_rms=1.0)
    assert whole.displacement_factor == pytest.approx(1)
    assert whole.power_factor == pytest.approx(2 * math.sqrt(2) / math.pi, rel=1e-6)
    assert whole.power_factor == pytest.approx(0.900316, abs=1e-6)
    assert whole.current_thd == pytest.approx(0.483426, abs=1e-6)
    assert whole.current_distortion == pytest.approx(230 * math.sqrt(1 - 8 / math.pi**2), rel=1e-6)
    assert whole.voltage_distortion == whole.harmonic_apparent == 0
    cut = power.power_quantities(voltage, current)
    assert cut.current_thd < whole.current_thd - 0.01, "what lies above the 40th harmonic is lost without the true rms"


# Voltages and currents whose fundamentals are there; the rest is anything, a direct part included.
PARTS = arrays(float, (2, 2, 41), elements=st.floats(-10, 10))


@given(PARTS, st.floats(1, 400), st.floats(1e-3, 16), st.floats(-180, 180), st.floats(1, 1.5))
def test_the_identities_of_the_standard(parts, volts, amperes, lag, more):
    voltage, current = parts[:, 0] + 1j * parts[:, 1]
    voltage[0], current[0] = voltage[0].real, current[0].real
    voltage[1], current[1] = volts, amperes * np.exp(-1j * math.radians(lag))
    true = more * math.sqrt((np.abs(current) ** 2).sum())
    for given_rms in (None, true):
        q = power.power_quantities(voltage, current, current_rms=given_rms)
        near = dict(rel=1e-9, abs=1e-9 * q.apparent**2)
        assert q.apparent**2 == pytest.approx(q.real**2 + q.nonactive**2, **near)
        assert q.apparent**2 == pytest.approx(q.fundamental_apparent**2 + q.nonfundamental_apparent**2, **near)
        assert q.fundamental_apparent**2 == pytest.approx(q.fundamental_real**2 + q.reactive**2, **near)
        distortion = q.current_distortion**2 + q.voltage_distortion**2 + q.harmonic_apparent**2
        assert q.nonfundamental_apparent**2 == pytest.approx(distortion, **near)
        assert q.current_distortion == pytest.approx(q.fundamental_apparent * q.current_thd)
        assert q.harmonic_apparent == pytest.approx(q.fundamental_apparent * q.voltage_thd * q.current_thd)
        assert q.real == pytest.approx(q.fundamental_real + q.harmonic_real, abs=1e-12 * q.apparent)
        assert abs(q.power_factor) <= 1 + 1e-12
        assert q.reactive == pytest.approx(volts * amperes * math.sin(math.radians(lag)), abs=1e-9 * volts * amperes)
    assert q.current == pytest.approx(true)


@given(PARTS, st.floats(1e-3, 16), st.floats(-90, 90))
def test_power_factor_on_a_sine_voltage(parts, amperes, lag):
    """PF = cos θ1/√(1 + THD²)."""
    current = parts[0, 0] + 1j * parts[0, 1]
    current[1] = amperes * np.exp(-1j * math.radians(lag))
    q = power.power_quantities(phasors(40, h1=(230, 0)), current)
    expected = math.cos(math.radians(lag)) / math.sqrt(1 + q.current_thd**2)
    assert q.power_factor == pytest.approx(expected, rel=1e-9, abs=1e-12)
    assert q.harmonic_real == pytest.approx(0, abs=1e-9 * q.apparent)


def test_the_sign_tells_lagging_from_leading():
    """A coil lags by 90°, a capacitor leads by 90°: volts times amperes, above and below zero."""
    voltage = phasors(1, h1=(230, 0))
    assert power.power_quantities(voltage, phasors(1, h1=(2, 90))).reactive == pytest.approx(460)
    assert power.power_quantities(voltage, phasors(1, h1=(2, -90))).reactive == pytest.approx(-460)


def test_a_lamp_of_330_nf_at_230_v():
    """The mains is a sine: power factor and distortion against the solver's readings, the sign against its capacitor."""
    result = steady_state(STAIR)
    q = power.of_steady_state(result)
    assert STAIR.dropper == 330e-9 and q.voltage == pytest.approx(230, rel=1e-12) and q.voltage_thd < 1e-9
    assert q.reactive < 0, "a dropper's current leads"
    assert q.fundamental_real == pytest.approx(result.real_power, rel=1e-4), "a sine's power is all in the fundamental"
    assert abs(q.harmonic_real) < 1e-4 * q.real
    for name, reading in (
        ("current", "line_current_rms"),
        ("apparent", "apparent_power"),
        ("real", "real_power"),
        ("power_factor", "power_factor"),
        ("displacement_factor", "displacement_factor"),
        ("current_thd", "current_thd"),
    ):
        assert getattr(q, name) == pytest.approx(getattr(result, reading), rel=1e-9), name
    assert q.power_factor == pytest.approx(q.displacement_factor / math.sqrt(1 + q.current_thd**2), rel=1e-4)
    reactance = 1 / (2 * math.pi * 50 * 330e-9)
    assert q.fundamental_apparent < 230**2 / reactance, "no more than the dropper alone would take"


def test_a_lamp_with_hardly_any_resistance_against_the_derived_parts():
    """The ideal lamp's reactive and distortion power, derived from its waveform in the theory."""
    lamp = replace_at(replace_at(replace_at(STAIR, "inrush_resistor", 0.0), "bleeder", None), "smoothing", 1e-3)
    result = steady_state(lamp)
    q = power.of_steady_state(result)
    known = dict(
        frequency=50.0,
        dropper=330e-9,
        peak_voltage=lamp.mains.peak,
        clamped_voltage=lamp.clamped_voltage(result.string_current_mean),
    )
    derived = theory.fundamental_reactive_power
    assert -q.reactive == pytest.approx(derived(**{key: known[key] for key in derived.keywords}), rel=0.02)


def test_waveforms_of_128_points_do():
    """Within 1 %: the readings are near 0.1 % there, the distortion is their small difference."""
    coarse, fine = (power.of_steady_state(steady_state(STAIR, points)) for points in (128, 2048))
    for name in vars(fine):
        assert getattr(coarse, name) == pytest.approx(getattr(fine, name), rel=1e-2, abs=3e-4 * fine.apparent), name


def test_mains_with_harmonics():
    """The rms of the mains from its harmonics' fractions: √(1 + 0.05² + 0.03²) of the fundamental."""
    lamp = replace_at(STAIR, "mains", type(STAIR.mains)(230.0, 50.0, {5: (0.05, 30.0), 7: (0.03, -60.0)}))
    result = steady_state(lamp)
    q = power.of_steady_state(result)
    assert q.voltage_thd == pytest.approx(math.hypot(0.05, 0.03), rel=1e-9)
    assert q.apparent == pytest.approx(result.apparent_power, rel=1e-9)
    waves = (result.mains_voltage * result.line_current).mean()
    assert q.real == pytest.approx(waves, rel=2e-3)
    assert abs(q.harmonic_real) > 1e-3 * q.real, "harmonics of the mains carry some power of their own"


def test_many_lamps_at_once_agree_with_each_alone():
    lamps = [STAIR, replace_at(STAIR, "dropper", 470e-9), replace_at(STAIR, "mains.voltage", 207.0)]
    together = power.of_steady_state(steady_states(lamps, 512, waveforms=True))
    for k, lamp in enumerate(lamps):
        alone = power.of_steady_state(steady_state(lamp, 512))
        for name, value in vars(alone).items():
            column = getattr(together, name)
            assert column.shape == (3,)
            assert column[k] == pytest.approx(value, rel=1e-9, abs=1e-9 * alone.apparent), name


def test_where_nothing_flows_powers_are_zero_and_factors_unknown():
    q = power.power_quantities(phasors(40, h1=(230, 0)), np.zeros(41))
    assert q.apparent == q.real == q.reactive == q.nonactive == 0
    assert math.isnan(q.power_factor) and math.isnan(q.displacement_factor) and math.isnan(q.current_thd)


def test_what_cannot_be_is_refused_in_words():
    sine = phasors(3, h1=(230, 0))
    with pytest.raises(ValueError, match=r"voltage and current: shapes \(4,\) and \(5,\); both need the same orders"):
        power.power_quantities(sine, np.ones(5))
    with pytest.raises(ValueError, match="both need the same orders, 0 and 1 at least"):
        power.power_quantities(np.ones(1), np.ones(1))
    with pytest.raises(ValueError, match="a harmonic is not finite"):
        power.power_quantities(sine, np.array([0, 1, np.nan, 0]))
    with pytest.raises(
        ValueError, match="current_rms: 0.5 A is not finite, or less than the 1 A that the harmonics make"
    ):
        power.power_quantities(sine, phasors(3, h1=(1, 0)), current_rms=0.5)
    with pytest.raises(ValueError, match="real_power: 240 W is not finite, or more than the apparent power of 230 VA"):
        power.power_quantities(sine, phasors(3, h1=(1, 0)), real_power=240)
    with pytest.raises(ValueError, match="keeps no waveforms; ask steady_states for them with waveforms=True"):
        power.of_steady_state(steady_states([STAIR]))


def test_no_current_has_no_power_factor():
    """IEEE 1459-2010 divides by the volt-amperes; rounding must not turn a dark lamp's into an endless one."""
    assert np.isnan(power.power_factor(-4e-42, 0.0)) and np.isnan(power.power_factor(0.0, 0.0))
    np.testing.assert_array_equal(power.power_factor([1.0, -1e-40], [4.0, 0.0]), [0.25, np.nan])
