"""Power: real power of the lamp, by two ways, and the clamped voltage at which it is greatest."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, Integral, pi, sin

from .charge import CLAMP_BELOW_PEAK, derive_mean_string_current
from .conduction import CREST, line_current_steps
from .engine.assumptions import FIGURE_OF_MERIT, FIRST_PRINCIPLES, HARVESTERS, IDEAL_LAMP, POWER_TERMS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.symbols import GLOSSARY, P_C, C, D, D_best, I_mean, P, P_max, V_p, f, gamma, theta
from .reactance import derive_mean_capacitor_power

i, v = GLOSSARY["i"].of, GLOSSARY["v"].of


@cache
def derive_real_power() -> Derivation:
    """Real power as clamped voltage times mean current."""
    return Derivation(
        name="real_power",
        title="Real power of the lamp",
        question="How many watts does the lamp take from the mains?",
        steps=(
            quotation("The dropper takes none, in the mean.", derive_mean_capacitor_power()),
            premise(
                "circuit",
                "So all of it goes into the bridge, whose voltage is the clamped voltage, with the sign "
                "of the current, whenever current flows.",
                P,
                P_C + D * I_mean,
            ),
            quotation("The mean current is known.", derive_mean_string_current()),
            step(
                "Put together: more LEDs take more power only up to a point.",
                P,
                4 * f * C * D * (V_p - D),
                Substitution((2, 1, 3)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, POWER_TERMS),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_real_power_from_angle() -> Derivation:
    """Real power the second way: mains voltage times line current."""
    return Derivation(
        name="real_power_from_angle",
        title="Real power, from the conduction angle",
        question="What does a wattmeter in the line show, if we see for how long the line conducts?",
        steps=(
            *line_current_steps(),
            premise(
                "definition",
                "Real power is the mean of voltage times current over half a cycle.",
                P,
                Integral(v(theta) * i(theta), (theta, CREST - gamma, CREST)) / pi,
            ),
            step(
                "Before the mains' rise through zero the lamp gives power back, after it the lamp takes power.",
                P,
                f * C * V_p**2 * sin(gamma) ** 2,
                Substitution((4, 3, 2)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, POWER_TERMS),
    )


@cache
def derive_best_clamped_voltage() -> Derivation:
    """Clamped voltage of greatest power."""
    power = GLOSSARY["P"].of(D)
    return Derivation(
        name="best_clamped_voltage",
        title="Clamped voltage of greatest power",
        question="How many LEDs, in volts, take the most power that one dropper can give?",
        steps=(
            quotation("Power against clamped voltage.", derive_real_power(), function_of=D),
            step("Its slope.", Derivative(power, D), 4 * f * C * (V_p - 2 * D), Substitution((1,))),
            step(
                "The slope falls all the way, so there is one maximum and no minimum.",
                Derivative(power, D, D),
                -8 * f * C,
                Substitution((1,)),
            ),
            step(
                "At the best voltage the slope is nothing.",
                4 * f * C * (V_p - 2 * D_best),
                0,
                Reasoning((2,), lambda new, slope: (new.lhs - slope.rhs.subs(D, D_best), new.rhs)),
            ),
            step("Half the mains' peak.", D_best, V_p / 2, Solution((4,))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, HARVESTERS),
    )


@cache
def derive_greatest_power() -> Derivation:
    """The most power one dropper can give."""
    return Derivation(
        name="greatest_power",
        title="Greatest power of a dropper",
        question="How many watts can one dropper give at the very most?",
        steps=(
            quotation("Power against clamped voltage.", derive_real_power(), function_of=D),
            quotation("It is greatest here.", derive_best_clamped_voltage()),
            premise("definition", "The greatest power is the power there.", P_max, GLOSSARY["P"].of(D_best)),
            step("Put in.", P_max, f * C * V_p**2, Substitution((3, 1, 2))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIGURE_OF_MERIT,),
    )
