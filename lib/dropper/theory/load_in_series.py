"""Load in series: what a load of known voltage and current needs before it, a dropper or a resistor."""

from __future__ import annotations

from functools import cache

from sympy import Integral, cos, pi, sin, sqrt

from .engine.assumptions import CAPACITOR_LAW, LOOP_LAW, OHMS_LAW, POWER_TERMS, PURE_LOAD, RMS, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, P_R, V_L, X_C, C, I_rms, R_d, U_rms, V, f, theta
from .reactance import derive_dropper_reactance
from .series import SERIES, current_step

i, u, v, v_L = (GLOSSARY[name].of for name in ("i", "u", "v", "v_L"))
_LOAD_BELOW_MAINS = Inequality(V_L, V, "V", "the load would have all of the mains, and nothing would be left to drop")


@cache
def derive_voltage_beside_load() -> Derivation:
    """Rms voltage that the dropper takes beside a load."""
    return Derivation(
        name="voltage_beside_load",
        title="Voltage of a dropper beside its load",
        question="What must the dropper take, if the load is to have so many volts of the mains?",
        steps=(
            premise(
                "definition",
                "The load's voltage is in step with the current, from whose rise the angle counts.",
                v_L(theta),
                sqrt(2) * V_L * sin(theta),
            ),
            premise(
                "law",
                "The dropper's voltage lags the current by a quarter period.",
                u(theta),
                -sqrt(2) * U_rms * cos(theta),
            ),
            premise("circuit", "The two add up to the mains, instant by instant.", v(theta), v_L(theta) + u(theta)),
            premise(
                "definition",
                "The square of the rms value is the mean of the square over one period.",
                V**2,
                Integral(v(theta) ** 2, (theta, 0, 2 * pi)) / (2 * pi),
            ),
            step(
                "The product of sine and cosine has no mean: the rms values are at right angles.",
                V**2,
                V_L**2 + U_rms**2,
                Substitution((4, 3, 1, 2)),
            ),
            step("Solved: more than the plain difference.", U_rms, sqrt(V**2 - V_L**2), Solution((5,))),
        ),
        assumptions=SERIES,
        sources=(CAPACITOR_LAW, LOOP_LAW, RMS),
        conditions=(_LOAD_BELOW_MAINS,),
    )


@cache
def derive_dropper_for_load() -> Derivation:
    """The dropper that brings a load to its own voltage."""
    return Derivation(
        name="dropper_for_load",
        title="Dropper for a load of known voltage",
        question="How large must the dropper be for a load of so many volts and amperes?",
        steps=(
            quotation("The dropper must take this.", derive_voltage_beside_load()),
            premise("definition", "Reactance is its rms voltage over the rms current.", X_C, U_rms / I_rms),
            quotation("The reactance of a dropper.", derive_dropper_reactance()),
            step(
                "The two are the same.",
                1 / (2 * pi * f * C),
                U_rms / I_rms,
                Reasoning((2, 3), lambda new, wanted, had: (new.rhs - wanted.rhs, new.lhs - had.rhs)),
            ),
            step("Solved for the dropper.", C, I_rms / (2 * pi * f * sqrt(V**2 - V_L**2)), Solution((4, 1))),
        ),
        assumptions=SERIES,
        sources=(CAPACITOR_LAW, LOOP_LAW),
        conditions=(_LOAD_BELOW_MAINS,),
    )


def _resistor_steps() -> tuple:
    """Steps 1 to 6, shared: a resistor in place of the dropper, whose voltage adds to the load's as it stands."""
    return (
        current_step(),
        premise(
            "definition", "The load's voltage is in step with the current.", v_L(theta), sqrt(2) * V_L * sin(theta)
        ),
        premise(
            "circuit",
            "Load and resistor add up to the mains, instant by instant.",
            v(theta),
            v_L(theta) + R_d * i(theta),
        ),
        premise(
            "definition",
            "The square of the rms value is the mean of the square over one period.",
            V**2,
            Integral(v(theta) ** 2, (theta, 0, 2 * pi)) / (2 * pi),
        ),
        step(
            "Both are in step with the current, so their rms values add plainly.",
            V**2,
            (V_L + R_d * I_rms) ** 2,
            Substitution((4, 3, 2, 1)),
        ),
        step("Solved for the resistor.", R_d, (V - V_L) / I_rms, Solution((5,))),
    )


@cache
def derive_resistor_for_load() -> Derivation:
    """The resistor that would do what the dropper does."""
    return Derivation(
        name="resistor_for_load",
        title="Resistor for a load of known voltage",
        question="What resistor would bring the load to its own voltage instead?",
        steps=_resistor_steps(),
        assumptions=(SINE, PURE_LOAD),
        sources=(OHMS_LAW, LOOP_LAW, RMS),
        conditions=(_LOAD_BELOW_MAINS,),
    )


@cache
def derive_resistor_heat_beside_load() -> Derivation:
    """Heat of the resistor that does what the dropper does."""
    return Derivation(
        name="resistor_heat_beside_load",
        title="Heat of a dropping resistor beside its load",
        question="How many watts does a resistor burn where a dropper burns none?",
        steps=(
            quotation("The resistor must be this.", derive_resistor_for_load()),
            current_step(),
            premise(
                "law",
                "It turns current squared times resistance to heat; the mean over one period.",
                P_R,
                Integral(R_d * i(theta) ** 2, (theta, 0, 2 * pi)) / (2 * pi),
            ),
            step("The mean of the squared sine is one half.", P_R, R_d * I_rms**2, Substitution((3, 2))),
            step("Put in: the voltage that it takes, times the current.", P_R, (V - V_L) * I_rms, Substitution((4, 1))),
        ),
        assumptions=(SINE, PURE_LOAD),
        sources=(OHMS_LAW, POWER_TERMS),
        conditions=(_LOAD_BELOW_MAINS,),
    )
