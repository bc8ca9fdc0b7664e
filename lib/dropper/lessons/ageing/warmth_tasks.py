"""Tasks of lesson 8, first part: how warm parts get, and what warmth leaves of their ratings."""

import math

from ...components.kinds import FILM, LEDS
from ..tasks.question import Question, Slip, Tolerance
from ..tasks.random_values import mains, part, share_of_peak, step_value
from ..tasks.solution import SumStep, TheoryStep

LESSON = 8
_KELVINS = Tolerance("One kelvin or 3 % is allowed: a thermometer on a part reads no better.", 0.03, 1.0)
_CELSIUS = Tolerance("One degree is allowed: a thermometer on a part reads no better.", relative=0.0, absolute=1.0)
_MILLIVOLTS = Tolerance("10 mV are allowed: the data sheet states the voltage to that.", relative=0.0, absolute=0.0105)
_LOSS = Tolerance("5 % is allowed: a data sheet states no more than the most that is lost.", relative=0.05)
_HEATS = (0.05, 0.08, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4)


def _one_part(chance):
    resistances = (60.0, 80.0, 100.0, 120.0, 150.0, 180.0)
    return {"heat_flow": chance.choice(_HEATS), "thermal_resistance": chance.choice(resistances)}


def _in_a_lamp(chance):
    return _one_part(chance) | {
        "room_temperature": float(chance.choice((20, 22, 25, 28, 30))),
        "enclosure_heat": step_value(chance, 0.8, 3.0, 0.2),
        "enclosure_resistance": float(chance.choice((8, 10, 12, 15))),
        "heat_flow": chance.choice(_HEATS[:6]),
    }


def _warm_led(chance):
    kind = chance.choice(LEDS)
    return {
        "forward_voltage": kind.typical,
        "junctions": kind.junctions,
        "voltage_coefficient": kind.coefficient,
        "reference_temperature": 25.0,
        "junction_temperature": float(chance.choice((55, 65, 75, 85, 95, 105))),
    }


def _beside(chance):
    return {"bleeder": part(chance, 6, 220e3, 2.2e6), "dropper_voltage_rms": step_value(chance, 150.0, 225.0, 5.0)}


def _lossy(chance):
    values = mains(chance)
    return values | {
        "dropper": part(chance, 6, 220e-9, 2.2e-6),
        "dropper_voltage_rms": share_of_peak(chance, values["voltage"], 0.4, 0.6),
        "dissipation_factor": chance.choice((0.001, 0.002, 0.003, 0.004, 0.005, 0.008)),
    }


def _derated(chance):
    kind = chance.choice(FILM)
    return {
        "rated_power": kind.rated_power,
        "full_power_temperature": kind.full_power_to,
        "no_power_temperature": kind.no_power_from,
        "temperature": step_value(chance, 85.0, 140.0, 5.0),
    }


