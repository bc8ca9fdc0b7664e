"""Losses: where the real power goes, part by part, in resistors, diodes, LEDs, and the dropper's own small loss."""

from __future__ import annotations

from functools import cache

from sympy import Abs, Integral, pi

from .engine.assumptions import DISSIPATION, FIRST_PRINCIPLES, OHMS_LAW, RMS
from .engine.derivation import Derivation, premise, quotation, step
from .engine.example import Example
from .engine.justification import Solution, Substitution
from .engine.symbols import (
    GLOSSARY,
    P_D,
    P_LED,
    P_R,
    X_C,
    C,
    I_mean,
    I_rms,
    I_srms,
    P_loss,
    R_b,
    R_bs,
    R_i,
    R_p,
    R_ser,
    U_rms,
    V_bus,
    V_d,
    V_s,
    f,
    tan_delta,
    theta,
)
from .reactance import derive_dropper_reactance

i, i_s, u, v_bus = (GLOSSARY[name].of for name in ("i", "i_s", "u", "V_bus"))
_STEADY_BUS = "The bus hardly ripples, so that its mean is as good as its rms value."
_STEADY_DROP = "A diode that conducts drops nearly the same voltage at any current in use; one that blocks passes none."
_STEADY_STRING = "The string's voltage hardly changes while its current swings."


def _mean(of):
    """The mean over one period of the mains."""
    return Integral(of, (theta, 0, 2 * pi)) / (2 * pi)


@cache
def derive_inrush_resistor_heat() -> Derivation:
    """Heat of the inrush resistor in normal use."""
    return Derivation(
        name="inrush_resistor_heat",
        title="Heat of the inrush resistor",
        question="How much power does the inrush resistor burn, long after the inrush?",
        steps=(
            premise(
                "law",
                "At each instant it turns current squared times resistance to heat; the mean over a period.",
                P_R,
                _mean(R_i * i(theta) ** 2),
            ),
            premise(
                "definition",
                "The square of the rms current is the mean of the square, whatever its shape.",
                I_rms**2,
                _mean(i(theta) ** 2),
            ),
            step(
                "So the rms current counts, not the mean that the LEDs get.", P_R, R_i * I_rms**2, Substitution((1, 2))
            ),
        ),
        sources=(OHMS_LAW, RMS),
        example=Example(
            {"inrush_resistor": "280", "line_current_rms": "0.055"},
            "the support note to Texas Instruments SBVS343A (2019)",
        ),
    )


@cache
def derive_series_resistor_heat() -> Derivation:
    """Heat of the resistor in series with the string."""
    return Derivation(
        name="series_resistor_heat",
        title="Heat of the series resistor",
        question="How much power does the resistor between smoothing capacitor and string burn?",
        steps=(
            premise(
                "law",
                "At each instant it turns current squared times resistance to heat; the mean over a period.",
                P_R,
                _mean(R_ser * i_s(theta) ** 2),
            ),
            premise(
                "definition",
                "The square of the rms current is the mean of the square, whatever its shape.",
                I_srms**2,
                _mean(i_s(theta) ** 2),
            ),
            step(
                "The string's rms current counts; with good smoothing it is hardly more than the mean.",
                P_R,
                R_ser * I_srms**2,
                Substitution((1, 2)),
            ),
        ),
        sources=(OHMS_LAW, RMS),
    )


@cache
def derive_bleeder_heat() -> Derivation:
    """Heat of the bleeder across the dropper."""
    return Derivation(
        name="bleeder_heat",
        title="Heat of the dropper's bleeder",
        question="How much power does the bleeder across the dropper burn all the time?",
        steps=(
            premise(
                "law",
                "At each instant it turns voltage squared over resistance to heat; the mean over a period.",
                P_R,
                _mean(u(theta) ** 2 / R_b),
            ),
            premise(
                "definition",
                "The square of the rms voltage is the mean of the square, whatever its shape.",
                U_rms**2,
                _mean(u(theta) ** 2),
            ),
            step("Nearly all of the mains stands across it, day and night.", P_R, U_rms**2 / R_b, Substitution((1, 2))),
        ),
        sources=(OHMS_LAW, RMS),
    )


