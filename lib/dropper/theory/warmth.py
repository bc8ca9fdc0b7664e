"""Warmth: how warm parts get by heat that flows through thermal resistances, and what an LED does when it is warm."""

from __future__ import annotations

from functools import cache

from sympy import Derivative

from .engine.assumptions import LED_WARMTH, RESISTOR_RATINGS, THERMAL_LAW
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Reasoning, Solution
from .engine.numeric import Inequality
from .engine.symbols import (
    GLOSSARY,
    Delta_T,
    N_j,
    P_all,
    P_h,
    P_r,
    R_enc,
    R_fi,
    R_fo,
    R_th,
    R_wl,
    T_enc,
    T_f,
    T_j,
    T_r,
    T_room,
    T_w,
    T_z,
    V_f,
    k_V,
    n_A,
)

warm = GLOSSARY["V_warm"].of
_STEADY = (
    "Long after switching on: what flows in flows out, and no temperature changes any more.",
    "Each thermal resistance keeps its value; in truth still air carries more heat where it is hotter.",
)
_ONE_AIR = "The air in the enclosure has one temperature, and parts do not warm each other except through it."
_SPAN = Inequality(T_f, T_z, "°C", "the power has to fall over some span of temperature")


@cache
def derive_temperature_rise() -> Derivation:
    """Temperature rise for a flow of heat."""
    return Derivation(
        name="temperature_rise",
        title="Temperature rise",
        question="How much warmer than its surroundings does a part get?",
        steps=(
            premise(
                "law",
                "Heat flows in proportion to the difference of temperatures, as current does to voltage.",
                P_h,
                Delta_T / R_th,
            ),
            step("Solved for the difference: watts times kelvins a watt.", Delta_T, P_h * R_th, Solution((1,))),
        ),
        assumptions=_STEADY,
        sources=(THERMAL_LAW,),
    )


@cache
def derive_enclosure_temperature() -> Derivation:
    """Temperature of the air inside the lamp."""
    return Derivation(
        name="enclosure_temperature",
        title="Temperature inside the lamp",
        question="How warm is the air inside the lamp?",
        steps=(
            premise(
                "law", "All heat of all parts crosses from the air inside to the room.", T_enc - T_room, P_all * R_enc
            ),
            step("Solved.", T_enc, T_room + P_all * R_enc, Solution((1,))),
        ),
        assumptions=(*_STEADY, _ONE_AIR),
        sources=(THERMAL_LAW,),
    )


@cache
def derive_enclosure_resistance() -> Derivation:
    """Thermal resistance of an enclosure from its surface and what its wall is of."""
    return Derivation(
        name="enclosure_resistance",
        title="Thermal resistance of an enclosure",
        question="How many kelvins does a watt make between the air inside and the air outside?",
        steps=(
            premise(
                "law",
                "Through each square metre the same heat goes, one after the other, from the air inside to the wall, "
                "through the wall, and from the wall to the air outside. As many square metres as there are carry it "
                "side by side.",
                P_h,
                n_A * Delta_T / (R_fi + R_fo + R_wl),
            ),
            quotation("What thermal resistance means.", derive_temperature_rise()),
            premise("definition", "Here it is that of the enclosure.", R_th, R_enc),
            step(
                "Put together: twice the surface, half the kelvins.",
                R_enc,
                (R_fi + R_fo + R_wl) / n_A,
                Solution((1, 2, 3)),
            ),
        ),
        assumptions=(*_STEADY, "All sides stand in free air and are of one kind; edges and feet are left out."),
        sources=(THERMAL_LAW,),
    )


@cache
def derive_part_temperature() -> Derivation:
    """Temperature of one part inside the lamp."""
    return Derivation(
        name="part_temperature",
        title="Temperature of a part in the lamp",
        question="How warm does one part get inside the lamp?",
        steps=(
            premise("law", "The part's own heat crosses from the part to the air inside.", T_w - T_enc, P_h * R_th),
            quotation("The air inside is warmed by all parts.", derive_enclosure_temperature()),
            step(
                "Room, air inside, part: the rises add up.", T_w, T_room + P_all * R_enc + P_h * R_th, Solution((1, 2))
            ),
        ),
        assumptions=(*_STEADY, _ONE_AIR),
        sources=(THERMAL_LAW,),
    )


@cache
def derive_thermal_resistance_of_derating() -> Derivation:
    """Thermal resistance that a derating line tells."""
    return Derivation(
        name="thermal_resistance_of_derating",
        title="Thermal resistance read off a derating line",
        question="A data sheet gives rated power and derating; what thermal resistance does it tell?",
        steps=(
            quotation("The rise for a flow of heat.", derive_temperature_rise()),
            premise("definition", "The resistor burns its rated power.", P_h, P_r),
            premise(
                "definition",
                "Then, in surroundings of the line's start, it is as hot as the line's end.",
                Delta_T,
                T_z - T_f,
            ),
            step("Solved for the thermal resistance.", R_th, (T_z - T_f) / P_r, Solution((1, 2, 3))),
        ),
        assumptions=(*_STEADY, "Soldered as in the maker's test; on a crowded board it is more."),
        sources=(RESISTOR_RATINGS, THERMAL_LAW),
        conditions=(_SPAN,),
    )


@cache
def derive_warm_forward_voltage() -> Derivation:
    """Forward voltage of an LED at a junction temperature."""
    return Derivation(
        name="warm_forward_voltage",
        title="Forward voltage of a warm LED",
        question="The data sheet states a forward voltage at one temperature; what is it when the LED is warm?",
        steps=(
            premise(
                "law",
                "At one and the same current each kelvin changes the voltage of each junction by as much.",
                Derivative(warm(T_j), T_j),
                N_j * k_V,
            ),
            premise("definition", "At the data sheet's temperature it is the data sheet's.", warm(T_r), V_f),
            step(
                "The one line that satisfies both; the coefficient is below zero, so a warm LED drops less.",
                warm(T_j),
                V_f + N_j * k_V * (T_j - T_r),
                Reasoning((1, 2), _solves_line),
            ),
        ),
        assumptions=(
            "A straight line, as data sheets give it over the temperatures in use.",
            "The curve's shape, its ideality and series resistance, is taken to stay as it was.",
        ),
        sources=(LED_WARMTH,),
        conditions=(
            Inequality(-N_j * k_V * (T_j - T_r), V_f, "V", "no LED is so warm that nothing is left of its voltage"),
        ),
    )


def _solves_line(new, law, start):
    return (
        (law.lhs - law.rhs).xreplace({new.lhs: new.rhs}).doit(),
        new.rhs.subs(T_j, T_r) - start.rhs,
        new.lhs - warm(T_j),
    )