TASKS = (
    Question(
        "temperature_rise",
        LESSON,
        "How much warmer",
        "A part turns {heat_flow} to heat, and has {thermal_resistance} to the air around it. How much warmer than the"
        " air does it get?",
        _one_part,
        "K",
        lambda q: q.temperature_rise,
        solution=(TheoryStep("temperature_rise"),),
        hints=("Heat flows through a thermal resistance as current flows through ohms.",),
        slips=(
            Slip(
                "divided",
                lambda q: q.thermal_resistance / q.heat_flow,
                "You divided by the watts. Each watt takes {thermal_resistance} of difference: more watts, more"
                " difference.",
            ),
            Slip(
                "room added",
                lambda q: 25 + q.temperature_rise,
                "You added the temperature of a room. How much warmer than the air is asked for.",
            ),
        ),
        tolerance=_KELVINS,
    ),
    Question(
        "part_temperature",
        LESSON,
        "How warm in the lamp",
        "The room has {room_temperature}. All parts of a lamp together turn {enclosure_heat} to heat, and from the air"
        " inside to the room there are {enclosure_resistance}. One part turns {heat_flow} of it to heat, and has"
        " {thermal_resistance} to the air inside. How warm does it get?",
        _in_a_lamp,
        "°C",
        lambda q: q.part_temperature,
        solution=(TheoryStep("enclosure_temperature"), TheoryStep("part_temperature")),
        hints=(
            "Room, air inside, part: two rises, one on top of the other.",
            "The heat of all parts warms the air inside; the part's own heat warms the part above that air.",
        ),
        slips=(
            Slip(
                "lamp forgotten",
                lambda q: q.room_temperature + q.temperature_rise,
                "You put the part in the room. It is in the lamp, whose air is warmer than the room.",
            ),
            Slip(
                "air inside",
                lambda q: q.enclosure_temperature,
                "That is the air inside; the part is warmer than that, by its own heat.",
            ),
            Slip(
                "room forgotten",
                lambda q: q.part_temperature - q.room_temperature,
                "That is how much warmer than the room; its temperature is asked for.",
            ),
            Slip(
                "own heat through all",
                lambda q: q.room_temperature + q.heat_flow * (q.thermal_resistance + q.enclosure_resistance),
                "Through the lamp's case flows the heat of all parts, not that of this part alone.",
            ),
        ),
        tolerance=_CELSIUS,
    ),
    Question(
        "warm_led",
        LESSON,
        "An LED when warm",
        "A data sheet states {forward_voltage} for an LED package at {reference_temperature}, and"
        " {voltage_coefficient} for each junction; the number of junctions in series is {junctions}. What does the"
        " package drop at the same current when it has {junction_temperature} inside?",
        _warm_led,
        "V",
        lambda q: q.warm_forward_voltage,
        solution=(TheoryStep("warm_forward_voltage"),),
        hints=(
            "By how many kelvins is it warmer than in the data sheet?",
            "The coefficient is below zero: a warm LED drops less, by as much for each junction.",
        ),
        slips=(
            Slip(
                "sign",
                lambda q: 2 * q.forward_voltage - q.warm_forward_voltage,
                "The size of the change is right, not its sign: a warm LED drops less.",
            ),
            Slip(
                "from 0 °C",
                lambda q: q.using("warm_forward_voltage", reference_temperature=0.0),
                "You counted from 0 °C. The data sheet's voltage is that at {reference_temperature}.",
            ),
            Slip(
                "one junction",
                lambda q: q.using("warm_forward_voltage", junctions=1) if q.junctions > 1 else math.nan,
                "You counted one junction; the package has {junctions} in series, and each changes.",
            ),
            Slip("cold", lambda q: q.forward_voltage, "That is the data sheet's voltage; the LED is warm."),
        ),
        tolerance=_MILLIVOLTS,
    ),
    Question(
        "bleeder_power",
        LESSON,
        "Heat of a bleeder",
        "A bleeder of {bleeder} stands across a dropper that has {dropper_voltage_rms} rms. How much power does it turn"
        " to heat, day and night?",
        _beside,
        "W",
        lambda q: q.bleeder_heat,
        solution=(TheoryStep("bleeder_heat"),),
        hints=("Its own ohms and the volts across it are known.", "Power is the square of the rms volts over ohms."),
        slips=(
            Slip(
                "peak for rms",
                lambda q: q.using("bleeder_heat", dropper_voltage_rms=_peak(q)),
                "You took the peak of a sine; the rms is what makes heat.",
            ),
            Slip(
                "halved",
                lambda q: q.bleeder_heat / 2,
                "The half is for peak values. With rms volts it is in the square already.",
            ),
            Slip(
                "square forgotten",
                lambda q: q.dropper_voltage_rms / q.bleeder,
                "Volts over ohms is the current; times the volts once more is the power.",
            ),
        ),
    ),
    Question(
        "film_loss",
        LESSON,
        "Heat of the dropper",
        "A film capacitor of {dropper} has {dropper_voltage_rms} rms across it at {frequency}. Its data sheet states a"
        " dissipation factor of {dissipation_factor}. How much power does it turn to heat?",
        _lossy,
        "W",
        lambda q: q.dropper_loss,
        solution=(TheoryStep("dropper_loss"),),
        hints=(
            "Nearly all of its volt-amperes come back. Which share stays as heat?",
            "Volts squared over the reactance are its volt-amperes; the dissipation factor of them is heat.",
        ),
        slips=(
            Slip(
                "volt-amperes for watts",
                lambda q: q.dropper_loss / q.dissipation_factor,
                "Those are its volt-amperes, reactive nearly all of them; the dissipation factor of them is heat.",
            ),
            Slip("2π forgotten", lambda q: q.dropper_loss / (2 * math.pi), "The 2π of the reactance is missing."),
            Slip(
                "peak for rms",
                lambda q: q.using("dropper_loss", dropper_voltage_rms=_peak(q)),
                "You took the peak of a sine; the rms is what makes heat.",
            ),
            Slip(
                "square forgotten",
                lambda q: q.dropper_loss / q.dropper_voltage_rms,
                "That is the current in step with the volts; times the volts it is the power.",
            ),
        ),
        tolerance=_LOSS,
    ),
    Question(
        "derated",
        LESSON,
        "A resistor where it is warm",
        "A resistor is rated for {rated_power} up to {full_power_temperature}; from there its power falls in a straight"
        " line to nothing at {no_power_temperature}. How much may it take where it is {temperature}?",
        _derated,
        "W",
        lambda q: q.rated_power * q.derated_share,
        solution=(
            TheoryStep("derated_share"),
            SumStep(lambda q: f"{q.derated_share:.4g} × {q.rated_power:g} W", "That share of the rated power:"),
        ),
        hints=(
            "How far along the line is {temperature}, on the way from {full_power_temperature} to"
            " {no_power_temperature}?",
            "What is left of the way, over the whole way, is the share that is allowed.",
        ),
        slips=(
            Slip(
                "not derated",
                lambda q: q.rated_power,
                "That is allowed up to {full_power_temperature}; at {temperature} it is less.",
            ),
            Slip(
                "what is lost",
                lambda q: q.rated_power * (1 - q.derated_share),
                "That is what the warmth takes away; what is left is asked for.",
            ),
            Slip(
                "in proportion",
                lambda q: q.rated_power * (1 - q.temperature / q.no_power_temperature),
                "You began the line at 0 °C. It begins at {full_power_temperature}, with the whole rated power.",
            ),
            Slip(
                "from the room",
                lambda q: q.rated_power * q.using("derated_share", full_power_temperature=25.0),
                "You began the line in a room of 25 °C. It begins at {full_power_temperature}.",
            ),
        ),
    ),
)


def _peak(q):
    """The peak of a sine of the dropper's rms volts."""
    return q.using("peak_voltage", voltage=q.dropper_voltage_rms)
