"""Ringing: the rush of plugging in where the mains' own inductance is counted, its peak and how far it overshoots."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, atan, cos, exp, log, pi, simplify, sin, solve, sqrt

from .engine.assumptions import FIRST_PRINCIPLES, REFERENCE_IMPEDANCE, STEP
from .engine.derivation import Derivation, Step, premise, step
from .engine.example import Example
from .engine.justification import Reasoning, Solution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, I_0, C, L_m, R_i, R_lim, U_over, V_step, b_L, s_L, t, t_m

i, u = GLOSSARY["i"].of, GLOSSARY["u"].of
_SMALL = {"line_inductance": "0.0008", "inrush_resistor": "10", "dropper": "470e-9", "step_voltage": "325"}
_SOURCES = (FIRST_PRINCIPLES, REFERENCE_IMPEDANCE)
_LIMIT = 2 * sqrt(L_m / C)
_TOO_MUCH = Inequality(R_i, _LIMIT, "Ω", "with more nothing rings; see damped_inrush_peak")
_TOO_LITTLE = Inequality(_LIMIT, R_i, "Ω", "with less it rings; see ringing_inrush_peak")


def _circuit() -> tuple[Step, ...]:
    """Steps 1 to 4: the loop, the capacitor's law, and the start."""
    return (
        premise(
            "circuit",
            "Resistance, inductance and dropper share the step between them.",
            R_i * i(t) + L_m * Derivative(i(t), t) + u(t),
            V_step,
        ),
        premise(
            "law",
            "A capacitor's current is its capacitance times the rate at which its voltage changes.",
            i(t),
            C * Derivative(u(t), t),
        ),
        premise("circuit", "The dropper starts empty: any charge on it is counted with the step.", u(0), 0),
        premise("law", "The current in an inductance cannot jump, so it starts at nothing.", i(0), 0),
    )


def _solves(new, loop, capacitor, empty, still, rate):
    """The new current, and the voltage that the loop leaves to the dropper with it."""
    current = new.rhs
    voltage = loop.rhs - (loop.lhs - u(t)).xreplace({i(t): current}).doit()
    leaves = capacitor.lhs.xreplace({i(t): current}) - capacitor.rhs.xreplace({u(t): voltage}).doit()
    return _by_rate(leaves, rate), voltage.subs(t, 0) - empty.rhs, current.subs(t, 0) - still.rhs, new.lhs - i(t)


def _by_rate(expression, rate):
    """The same with the capacitance said by the rate: no root is left in it."""
    return simplify(expression.subs(C, solve(rate.lhs - rate.rhs, C)[0]))


def _is_level(new, current):
    """Where the slope of the current is nothing."""
    return (current.rhs.diff(t).subs(t, new.rhs), new.lhs - t_m)


@cache
def derive_ringing_limit() -> Derivation:
    """The resistance from which on the rush does not ring."""
    return Derivation(
        name="ringing_limit",
        title="Resistance from which on nothing rings",
        question="How much resistance keeps mains and dropper from ringing?",
        steps=(
            *_circuit()[:2],
            step(
                "Both together, in the dropper's voltage.",
                L_m * C * Derivative(u(t), (t, 2)) + R_i * C * Derivative(u(t), t) + u(t),
                V_step,
                Reasoning((1, 2), _is_joined),
            ),
            premise(
                "law",
                "What is left of the way dies away as an exponential, at a rate that the equation must allow.",
                u(t),
                V_step - V_step * exp(-s_L * t),
            ),
            step(
                "Put in: a quadratic equation for the rate.",
                L_m * C * s_L**2 - R_i * C * s_L + 1,
                0,
                Reasoning((3, 4), _is_quadratic),
            ),
            premise("definition", "At the limit its two answers are one, half of their sum.", s_L, R_i / (2 * L_m)),
            premise("definition", "That resistance is the limit.", R_i, R_lim),
            step("Solved. With less the rate is complex: it rings.", R_lim, _LIMIT, Solution((5, 6, 7))),
        ),
        assumptions=STEP,
        sources=_SOURCES,
    )


def _is_joined(new, loop, capacitor):
    joined = (loop.lhs - loop.rhs).xreplace({i(t): capacitor.rhs}).doit()
    return (joined - (new.lhs - new.rhs), capacitor.lhs - i(t))


def _is_quadratic(new, equation, attempt):
    left = (equation.lhs - equation.rhs).subs(u(t), attempt.rhs).doit()
    return (left / (attempt.rhs - V_step) - (new.lhs - new.rhs),)


def _ringing_steps() -> tuple[Step, ...]:
    """Steps 1 to 6: the current where it rings."""
    return (
        *_circuit(),
        premise("definition", "It rings at this rate, squared.", b_L**2, 1 / (L_m * C) - (R_i / (2 * L_m)) ** 2),
        step(
            "The current that satisfies them all: a sine that dies away.",
            i(t),
            V_step / (L_m * b_L) * exp(-R_i * t / (2 * L_m)) * sin(b_L * t),
            Reasoning((1, 2, 3, 4, 5), _solves),
        ),
    )


