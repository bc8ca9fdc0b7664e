"""Limits: what ratings and rules come to in a resistor's volts, a diode's surge, charge and time."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, Integral, Max, Min, pi, sin, sqrt

from .discharge import derive_largest_bleeder
from .engine.assumptions import CAPACITOR_LAW, FIRST_PRINCIPLES, OHMS_LAW, RESISTOR_RATINGS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import (
    GLOSSARY,
    V_0,
    V_P,
    C,
    I_2t,
    I_su,
    P_r,
    Q,
    R,
    R_b,
    T_f,
    T_w,
    T_z,
    V_le,
    V_w,
    k_T,
    t,
    t_su,
    tau,
)

i, share = GLOSSARY["i"].of, GLOSSARY["k_line"].of
_SPAN = Inequality(T_f, T_z, "°C", "the power has to fall over some span of temperature")


@cache
def derive_resistor_working_voltage() -> Derivation:
    """Greatest voltage that a resistor may work at."""
    return Derivation(
        name="resistor_working_voltage",
        title="Working voltage of a resistor",
        question="How much voltage may stand across a resistor all the time?",
        steps=(
            premise("law", "At some voltage it turns just its rated power to heat.", P_r, V_P**2 / R),
            step("Solved for that voltage: large for a resistor of many ohms.", V_P, sqrt(P_r * R), Solution((1,))),
            premise(
                "definition",
                "Whatever its ohms, its kind has a limiting element voltage; the lesser of the two holds.",
                V_w,
                Min(V_P, V_le),
            ),
            step(
                "Put in. Above some hundred kilohms it is the kind that limits, not the watts.",
                V_w,
                Min(sqrt(P_r * R), V_le),
                Substitution((3, 2)),
            ),
        ),
        assumptions=("The resistor is no warmer than its rating asks; a warmer one is allowed less power.",),
        sources=(RESISTOR_RATINGS, OHMS_LAW),
    )


@cache
def derive_derated_share() -> Derivation:
    """Share of the rated power that is allowed at a temperature."""
    line = (T_z - T_w) / (T_z - T_f)
    return Derivation(
        name="derated_share",
        title="Derating of a resistor",
        question="How much of its rated power may a resistor take where it is warm?",
        steps=(
            premise(
                "definition",
                "Between two temperatures of its surroundings the maker draws a straight line.",
                Derivative(share(T_w), T_w),
                -1 / (T_z - T_f),
            ),
            premise("definition", "At the lower one the whole rated power is allowed.", share(T_f), 1),
            step(
                "So the line runs like this, to nothing at the upper one.",
                share(T_w),
                line,
                Reasoning((1, 2), _solves_line),
            ),
            premise(
                "definition",
                "Below the line's start all is allowed, beyond its end nothing.",
                k_T,
                Max(0, Min(1, share(T_w))),
            ),
            step("Put together.", k_T, Max(0, Min(1, line)), Substitution((4, 3))),
        ),
        assumptions=("The temperature is that of the air around the part, or of its terminals: see the data sheet.",),
        sources=(RESISTOR_RATINGS,),
        conditions=(_SPAN,),
    )


def _solves_line(new, law, start):
    return (
        (law.lhs - law.rhs).xreplace({new.lhs: new.rhs}).doit(),
        new.rhs.subs(T_w, T_f) - start.rhs,
        new.lhs - share(T_w),
    )


@cache
def derive_surge_fusing_integral() -> Derivation:
    """Integral of the squared current over one half-sine surge."""
    return Derivation(
        name="surge_fusing_integral",
        title="I²t of a surge",
        question="A diode stands one half sine of current; how much is that as amperes squared times seconds?",
        steps=(
            premise(
                "definition",
                "Each ohm in the path turns this many joules to heat.",
                I_2t,
                Integral(i(t) ** 2, (t, 0, t_su)),
            ),
            premise("definition", "The surge of the data sheet is half a sine.", i(t), I_su * sin(pi * t / t_su)),
            step(
                "Worked out: half of what a steady current would give.", I_2t, I_su**2 * t_su / 2, Substitution((1, 2))
            ),
        ),
        assumptions=(
            "The heat stays where it arises, and spreads evenly there. Far below a millisecond it does not, and the "
            "figure promises too much.",
        ),
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_stored_charge() -> Derivation:
    """Charge that a capacitor holds at a voltage."""
    return Derivation(
        name="stored_charge",
        title="Charge held after unplugging",
        question="How much charge does the dropper hold when it is unplugged?",
        steps=(
            premise("law", "Capacitance is charge for each volt.", C, Q / V_0),
            step("Solved for the charge.", Q, C * V_0, Solution((1,))),
        ),
        assumptions=("At worst it is unplugged at the mains' peak.",),
        sources=(CAPACITOR_LAW,),
    )


@cache
def derive_largest_time_constant() -> Derivation:
    """Largest product of bleeder and dropper that a limit allows."""
    bleeder = derive_largest_bleeder()
    return Derivation(
        name="largest_time_constant",
        title="Largest time constant",
        question="How large may bleeder times capacitance be if the voltage is to fall to a limit within a time?",
        steps=(
            quotation("The largest bleeder for one capacitance.", bleeder),
            premise("definition", "Time constant of the two.", tau, R_b * C),
            step(
                "The capacitance cancels: one figure serves every dropper on that mains.",
                tau,
                bleeder.result.rhs * C,
                Substitution((2, 1)),
            ),
        ),
        assumptions=bleeder.assumptions,
        sources=bleeder.sources,
        conditions=bleeder.conditions,
    )
