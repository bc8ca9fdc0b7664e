"""Ratings: what the parts must withstand, in normal use and with the string open."""

from __future__ import annotations

from functools import cache

from sympy import Integral, cos, pi, sin, sqrt

from .charge import CLAMP_BELOW_PEAK, derive_load_line
from .conduction import CREST, angle_steps
from .engine.assumptions import FIRST_PRINCIPLES, IDEAL_LAMP, LOOP_LAW, NO_LEAK, RMS, SINE
from .engine.derivation import Derivation, premise, quotation, step
from .engine.justification import Solution, Substitution
from .engine.numeric import Inequality
from .engine.symbols import GLOSSARY, V_R, D, I_mean, U_p, U_rms, V_bus, V_d, V_p, gamma, theta

u, v = GLOSSARY["u"].of, GLOSSARY["v"].of
_TWO_DROPS = Inequality(2 * V_d, V_p, "V", "the mains never reaches the drops of two diodes")
_OPEN = (
    SINE,
    NO_LEAK,
    "Nothing draws current from the smoothing capacitor: string open, its bleeder's current neglected.",
)


@cache
def derive_dropper_voltage_peak() -> Derivation:
    """Peak voltage across the dropper in normal use."""
    return Derivation(
        name="dropper_voltage_peak",
        title="Peak voltage of the dropper in normal use",
        question="What peak voltage stands across the dropper?",
        steps=(
            premise(
                "circuit",
                "While the bridge conducts, the dropper has what the bridge leaves of the mains.",
                u(theta),
                v(theta) - D,
            ),
            premise("definition", "The mains is a sine of its phase angle.", v(theta), V_p * sin(theta)),
            premise("circuit", "It is greatest where conduction ends, at the crest.", U_p, u(CREST)),
            step(
                "So in normal use it is less than the mains' peak. With the string short it is the mains' peak: the "
                "rating must be for the mains, and local codes may ask for more.",
                U_p,
                V_p - D,
                Substitution((3, 1, 2)),
            ),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES,),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_dropper_voltage_rms() -> Derivation:
    """Rms voltage across the dropper in normal use."""
    in_angle = (
        (pi - gamma) * (V_p - D) ** 2
        + V_p**2 * (gamma + sin(gamma) * cos(gamma)) / 2
        - 2 * V_p * D * sin(gamma)
        + gamma * D**2
    ) / pi
    angle = angle_steps(6)
    known = angle[0].equation.rhs
    in_voltages = (
        (pi - known) * (V_p - D) ** 2 + known * (D**2 + V_p**2 / 2) - (2 * D + V_p) * sqrt(D * (V_p - D))
    ) / pi
    return Derivation(
        name="dropper_voltage_rms",
        title="Rms voltage of the dropper in normal use",
        question="What does a voltmeter show across the dropper?",
        steps=(
            premise(
                "circuit",
                "While the bridge conducts, the dropper has what the bridge leaves of the mains.",
                u(theta),
                v(theta) - D,
            ),
            premise("definition", "The mains is a sine of its phase angle.", v(theta), V_p * sin(theta)),
            premise(
                "definition",
                "Its mean square over half a cycle: constant while nothing flows, then as in step 1.",
                U_rms**2,
                ((pi - gamma) * (V_p - D) ** 2 + Integral(u(theta) ** 2, (theta, CREST - gamma, CREST))) / pi,
            ),
            step("Worked out.", U_rms**2, in_angle, Substitution((3, 1, 2))),
            step("Its root.", U_rms, sqrt(in_angle), Solution((4,))),
            *angle,
            step("Put in, the sine terms gathered.", U_rms, sqrt(in_voltages), Substitution((5, 8, 7, 6))),
        ),
        assumptions=IDEAL_LAMP,
        sources=(FIRST_PRINCIPLES, RMS),
        conditions=(CLAMP_BELOW_PEAK,),
    )


@cache
def derive_bus_voltage_open() -> Derivation:
    """Voltage of the smoothing capacitor with the string open."""
    return Derivation(
        name="bus_voltage_open",
        title="Bus voltage with the string open",
        question="To what voltage does the smoothing capacitor charge if the string comes off?",
        steps=(
            quotation("The load line.", derive_load_line()),
            premise("circuit", "With the string open no current is drawn.", I_mean, 0),
            step("So the bridge's ac side rises to the mains' peak.", D, V_p, Substitution((1, 2))),
            premise("circuit", "The ac side is above the bus by two diodes.", D, V_bus + 2 * V_d),
            step(
                "The bus stands at the mains' peak, less next to nothing. Both the smoothing capacitor and the "
                "diodes meet it; a rating for the string's voltage only will not do.",
                V_bus,
                V_p - 2 * V_d,
                Solution((4, 3)),
            ),
        ),
        assumptions=_OPEN,
        sources=(FIRST_PRINCIPLES,),
        conditions=(_TWO_DROPS,),
    )


@cache
def derive_diode_reverse_voltage() -> Derivation:
    """Reverse voltage of a blocking diode of the bridge."""
    return Derivation(
        name="diode_reverse_voltage",
        title="Reverse voltage of a bridge diode",
        question="What reverse voltage must each diode stand?",
        steps=(
            premise(
                "circuit",
                "Around the loop of the bus, one conducting diode and the blocking one beside it.",
                V_bus + V_d - V_R,
                0,
            ),
            step("So it is the bus voltage and one forward drop.", V_R, V_bus + V_d, Solution((1,))),
        ),
        sources=(LOOP_LAW,),
    )


@cache
def derive_diode_reverse_voltage_open() -> Derivation:
    """Reverse voltage of a diode with the string open."""
    return Derivation(
        name="diode_reverse_voltage_open",
        title="Reverse voltage of a bridge diode with the string open",
        question="What reverse voltage must each diode stand if the string comes off?",
        steps=(
            quotation("In terms of the bus.", derive_diode_reverse_voltage()),
            quotation("The bus with the string open.", derive_bus_voltage_open()),
            step("The mains' peak, less one forward drop.", V_R, V_p - V_d, Substitution((1, 2))),
        ),
        assumptions=_OPEN,
        sources=(FIRST_PRINCIPLES,),
        conditions=(_TWO_DROPS,),
    )


@cache
def derive_diode_reverse_voltage_beside_open() -> Derivation:
    """Upper bound of the reverse voltage where another diode of the bridge is open."""
    return Derivation(
        name="diode_reverse_voltage_beside_open",
        title="Reverse voltage beside an open diode, at most",
        question="One diode of the bridge is open. What must its neighbour stand?",
        steps=(
            premise(
                "circuit",
                "The dropper charges through the two diodes that still make a path, one way only, until nothing flows.",
                U_p,
                V_p - V_bus,
            ),
            premise(
                "circuit",
                "At the opposite crest mains and dropper add up. No diode ties the bus to either wire then: where it"
                " floats is decided by strays, and at worst all of its voltage adds too.",
                V_R,
                V_p + U_p + V_bus,
            ),
            step("The bus cancels: twice the mains' peak at most.", V_R, 2 * V_p, Substitution((2, 1))),
        ),
        assumptions=("The diodes' own drops are small against the peak.",),
        sources=(FIRST_PRINCIPLES, LOOP_LAW),
    )
