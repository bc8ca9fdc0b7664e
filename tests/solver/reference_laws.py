"""The smooth laws of one lamp as differential equations, for the reference.

The laws, in volts, amperes, farads, ohms, seconds
--------------------------------------------------
mains      v(t) = sqrt2 V [ sin wt + sum_h f_h sin(h wt + p_h) ]
junction   drop(i) = n Vt ln(1 + i/Is) + Rs i,  Is such that drop(at_current) = forward_voltage
line       w = v - v_dropper,  i = C dv_dropper/dt + v_dropper/R_bleeder
bridge     u = w - R i across its ac terminals, vb across its dc terminals. The four
           diodes are alike, so by symmetry each diode of one diagonal drops
           (u - vb)/2 and carries i1, each of the other drops (-u - vb)/2 and
           carries i2; then i = i1 - i2 and the dc current is i_dc = i1 + i2.
           (With Rs = 0: i = Is [exp((u-vb)/2nVt) - exp(-(u+vb)/2nVt)].) Reverse
           leakage is kept, and each diode keeps its own series resistance.
bus        Cs dvb/dt = i_dc - i_string(vb) - vb/R_smoothing_bleeder

The two states are p = w - vb and q = -w - vb, the voltages that drive the two
diagonals. Whichever conducts is a volt or so, hence a RELATIVE tolerance on it
is a relative tolerance on its exponential current.

A drop A ln(1 + i/Is) + B i is inverted in closed form with the Wright omega
function: i + Is = (A/B) omega(drop/A + B Is/A + ln(B Is/A)). The inrush resistor
R is shared by both diagonals; the loop in `bridge` settles that share (it
shrinks the error by about R Is/(2 n Vt) < 1e-3 a turn), so R = 0 needs no care.

No smoothing capacitor (Cs = 0): the bus equation is then the constraint
i_dc = i_string + vb/R. It is not softened by a small capacitor but differentiated,
with a restoring term: d(i_dc - i_load)/dt = -k (i_dc - i_load). A solution that
meets the constraint is an exact solution of this, whatever k.
"""

import math

import numpy as np
from scipy.special import wrightomega

VT = 0.025852  # thermal voltage at 300 K, V
FOLD = np.array([[1.0, -1.0], [-1.0, -1.0]])  # (w, vb) -> (p, q); its inverse is half of itself


def pick(which, first, second):
    """`first` where `which` holds, else `second`; quick for a single bool, which the integrator asks most of the time."""
    return (first if which else second) if isinstance(which, bool) else np.where(which, first, second)


def saturation_current(part):
    """Is of a diode or LED, A, from what its data sheet states."""
    junction = part.forward_voltage - part.series_resistance * part.at_current
    return part.at_current / np.expm1(junction / (part.ideality * VT))


class Branch:
    """Current and slope di/dv of a branch whose drop is a ln(1 + i/saturation) + b i."""

    def __init__(self, a, b, saturation):
        self.a, self.b, self.saturation = a, b, saturation
        self.share = a / b if b > 0 else 0.0
        self.shift = b * saturation / a + np.log(b * saturation / a) if b > 0 else 0.0

    def __call__(self, drop):
        x = drop / self.a
        if self.b > 0:
            omega = wrightomega(x + self.shift)
            forward = (float(omega) if isinstance(x, float) else omega) * self.share
        else:
            forward = self.saturation * np.exp(np.minimum(x, 600.0))
        return forward - self.saturation, forward / (self.a + self.b * forward)