@cache
def derive_smoothing_bleeder_heat() -> Derivation:
    """Heat of the bleeder across the smoothing capacitor."""
    return Derivation(
        name="smoothing_bleeder_heat",
        title="Heat of the smoothing capacitor's bleeder",
        question="How much power does the bleeder across the smoothing capacitor burn?",
        steps=(
            premise(
                "law",
                "At each instant it turns voltage squared over resistance to heat; the mean over a period.",
                P_R,
                _mean(v_bus(theta) ** 2 / R_bs),
            ),
            premise("circuit", "The smoothing capacitor holds the bus steady.", v_bus(theta), V_bus),
            step("So the mean is the same at every instant.", P_R, V_bus**2 / R_bs, Substitution((1, 2))),
        ),
        assumptions=(_STEADY_BUS,),
        sources=(OHMS_LAW,),
    )


@cache
def derive_diodes_heat() -> Derivation:
    """Heat of the bridge."""
    return Derivation(
        name="diodes_heat",
        title="Heat of the bridge's diodes",
        question="How much power do the four diodes of the bridge burn together?",
        steps=(
            premise(
                "circuit",
                "The line current always passes two of the four, and each takes its forward voltage.",
                P_D,
                _mean(2 * V_d * Abs(i(theta))),
            ),
            premise(
                "circuit",
                "Rectified, the line current has the mean of the string's.",
                I_mean,
                _mean(Abs(i(theta))),
                assumption="the smoothing capacitor's bleeder draws next to nothing",
            ),
            step("So here the mean current counts, not the rms one.", P_D, 2 * V_d * I_mean, Substitution((1, 2))),
        ),
        assumptions=(_STEADY_DROP,),
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_leds_heat() -> Derivation:
    """Power of the LEDs, light included."""
    return Derivation(
        name="leds_heat",
        title="Power of the LEDs",
        question="How much power do the LEDs take, to turn it to light and heat?",
        steps=(
            premise("law", "Power is voltage times current; the mean over a period.", P_LED, _mean(V_s * i_s(theta))),
            premise("definition", "Mean current of the string.", I_mean, _mean(i_s(theta))),
            step(
                "String voltage times mean current. Part of it leaves as light.",
                P_LED,
                V_s * I_mean,
                Substitution((1, 2)),
            ),
        ),
        assumptions=(_STEADY_STRING,),
        sources=(FIRST_PRINCIPLES,),
    )


@cache
def derive_dropper_loss() -> Derivation:
    """Heat of a real film capacitor."""
    return Derivation(
        name="dropper_loss",
        title="Loss of a real dropper",
        question="How warm does a real film capacitor get, which is not quite lossless?",
        steps=(
            premise(
                "approximation",
                "A real capacitor is an ideal one with a large resistance across it that stands "
                "for its losses; that burns voltage squared over resistance in the mean.",
                P_loss,
                _mean(u(theta) ** 2 / R_p),
            ),
            premise(
                "definition", "The square of the rms voltage is the mean of the square.", U_rms**2, _mean(u(theta) ** 2)
            ),
            step("In rms terms.", P_loss, U_rms**2 / R_p, Substitution((1, 2))),
            premise(
                "definition",
                "The dissipation factor of the data sheet is the current in step with the voltage, "
                "over the current a quarter period ahead of it.",
                tan_delta,
                (U_rms / R_p) / (U_rms / X_C),
            ),
            step("Solved for the resistance.", R_p, X_C / tan_delta, Solution((4,))),
            quotation("The reactance of the dropper.", derive_dropper_reactance()),
            step(
                "Put together: some milliwatts, where a resistor in its place would burn watts.",
                P_loss,
                2 * pi * f * C * tan_delta * U_rms**2,
                Substitution((3, 5, 6)),
            ),
        ),
        assumptions=(
            "The dropper's voltage is nearly a sine of the mains frequency.",
            "The dissipation factor is that at the mains frequency; many data sheets state it at 1 kHz, where it is "
            "larger.",
        ),
        sources=(DISSIPATION, OHMS_LAW, RMS),
    )
