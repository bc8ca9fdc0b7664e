"""Series circuit: a load and a dropper in series on a sine, impedance, lead of the current, power and power factor.

Here the load is a plain resistance (an iron, a filament), so that every current is a sine. The phase angle is counted
from the current's rise through zero.
"""

from __future__ import annotations

from functools import cache

from sympy import Derivative, Integral, atan, cos, pi, sin, sqrt

from .engine.assumptions import CAPACITOR_LAW, LOOP_LAW, LOSSLESS, OHMS_LAW, POWER_TERMS, PURE_LOAD, RMS, SINE
from .engine.derivation import Derivation, Step, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.symbols import GLOSSARY, P_C, PF, R_L, X_C, C, I_rms, P, S, V, Z, f, phi, theta
from .reactance import derive_dropper_reactance, derive_mean_capacitor_power

i, u, v, v_L = (GLOSSARY[name].of for name in ("i", "u", "v", "v_L"))
SERIES = (SINE, PURE_LOAD, LOSSLESS)


def current_step() -> Step:
    """The first step, shared: a sine current."""
    return premise(
        "definition",
        "One current flows through both, a sine; the phase angle is counted from its rise.",
        i(theta),
        sqrt(2) * I_rms * sin(theta),
    )


def dropper_voltage_steps() -> tuple:
    """Steps 1 to 3, shared: the dropper's voltage lags its current by a quarter period."""
    return (
        current_step(),
        premise(
            "law",
            "A capacitor's current is its capacitance times the rate at which its voltage changes; counted "
            "in angle instead of time, its voltage rises by reactance times current.",
            Derivative(u(theta), theta),
            X_C * i(theta),
        ),
        step(
            "The voltage that does so and has no steady part: it lags the current by a quarter period.",
            u(theta),
            -sqrt(2) * X_C * I_rms * cos(theta),
            Reasoning((1, 2), _swings_about_zero),
        ),
    )


def _swings_about_zero(new, current, law):
    voltage = new.rhs
    wanted = law.rhs.xreplace({current.lhs: current.rhs})
    return (voltage.diff(theta) - wanted, Integral(voltage, (theta, 0, 2 * pi)).doit(), new.lhs - u(theta))


def _circuit_steps() -> tuple:
    """Steps 1 to 6, shared: the mains voltage, against the phase of the current."""
    return (
        *dropper_voltage_steps(),
        premise(
            "law",
            "The load's voltage is its resistance times the current, in step with it.",
            v_L(theta),
            R_L * i(theta),
        ),
        premise(
            "circuit", "The two voltages add up to the mains, instant by instant.", v(theta), v_L(theta) + u(theta)
        ),
        step(
            "The mains voltage, in a part in step with the current and a part a quarter period behind.",
            v(theta),
            sqrt(2) * I_rms * (R_L * sin(theta) - X_C * cos(theta)),
            Substitution((5, 4, 3, 1)),
        ),
    )


@cache
def derive_series_impedance() -> Derivation:
    """Impedance of load and dropper in series."""
    return Derivation(
        name="series_impedance",
        title="Impedance of a load and a dropper in series",
        question="Ohms of the load and ohms of the dropper: how do they add?",
        steps=(
            *_circuit_steps(),
            premise(
                "definition",
                "The square of the rms value is the mean of the square over one period.",
                V**2,
                Integral(v(theta) ** 2, (theta, 0, 2 * pi)) / (2 * pi),
            ),
            step(
                "The product of sine and cosine has no mean; the squares are left.",
                V**2,
                I_rms**2 * (R_L**2 + X_C**2),
                Substitution((7, 6)),
            ),
            premise(
                "definition", "Impedance is rms voltage over rms current; here both squared.", Z**2, V**2 / I_rms**2
            ),
            step("The current cancels.", Z**2, R_L**2 + X_C**2, Substitution((9, 8))),
            step(
                "The root: as the sides of a right-angled triangle, not as a plain sum.",
                Z,
                sqrt(R_L**2 + X_C**2),
                Solution((10,)),
            ),
        ),
        assumptions=SERIES,
        sources=(CAPACITOR_LAW, OHMS_LAW, LOOP_LAW, RMS),
    )