class Circuit:
    """The lamp as equations. Every method takes scalars or arrays."""

    def __init__(self, lamp):
        mains, diode, string = lamp.mains, lamp.diode, lamp.string
        self.lamp, self.period = lamp, 1.0 / mains.frequency
        self.orders = np.array([1.0] + [float(h) for h in mains.harmonics])
        self.amplitudes = 2**0.5 * mains.voltage * np.array([1.0] + [f for f, _ in mains.harmonics.values()])
        self.phases = np.radians(np.array([0.0] + [p for _, p in mains.harmonics.values()]))
        self.half_wave_symmetry = bool(np.all(self.orders % 2 == 1))
        self.shaped, self.rms = False, float(np.sum(self.amplitudes**2) / 2) ** 0.5  # orders differ, so squares add
        self.resistor = lamp.inrush_resistor
        self.leak = 1.0 / lamp.bleeder if lamp.bleeder else 0.0
        self.bus_leak = 1.0 / lamp.smoothing_bleeder if lamp.smoothing_bleeder else 0.0
        self.diagonal = Branch(
            diode.ideality * VT, diode.series_resistance + self.resistor / 2, saturation_current(diode)
        )
        led, many, wide = string.led, string.in_series, string.in_parallel
        self.string = Branch(
            many * led.ideality * VT,
            many * led.series_resistance / wide + lamp.series_resistor,
            wide * saturation_current(led),
        )
        self.restore = 400.0 * mains.frequency  # k of the constraint, 1/s

    def mains(self, t):
        """v in V and dv/dt in V/s."""
        w = 2 * np.pi * self.orders / self.period
        if isinstance(t, float):
            v = dv = 0.0
            for a, k, phase in zip(self.amplitudes.tolist(), w.tolist(), self.phases.tolist(), strict=True):
                v, dv = v + a * math.sin(k * t + phase), dv + a * k * math.cos(k * t + phase)
            return v, dv
        angle = np.multiply.outer(t, w) + self.phases
        return np.sin(angle) @ self.amplitudes, np.cos(angle) @ (w * self.amplitudes)

    def stretches(self, start, end):
        """Times between which the mains has no corner."""
        return [(start, end)]

    def bridge(self, w, vb):
        """i1 and i2 of the diagonals (A) and d(i, i_dc)/d(w, vb) as four slopes (S)."""
        flip, w = w < 0, abs(w)
        r = self.resistor
        i2 = -self.diagonal.saturation
        for _ in range(40):
            before = i2
            i1, s1 = self.diagonal((w - vb + r * i2) / 2)
            i2, s2 = self.diagonal((-w - vb + r * i1) / 2)
            off = abs(i2 - before)
            if r == 0 or (off if isinstance(off, float) else np.max(off)) < 1e-13 * self.diagonal.saturation:
                break
        # slopes of i1, i2 with the other diagonal's share of the resistor taken in
        det = 1 - r * r * s1 * s2 / 4
        i1_w, i1_b = s1 * (1 - r * s2 / 2) / (2 * det), -s1 * (1 + r * s2 / 2) / (2 * det)
        i2_w, i2_b = -s2 * (1 - r * s1 / 2) / (2 * det), -s2 * (1 + r * s1 / 2) / (2 * det)
        sign = pick(flip, -1.0, 1.0)
        slopes = i1_w - i2_w, sign * (i1_b - i2_b), sign * (i1_w + i2_w), i1_b + i2_b
        return pick(flip, i2, i1), pick(flip, i1, i2), slopes

    def rates(self, t, y):
        """d(p, q)/dt; y has the two states along its first axis."""
        if np.ndim(t) == 0:
            t, y = float(t), y.tolist()
        w, vb = (y[0] - y[1]) / 2, -(y[0] + y[1]) / 2
        v, dv = self.mains(t)
        i1, i2, (_, _, dc_w, dc_b) = self.bridge(w, vb)
        load, load_b = self.string(vb)
        spare = i1 + i2 - load - vb * self.bus_leak
        dw = dv - (i1 - i2 - (v - w) * self.leak) / self.lamp.dropper
        if self.lamp.smoothing > 0:
            db = spare / self.lamp.smoothing
        else:
            db = (dc_w * dw + self.restore * spare) / (load_b + self.bus_leak - dc_b)
        return np.array([dw - db, -dw - db])

    def jacobian(self, t, y):
        """Jacobian of `rates`, shape (2, 2, ...): closed with smoothing, central differences without."""
        if self.lamp.smoothing > 0:
            w, vb = (y[0] - y[1]) / 2, -(y[0] + y[1]) / 2
            _, _, (i_w, i_b, dc_w, dc_b) = self.bridge(w, vb)
            c, cs = self.lamp.dropper, self.lamp.smoothing
            plain = np.array(
                [[-(i_w + self.leak) / c, -i_b / c], [dc_w / cs, (dc_b - self.string(vb)[1] - self.bus_leak) / cs]]
            )
            return np.einsum("ij,jk...,kl->il...", FOLD, plain, FOLD / 2)
        columns = []
        for k in (0, 1):
            step = np.zeros_like(y)
            step[k] = 1e-6
            columns.append((self.rates(t, y + step) - self.rates(t, y - step)) / 2e-6)
        return np.stack(columns, axis=1)
