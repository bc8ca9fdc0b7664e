"""Person: the current through somebody who reaches into the circuit, behind the dropper and beside it.

A body is no resistor of known value: its skin changes with volts, sweat and time. The formulas say what stands in the
way and what does not; no figure of theirs is leave to touch.
"""

from __future__ import annotations

from functools import cache

from sympy import pi, sqrt

from .engine.assumptions import CAPACITOR_LAW, LOSSLESS, NO_RESISTANCE, OHMS_LAW, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.symbols import GLOSSARY, R_L, X_C, C, V, Z, f
from .reactance import derive_dropper_reactance
from .series import derive_series_impedance

I_body, R_body, k_turn = (GLOSSARY[name].symbol for name in ("I_body", "R_body", "k_turn"))
PLAIN_BODY = "The body is a plain resistance. A real one falls as the volts rise, and with wet skin and a firm grip."
EARTHED = "The neutral is earthed, as in most public networks, and the person stands on earth."
AHEAD_OF_CLAMP = (
    "The body's volts stay below those at which the bridge would hold them, so all of the current is its own."
)
BRIDGE_AT_LIVE = "The bridge's other terminal is at live, and what the string holds is little beside the mains' peak."


def _behind_dropper_steps():
    return (
        quotation("A resistance and the dropper in series have this impedance.", derive_series_impedance()),
        premise("circuit", "Live at the dropper: the resistance behind it is the person.", R_L, R_body),
        step("The body's ohms and the dropper's.", Z, sqrt(R_body**2 + X_C**2), Substitution((1, 2))),
    )


@cache
def derive_body_current() -> Derivation:
    """Current through a person with live at the bridge: nothing but the body limits it."""
    return Derivation(
        name="body_current",
        title="Current through a person, the dropper not in the way",
        question="What flows if the plug puts live at the bridge, and a hand is on the string?",
        steps=(
            premise(
                "circuit",
                "From live through the bridge's diodes to the hand, and from the feet back over earth: the whole mains "
                "stands across the body. The dropper is in the other wire.",
                V,
                R_body * I_body,
            ),
            step("Solved for the current.", I_body, V / R_body, Solution((1,))),
        ),
        assumptions=(SINE, PLAIN_BODY, EARTHED, BRIDGE_AT_LIVE),
        sources=(OHMS_LAW,),
    )


@cache
def derive_body_current_behind_dropper() -> Derivation:
    """Current through a person with live at the dropper: body and dropper in series."""
    return Derivation(
        name="body_current_behind_dropper",
        title="Current through a person behind the dropper",
        question="What flows if the plug puts live at the dropper, and a hand is behind it?",
        steps=(
            *_behind_dropper_steps(),
            quotation("The reactance of the dropper.", derive_dropper_reactance()),
            premise("definition", "Impedance is rms voltage over rms current.", Z, V / I_body),
            step("Solved for the current.", I_body, V / Z, Solution((5,))),
            step(
                "Put together. Where the body's ohms are few beside the dropper's, they hardly count: the dropper "
                "drives its current through a wet hand as through a dry one.",
                I_body,
                V / sqrt(R_body**2 + (1 / (2 * pi * f * C)) ** 2),
                Substitution((6, 3, 4)),
            ),
        ),
        assumptions=(SINE, LOSSLESS, NO_RESISTANCE, PLAIN_BODY, EARTHED, AHEAD_OF_CLAMP),
        sources=(CAPACITOR_LAW, OHMS_LAW),
    )


@cache
def derive_times_turned() -> Derivation:
    """How many times more flows once the plug is turned."""
    return Derivation(
        name="times_turned",
        title="What turning the plug does",
        question="How many times more flows through the same person once the plug is turned?",
        steps=(
            *_behind_dropper_steps(),
            premise(
                "circuit",
                "The same volts drive both currents: turned, the body alone stands in the way.",
                k_turn,
                Z / R_body,
            ),
            step("Put in.", k_turn, sqrt(R_body**2 + X_C**2) / R_body, Substitution((4, 3))),
        ),
        assumptions=(SINE, LOSSLESS, NO_RESISTANCE, PLAIN_BODY, EARTHED, AHEAD_OF_CLAMP, BRIDGE_AT_LIVE),
        sources=(CAPACITOR_LAW, OHMS_LAW),
    )