@cache
def derive_ringing_inrush_peak() -> Derivation:
    """Peak of the inrush current with little resistance."""
    root = sqrt(4 * L_m / C - R_i**2)
    return Derivation(
        name="ringing_inrush_peak",
        title="Peak of a rush that rings",
        question="What limits the rush where there is hardly any resistor?",
        steps=(
            *_ringing_steps(),
            step(
                "It is greatest where it no longer rises.",
                t_m,
                atan(2 * L_m * b_L / R_i) / b_L,
                Reasoning((6,), _is_level),
            ),
            premise("definition", "The peak.", I_0, i(t_m)),
            step(
                "Put in. Without any resistance the step would drive a current through √(L/C), some tens of ohms.",
                I_0,
                V_step * sqrt(C / L_m) * exp(-R_i / root * atan(root / R_i)),
                Reasoning((8, 6, 7, 5), _rate_put_in),
            ),
        ),
        assumptions=STEP,
        sources=_SOURCES,
        conditions=(_TOO_MUCH,),
        example=Example(_SMALL),
    )


def _rate_put_in(new, peak, current, moment, rate):
    height = peak.rhs.subs(i(t_m), current.rhs.subs(t, t_m)).subs(t_m, moment.rhs)
    return new.lhs - peak.lhs, _by_rate((height / new.rhs) ** 2, rate) - 1


@cache
def derive_damped_inrush_peak() -> Derivation:
    """Peak of the inrush current with an inrush resistor."""
    root = sqrt(R_i**2 - 4 * L_m / C)
    return Derivation(
        name="damped_inrush_peak",
        title="Peak of a rush with a resistor, the mains' inductance counted",
        question="By how much does the mains' own inductance lower the rush?",
        steps=(
            *_circuit(),
            premise(
                "definition",
                "Two exponentials are this much, squared, above and below the mean of their rates.",
                b_L**2,
                (R_i / (2 * L_m)) ** 2 - 1 / (L_m * C),
            ),
            step(
                "The current that satisfies them all: it rises with the one and dies away with the other.",
                i(t),
                V_step / (2 * L_m * b_L) * exp(-R_i * t / (2 * L_m)) * (exp(b_L * t) - exp(-b_L * t)),
                Reasoning((1, 2, 3, 4, 5), _solves),
            ),
            step(
                "It is greatest where it no longer rises.",
                t_m,
                log((R_i + 2 * L_m * b_L) / (R_i - 2 * L_m * b_L)) / (2 * b_L),
                Reasoning((6,), _is_level),
            ),
            premise("definition", "The peak.", I_0, i(t_m)),
            step(
                "Put in. It is always below the step over the resistance, and near it where the resistance is large.",
                I_0,
                V_step * sqrt(C / L_m) * exp(-R_i / (2 * root) * log((R_i + root) / (R_i - root))),
                Reasoning((8, 6, 7, 5), _rate_put_in),
            ),
        ),
        assumptions=STEP,
        sources=_SOURCES,
        conditions=(_TOO_LITTLE,),
    )


@cache
def derive_dropper_overshoot() -> Derivation:
    """How high the dropper goes where the rush rings."""
    return Derivation(
        name="dropper_overshoot",
        title="Overshoot of the dropper",
        question="How high does the dropper go when the rush rings?",
        steps=(
            *_ringing_steps(),
            step(
                "The dropper has what resistance and inductance leave.",
                u(t),
                V_step - V_step * exp(-R_i * t / (2 * L_m)) * (cos(b_L * t) + R_i / (2 * L_m * b_L) * sin(b_L * t)),
                Reasoning((1, 6), _is_left),
            ),
            premise("definition", "It rises while the current flows one way: for half a turn.", t_m, pi / b_L),
            premise("definition", "Then it is highest.", U_over, u(t_m)),
            step(
                "Put in: twice the step without resistance, the step itself at the limit of ringing.",
                U_over,
                V_step * (1 + exp(-pi * R_i / sqrt(4 * L_m / C - R_i**2))),
                Reasoning((9, 7, 8, 5), _highest),
            ),
        ),
        assumptions=STEP,
        sources=_SOURCES,
        conditions=(_TOO_MUCH,),
        example=Example(_SMALL),
    )


def _is_left(new, loop, current):
    left = loop.rhs - (loop.lhs - u(t)).xreplace({i(t): current.rhs}).doit()
    return new.lhs - u(t), simplify(left - new.rhs)


def _highest(new, height, voltage, moment, rate):
    volts = height.rhs.subs(u(t_m), voltage.rhs.subs(t, t_m)).subs(t_m, moment.rhs)
    return new.lhs - height.lhs, _by_rate(volts - new.rhs, rate)


def rush_law(line_inductance: float, dropper: float, inrush_resistor: float) -> str:
    """The name of the derivation that gives the peak of a rush: whether it rings, is damped, or meets no inductance.

    Parameters
    ----------
    line_inductance, dropper, inrush_resistor
        H, F, and Ω of all that is in the line.

    Examples
    --------
    >>> rush_law(0.8e-3, 330e-9, 0.4), rush_law(0.8e-3, 330e-9, 220.0), rush_law(0.0, 330e-9, 220.0)
    ('ringing_inrush_peak', 'damped_inrush_peak', 'inrush_peak')
    """
    if line_inductance == 0:
        return "inrush_peak"
    limit = derive_ringing_limit()(line_inductance=line_inductance, dropper=dropper)
    return "ringing_inrush_peak" if inrush_resistor < limit else "damped_inrush_peak"