@cache
def derive_series_current() -> Derivation:
    """Rms current through load and dropper."""
    return Derivation(
        name="series_current",
        title="Current through a load and a dropper in series",
        question="How much current flows if a plain resistance stands behind the dropper?",
        steps=(
            quotation("The impedance.", derive_series_impedance()),
            quotation("The reactance of the dropper.", derive_dropper_reactance()),
            premise("definition", "Impedance is rms voltage over rms current.", Z, V / I_rms),
            step("Solved for the current.", I_rms, V / Z, Solution((3,))),
            step("Put together.", I_rms, V / sqrt(R_L**2 + (1 / (2 * pi * f * C)) ** 2), Substitution((4, 1, 2))),
        ),
        assumptions=SERIES,
        sources=(CAPACITOR_LAW, OHMS_LAW),
    )


@cache
def derive_phase_lead() -> Derivation:
    """Angle by which the current leads the mains voltage."""
    return Derivation(
        name="phase_lead",
        title="Lead of the current",
        question="By how much does the current come before the mains voltage?",
        steps=(
            *_circuit_steps(),
            premise(
                "definition",
                "The lead is the angle, counted from the current's rise, at which the mains rises through zero.",
                v(phi),
                0,
            ),
            step(
                "There the two parts are as large as each other.",
                R_L * sin(phi),
                X_C * cos(phi),
                Reasoning(
                    (6, 7),
                    lambda new, mains, zero: (
                        mains.rhs.subs(theta, phi) - zero.rhs - sqrt(2) * I_rms * (new.lhs - new.rhs),
                    ),
                ),
            ),
            step(
                "Solved for the angle: nothing without a dropper, a quarter period without a load.",
                phi,
                atan(X_C / R_L),
                Solution((8,)),
            ),
        ),
        assumptions=SERIES,
        sources=(CAPACITOR_LAW, OHMS_LAW, LOOP_LAW),
    )


@cache
def derive_series_power_factor() -> Derivation:
    """Power factor of load and dropper in series."""
    return Derivation(
        name="series_power_factor",
        title="Power factor of a load and a dropper in series",
        question="How much of the volt-amperes are watts?",
        steps=(
            *_circuit_steps(),
            premise(
                "definition",
                "Real power is the mean of voltage times current over one period.",
                P,
                Integral(v(theta) * i(theta), (theta, 0, 2 * pi)) / (2 * pi),
            ),
            step(
                "Only the part in step with the current counts: the load's.", P, R_L * I_rms**2, Substitution((7, 6, 1))
            ),
            premise("definition", "Apparent power is rms voltage times rms current.", S, V * I_rms),
            premise("definition", "Impedance is rms voltage over rms current.", Z, V / I_rms),
            step("Solved for the voltage.", V, Z * I_rms, Solution((10,))),
            premise("definition", "Power factor is real over apparent power.", PF, P / S),
            step("The current cancels: resistance over impedance.", PF, R_L / Z, Substitution((12, 8, 9, 11))),
            quotation("The impedance.", derive_series_impedance()),
            step("Put in. It is the cosine of the lead.", PF, R_L / sqrt(R_L**2 + X_C**2), Substitution((13, 14))),
        ),
        assumptions=SERIES,
        sources=(POWER_TERMS, CAPACITOR_LAW, OHMS_LAW),
    )


@cache
def derive_series_power() -> Derivation:
    """Real power of load and dropper in series."""
    return Derivation(
        name="series_power",
        title="Power of a load behind a dropper",
        question="How many watts does a plain resistance take behind a dropper?",
        steps=(
            quotation("The dropper takes none, in the mean.", derive_mean_capacitor_power()),
            premise("law", "The load takes current squared times resistance.", P, P_C + R_L * I_rms**2),
            premise("definition", "The current is mains voltage over impedance.", I_rms, V / Z),
            quotation("The impedance.", derive_series_impedance()),
            step(
                "Put together: greatest where load and dropper have the same ohms.",
                P,
                V**2 * R_L / (R_L**2 + X_C**2),
                Substitution((2, 1, 3, 4)),
            ),
        ),
        assumptions=SERIES,
        sources=(CAPACITOR_LAW, OHMS_LAW, POWER_TERMS),
    )
