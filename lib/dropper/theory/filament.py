"""Filament lamp: what its filament's resistance and loss are between cold and its rating."""

from __future__ import annotations

from functools import cache

from sympy import sqrt

from .engine.assumptions import FILAMENT_LAW, OHMS_LAW, TUNGSTEN
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, I_fil, P_fil, P_rf, R_fil, R_hot, T_cold, T_fil, T_hot, V_rf, a_fil, g_fil

loss = GLOSSARY["P_fil"].of
_WARMER = Inequality(T_cold, T_hot, "K", "the filament at its rating is hotter than its surroundings")
_GLOWING = Inequality(T_cold, T_fil, "K", "a filament that gives off power is hotter than its surroundings")
_SLOW = "The filament is too slow to follow the mains: it keeps one temperature through the cycle."
_RADIATION = (1 - g_fil) * (T_fil**4 - T_cold**4) / (T_hot**4 - T_cold**4)
_CONDUCTION = g_fil * (T_fil - T_cold) / (T_hot - T_cold)


@cache
def derive_filament_hot_resistance() -> Derivation:
    """Resistance of a filament at its rating."""
    return Derivation(
        name="filament_hot_resistance",
        title="Filament's resistance at its rating",
        question="A filament lamp is marked with volts and watts; what resistance has it when it shines?",
        steps=(
            premise("law", "The rated watts are the rated volts squared over the resistance.", P_rf, V_rf**2 / R_hot),
            step("Solved for the resistance.", R_hot, V_rf**2 / P_rf, Solution((1,))),
        ),
        assumptions=("At its rated voltage.",),
        sources=(OHMS_LAW,),
    )


@cache
def derive_filament_resistance() -> Derivation:
    """Resistance of a filament at any temperature."""
    return Derivation(
        name="filament_resistance",
        title="Filament's resistance at a temperature",
        question="What resistance does an ohmmeter show of a cold filament, and what has it when it glows?",
        steps=(
            premise(
                "law",
                "Tungsten's resistance goes with a power of its temperature, a little above the first.",
                R_fil,
                R_hot * (T_fil / T_hot) ** a_fil,
            ),
            quotation("At its rating.", derive_filament_hot_resistance()),
            step("Put in.", R_fil, V_rf**2 / P_rf * (T_fil / T_hot) ** a_fil, Substitution((1, 2))),
        ),
        assumptions=("The filament has one temperature all along; in truth its ends are colder.",),
        sources=(TUNGSTEN, OHMS_LAW),
    )


@cache
def derive_filament_loss() -> Derivation:
    """Power that a filament gives off at a temperature."""
    return Derivation(
        name="filament_loss",
        title="Power a filament gives off",
        question="How many watts keep a filament at a temperature?",
        steps=(
            premise(
                "law",
                "Radiation goes with the fourth power of the temperature, conduction with the first; what the "
                "surroundings send back is taken off.",
                loss(T_fil),
                P_rf * (_RADIATION + _CONDUCTION),
            ),
            step(
                "At its rating it gives off its rated power, and cold nothing: the law passes through both.",
                loss(T_fil),
                P_rf * (_RADIATION + _CONDUCTION),
                Reasoning((1,), _ends),
            ),
        ),
        assumptions=(
            "How much goes by conduction at the rating is typical practice without a source; it counts where the "
            "filament is hardly warm.",
        ),
        sources=(FILAMENT_LAW,),
        conditions=(_WARMER,),
    )


def _ends(new, law):
    return (new.rhs - law.rhs, new.rhs.subs(T_fil, T_hot) - P_rf, new.rhs.subs(T_fil, T_cold), new.lhs - loss(T_fil))


@cache
def derive_filament_current() -> Derivation:
    """Current that keeps a filament at a temperature."""
    loss_now = P_rf * (_RADIATION + _CONDUCTION)
    return Derivation(
        name="filament_current",
        title="Current that keeps a filament warm",
        question="What rms current keeps the filament of a lamp in series at a temperature?",
        steps=(
            premise("law", "What the current turns to heat, the filament gives off.", I_fil**2 * R_fil, P_fil),
            quotation("Its resistance.", derive_filament_resistance()),
            premise("law", "What it gives off.", P_fil, loss_now),
            step(
                "Solved for the current.",
                I_fil,
                sqrt(loss_now / (V_rf**2 / P_rf * (T_fil / T_hot) ** a_fil)),
                Solution((1, 2, 3)),
            ),
        ),
        assumptions=(_SLOW,),
        sources=(FILAMENT_LAW, TUNGSTEN, OHMS_LAW),
        conditions=(_WARMER, _GLOWING),
    )
