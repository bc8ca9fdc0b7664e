"""Power quantities of a line current: harmonics, displacement and distortion (IEEE 1459-2010)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..circuit.fields import about, documented
from ..circuit.values import show

if TYPE_CHECKING:
    from .batch import SteadyStateBatch
    from .state import SteadyState

HARMONICS = 40


def harmonics(samples: np.ndarray, orders: int = HARMONICS) -> np.ndarray:
    """Complex rms harmonics of a waveform given as means over equal intervals of one cycle.

    Parameters
    ----------
    samples
        Mean of the waveform in each of `points` equal intervals of one cycle.
    orders
        Highest order wanted; less than points/2.

    Returns
    -------
    complex array, shape (..., orders + 1)
        Index is the order. Magnitude is the rms value, the angle is that of
        sin(nωt + angle); order 0 is the mean.

    Raises
    ------
    ValueError
        If there are too few points for the orders.
    """
    samples = np.asarray(samples, float)
    points = samples.shape[-1]
    if points < 2 * (orders + 1):
        raise ValueError(f"orders: {orders} harmonics need {2 * (orders + 1)} points, not {points}")
    order = np.arange(orders + 1)
    lines = np.fft.rfft(samples, axis=-1)[..., : orders + 1] / points
    # Each sample is a mean over its interval and stands at the interval's middle.
    lines = lines * (np.exp(-1j * np.pi * order / points) / np.sinc(order / points))
    scale = np.where(order == 0, 1, np.sqrt(2) * 1j)
    return lines * scale


def power_factor(real_power: np.ndarray, apparent_power: np.ndarray) -> np.ndarray:
    """Power factor P/S (IEEE 1459-2010); nan where no current flows."""
    apparent_power = np.asarray(apparent_power, float)
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.where(apparent_power > 0, np.asarray(real_power, float) / apparent_power, np.nan)


def displacement_factor(fundamental_current: np.ndarray) -> np.ndarray:
    """Cosine of the angle between the fundamentals of voltage (at angle 0) and current."""
    fundamental_current = np.asarray(fundamental_current)
    with np.errstate(invalid="ignore", divide="ignore"):
        return fundamental_current.real / np.abs(fundamental_current)


def total_harmonic_distortion(rms: np.ndarray, fundamental_rms: np.ndarray) -> np.ndarray:
    """THD = √(I² - I₁²)/I₁ (IEEE 1459-2010), all orders and none left out."""
    with np.errstate(invalid="ignore", divide="ignore"):
        rest = np.maximum(np.square(rms) - np.square(fundamental_rms), 0)
        return np.sqrt(rest) / np.asarray(fundamental_rms, float)


@documented
@dataclass(frozen=True, eq=False, repr=False)
class PowerQuantities:
    """The powers of a voltage and a current that repeat, after IEEE 1459-2010. Floats, or arrays for a batch.

    Subscript 1 is the fundamental, H all the rest together, a direct part included.
    """

    voltage: float = about("rms", "V")
    current: float = about("rms", "A")
    apparent: float = about("S = V·I", "VA")
    real: float = about("P, the mean of voltage times current", "W")
    fundamental_real: float = about("P1 = V1·I1·cos θ1", "W")
    harmonic_real: float = about("PH = P - P1", "W")
    reactive: float = about(
        "Q1 = V1·I1·sin θ1; above 0 where the current lags, below 0 where it leads: a dropper's", "var"
    )
    fundamental_apparent: float = about("S1 = V1·I1", "VA")
    nonfundamental_apparent: float = about("SN = √(S² - S1²)", "VA")
    current_distortion: float = about("DI = V1·IH", "var")
    voltage_distortion: float = about("DV = VH·I1", "var")
    harmonic_apparent: float = about("SH = VH·IH", "VA")
    nonactive: float = about("N = √(S² - P²)", "var")
    power_factor: float = about("P/S; nan where nothing flows")
    displacement_factor: float = about("cos θ1 = P1/S1; nan where nothing flows")
    voltage_thd: float = about("VH/V1")
    current_thd: float = about("IH/I1")

    def __repr__(self) -> str:
        if np.ndim(self.apparent):
            return f"<PowerQuantities of {np.size(self.apparent)} lamps>"
        return (
            f"<PowerQuantities: P {show(self.real, 'W')}, Q1 {show(self.reactive, 'var')}, S"
            f" {show(self.apparent, 'VA')}, P/S {show(self.power_factor)}>"
        )


def power_quantities(
    voltage: np.ndarray,
    current: np.ndarray,
    *,
    voltage_rms: float | np.ndarray | None = None,
    current_rms: float | np.ndarray | None = None,
    real_power: float | np.ndarray | None = None,
) -> PowerQuantities:
    """The powers from the harmonics of voltage and current.

    S² = P² + N² = S1² + SN²; S1² = P1² + Q1²; SN² = DI² + DV² + SH². θ1 is the angle by which the
    fundamental of the current lags behind that of the voltage.

    Parameters
    ----------
    voltage
        V rms; index is the order, angles those of sin(nωt + angle), as `harmonics` gives them.
    current
        A rms, the same way.
    voltage_rms, current_rms
        The true rms values, V and A, with what lies above the last order. Without them the orders
        given are taken to be all.
    real_power
        The true mean of voltage times current, W; for the same reason.

    Raises
    ------
    ValueError
        For arrays without a fundamental or of unlike orders, values that are not finite, a true rms more than 1 %
        below what its harmonics make together, or a real power more than 1 % above the apparent power.

    Source: IEEE 1459-2010, single-phase nonsinusoidal; equations from memory.
    """
    voltage, current = np.asarray(voltage, complex), np.asarray(current, complex)
    if voltage.ndim == 0 or current.ndim == 0 or not 2 <= voltage.shape[-1] == current.shape[-1]:
        raise ValueError(
            f"voltage and current: shapes {voltage.shape} and {current.shape};"
            " both need the same orders, 0 and 1 at least"
        )
    if not (np.isfinite(voltage).all() and np.isfinite(current).all()):
        raise ValueError("voltage and current: a harmonic is not finite")
    v, v1, vh = _rms("voltage_rms", "V", voltage, voltage_rms)
    i, i1, ih = _rms("current_rms", "A", current, current_rms)
    product = voltage * current.conj()
    p = np.asarray(product.real.sum(axis=-1) if real_power is None else real_power, float)
    s = v * i
    if not (np.abs(p) <= 1.01 * s + 1e-300).all():
        raise ValueError(
            f"real_power: {np.max(np.abs(p)):.4g} W is not finite, or more than the apparent power"
            f" of {np.min(s):.4g} VA; it cannot be"
        )
    p1, q1 = product[..., 1].real, product[..., 1].imag
    with np.errstate(invalid="ignore", divide="ignore"):
        powers = PowerQuantities(
            voltage=v,
            current=i,
            apparent=s,
            real=p,
            fundamental_real=p1,
            harmonic_real=p - p1,
            reactive=q1,
            fundamental_apparent=v1 * i1,
            nonfundamental_apparent=np.sqrt((v1 * ih) ** 2 + (vh * i1) ** 2 + (vh * ih) ** 2),
            current_distortion=v1 * ih,
            voltage_distortion=vh * i1,
            harmonic_apparent=vh * ih,
            nonactive=np.sqrt(np.maximum(s**2 - p**2, 0)),
            power_factor=power_factor(p, s),
            displacement_factor=p1 / (v1 * i1),
            voltage_thd=vh / v1,
            current_thd=ih / i1,
        )
    shape = np.broadcast_shapes(*(np.shape(value) for value in vars(powers).values()))
    if shape == ():
        return PowerQuantities(**{name: float(value) for name, value in vars(powers).items()})
    return PowerQuantities(**{name: np.broadcast_to(value, shape) for name, value in vars(powers).items()})


def of_steady_state(result: SteadyState | SteadyStateBatch) -> PowerQuantities:
    """The powers a lamp takes from the mains, from its steady state.

    Parameters
    ----------
    result
        With waveforms, of the quick solver. Its true rms current and real power are used, so that nothing above the
        40th harmonic is lost.

    Returns
    -------
    PowerQuantities
        Floats, or arrays for a batch.

    Raises
    ------
    ValueError
        If the waveforms were not kept.
    """
    if result.line_current is None:
        raise ValueError("result: it keeps no waveforms; ask steady_states for them with waveforms=True")
    voltage, current = harmonics(result.mains_voltage), harmonics(result.line_current)
    # The mains' samples are means of an interval's two ends, which fall short of the mean over it.
    angle = np.pi * np.arange(HARMONICS + 1) / result.mains_voltage.shape[-1]
    voltage = voltage * np.sinc(angle / np.pi) / np.cos(angle)
    return power_quantities(voltage, current, current_rms=result.line_current_rms, real_power=result.real_power)


def _rms(name, unit, orders, true):
    """True rms, rms of the fundamental, and rms of all the rest, so that the squares of both make the first's."""
    squares = np.abs(orders) ** 2
    fundamental = squares[..., 1]
    rest = np.delete(squares, 1, axis=-1).sum(axis=-1)
    if true is not None:
        true = np.asarray(true, float)
        together = np.sqrt(fundamental + rest)
        if not (np.isfinite(true) & (true >= 0.99 * together)).all():
            raise ValueError(
                f"{name}: {np.min(true):.4g} {unit} is not finite, or less than the"
                f" {np.max(together):.4g} {unit} that the harmonics make together"
            )
        rest = np.maximum(true**2 - fundamental, 0)
    return np.sqrt(fundamental + rest), np.sqrt(fundamental), np.sqrt(rest)
