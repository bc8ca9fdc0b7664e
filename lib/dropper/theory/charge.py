"""Charge: how much current reaches the string, for each half cycle turns the dropper's voltage over."""

from __future__ import annotations

from functools import cache

from sympy import Derivative, pi

from .engine.assumptions import FIRST_PRINCIPLES, FULL_BRIDGE_NOTE, HALF_WAVE_NOTE, HARVESTERS, IDEAL_LAMP, LOOP_LAW
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, C, D, I_mean, I_p, Q, R_o, T, V_d, V_p, V_s, f, omega, u_1, u_2
from .reactance import derive_crest_current

CLAMP_BELOW_PEAK = Inequality(
    D, V_p, "V", "the mains never reaches the voltage at which the bridge conducts, and no current flows"
)


@cache
def derive_clamped_voltage() -> Derivation:
    """What the bridge holds its ac side at while it conducts."""
    return Derivation(
        name="clamped_voltage",
        title="Voltage at which the bridge is clamped",
        question="At what voltage is the bridge's ac side held while current flows?",
        steps=(
            premise(
                "circuit",
                "Around the loop the current passes one diode, the string, and a second diode.",
                D - V_d - V_s - V_d,
                0,
                assumption="a resistor in series with the string is counted with the string",
            ),
            step("So the string and two forward drops stand at the ac side.", D, V_s + 2 * V_d, Solution((1,))),
        ),
        sources=(LOOP_LAW,),
    )


@cache
def derive_charge_per_half_cycle() -> Derivation:
    """Charge handed to the bridge in each half cycle."""
    return Derivation(
        name="charge_per_half_cycle",
        title="Charge in each half cycle",
        question="How much charge does the dropper pass to the string in one half cycle?",
        steps=(
            premise(
                "circuit",
                "At the positive crest conduction ends: the dropper has the mains' peak less the clamped "
                "voltage across it.",
                u_2,
                V_p - D,
            ),
            premise(
                "circuit",
                "At the negative crest before it, it was the same the other way round, and it stays so "
                "until the bridge conducts again.",
                u_1,
                -(V_p - D),
            ),
            premise(
                "law",
                "The charge that went through is the capacitance times the change of voltage.",
                Q,
                C * (u_2 - u_1),
            ),
            step(
                "The dropper's voltage is turned over, so the change is twice its value.",
                Q,
                2 * C * (V_p - D),
                Substitution((3, 1, 2)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, HALF_WAVE_NOTE),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_mean_string_current() -> Derivation:
    """Mean current of the string, by counting charge."""
    return Derivation(
        name="mean_string_current",
        title="Mean current of the string",
        question="How much current reaches the LEDs?",
        steps=(
            quotation("Each half cycle hands on this charge.", derive_charge_per_half_cycle()),
            premise("definition", "A period is the inverse of the frequency.", T, 1 / f),
            premise(
                "circuit",
                "The bridge passes the charge of both half cycles on in the same direction; in the mean "
                "none stays in the smoothing capacitor.",
                I_mean,
                2 * Q / T,
            ),
            step(
                "So the current grows with frequency and dropper, and falls in a straight line with the clamped "
                "voltage.",
                I_mean,
                4 * f * C * (V_p - D),
                Substitution((3, 1, 2)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, FULL_BRIDGE_NOTE, HARVESTERS),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_dropper_for_current() -> Derivation:
    """The dropper that a wanted current needs."""
    return Derivation(
        name="dropper_for_current",
        title="Dropper for a wanted current",
        question="How large a dropper does the string need?",
        steps=(
            quotation("The current is known from the parts.", derive_mean_string_current()),
            step("Solved for the dropper.", C, I_mean / (4 * f * (V_p - D)), Solution((1,))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, FULL_BRIDGE_NOTE),
        example=Example(
            {"frequency": "47", "peak_voltage": "120.21", "clamped_voltage": "15.6", "string_current_mean": "0.003"},
            "Texas Instruments SBVS343A (2019), Table 2",
        ),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_load_line() -> Derivation:
    """Clamped voltage against current: a straight line from the mains' peak."""
    return Derivation(
        name="load_line",
        title="Load line of the supply",
        question="To what voltage does the supply rise or fall when it has to give a certain current?",
        steps=(
            quotation("The current is known from the clamped voltage.", derive_mean_string_current()),
            step(
                "Solved for the voltage: the mains' peak with no current, and less in proportion to the current.",
                D,
                V_p - I_mean / (4 * f * C),
                Solution((1,)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(
            Inequality(I_mean, 4 * f * C * V_p, "A", "more than into a short circuit cannot be had", or_equal=True),
        ),
    )


@cache
def derive_source_resistance() -> Derivation:
    """Slope of the load line."""
    voltage = GLOSSARY["D"].of(I_mean)
    return Derivation(
        name="source_resistance",
        title="Slope of the load line",
        question="How many volts are lost for each ampere more, as if a resistor stood inside the supply?",
        steps=(
            quotation("The load line gives the voltage for each current.", derive_load_line(), function_of=I_mean),
            premise("definition", "The slope: the fall of voltage for each ampere.", R_o, -Derivative(voltage, I_mean)),
            step(
                "It depends on frequency and dropper only, and it turns nothing into heat.",
                R_o,
                1 / (4 * f * C),
                Substitution((2, 1)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_mean_string_current_from_crest() -> Derivation:
    """The same current, in terms of the current into a short circuit."""
    return Derivation(
        name="mean_string_current_from_crest",
        title="Mean current in terms of the short-circuit current",
        question="Given the peak of the current into a short circuit, what is left for a string?",
        steps=(
            quotation("The string's mean current.", derive_mean_string_current()),
            quotation("The peak of the current into a short circuit.", derive_crest_current()),
            premise("definition", "The angular frequency.", omega, 2 * pi * f),
            step(
                "The mean of the rectified short-circuit current, less what the clamped voltage keeps back.",
                I_mean,
                2 * I_p / pi - 2 * omega * C * D / pi,
                Substitution((1, 2, 3)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(HARVESTERS,),
        conditions=(
            Inequality(omega * C * D, I_p, "A", "the mains never reaches the clamped voltage; no current flows"),
        ),
    )
