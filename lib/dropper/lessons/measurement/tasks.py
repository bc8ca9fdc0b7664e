"""Tasks of lesson 12: what meters and an oscilloscope say, and what they hide."""

import math

from ..tasks.lamps import steady_lamp
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, part, step_value
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 12
_DEGREES = Tolerance("1° or 2 % is allowed: a cursor is not set better by eye.", 0.02, 1.0)
_PERCENT = Tolerance("3 % of it is allowed: the phase error itself is hardly known better.", relative=0.03)


def _turned(chance):
    return {"displacement_factor": step_value(chance, 0.2, 0.5, 0.02), "turned": step_value(chance, 0.5, 2.5, 0.5)}


def _watts_too_many(q, degrees=None):
    angle = math.radians(q.turned if degrees is None else degrees)
    return 100 * q.using("power_error_of_phase", phase_error=angle)


def _shunt(chance):
    return {"swing": step_value(chance, 10, 90, 5) * 1e-3, "resistor": chance.choice((4.7, 10.0, 22.0))}


def _ahead(chance):
    values = mains(chance)
    return {"frequency": values["frequency"], "time": step_value(chance, 1.5, 3.9, 0.1) * 1e-3}


def _recorded(chance):
    values = bridge_lamp(chance, 0.15, 0.5)
    peak = math.sqrt(2) * values["voltage"]
    current = 4 * values["frequency"] * values.pop("dropper") * (peak - values["clamped_voltage"])
    return values | {"string_current_mean": float(f"{current:.3g}")}


def _changed(chance):
    """A lamp, and the same with another dropper or string: the line currents and power factors of both."""
    values = mains(chance, ((230.0, 50.0), (240.0, 50.0)))
    values |= {"dropper": part(chance, 6, 330e-9, 1e-6), "in_series": chance.randint(24, 40)}
    before = steady_lamp(**values)
    other = chance.choice(
        (
            {"dropper": values["dropper"] * step_value(chance, 0.65, 0.85, 0.05)},
            {"in_series": round(values["in_series"] * step_value(chance, 0.5, 0.75, 0.05))},
            {"in_series": round(values["in_series"] * step_value(chance, 1.3, 1.6, 0.05))},
        )
    )
    after = steady_lamp(**(values | other))
    return values | {
        "line_current_rms": float(f"{before.line_current_rms:.3g}"),
        "greatest_current": float(f"{after.line_current_rms:.3g}"),
        "power_factor": round(before.power_factor, 2),
        "better_factor": round(after.power_factor, 2),
    }


def _which(q):
    moved = q.better_factor / q.power_factor
    return "dropper" if abs(moved - 1) < 0.08 else "taller" if moved > 1 else "shorted"


def _four(chance):
    voltage, current = chance.choice((230.0, 231.0, 240.0)), chance.randint(18, 60) * 1e-3
    factor = step_value(chance, 0.22, 0.45, 0.01)
    watts = round(voltage * current * factor, 1)
    reading = factor if chance.random() < 0.5 else round(factor * chance.choice((0.8, 1.25)), 2)
    return {"voltage": voltage, "line_current_rms": current, "real_power": watts, "power_factor": reading}


def _agreement(q):
    from ...bench.meter import agreement

    return agreement(
        {"voltage": q.voltage, "current": q.line_current_rms, "power": q.real_power, "power_factor": q.power_factor}
    )


TASKS = (
    Question(
        "averaging_ammeter",
        LESSON,
        "A meter without true rms",
        "On {voltage}, {frequency} a lamp with {dropper} holds its bridge at {clamped_voltage}. What does an ammeter"
        " that averages, with a scale made for sines, show in the line?",
        bridge_lamp,
        "A",
        lambda q: q.averaging_meter_current,
        solution=(TheoryStep("peak_voltage"), TheoryStep("averaging_meter_current")),
        hints=(
            "It takes the mean of the rectified current, which is the string's, and multiplies.",
            "The factor is that of a sine, rms over rectified mean: about 1.11.",
        ),
        slips=(
            Slip(
                "true rms",
                lambda q: q.line_current_rms,
                "That is the true rms value; this meter cannot see it, for the current is no sine.",
            ),
            Slip(
                "factor forgotten",
                lambda q: q.mean_string_current,
                "That is the rectified mean; its scale multiplies it by 1.11.",
            ),
            Slip(
                "string forgotten",
                lambda q: q.using("averaging_meter_current", clamped_voltage=0.0),
                "That is the current into a short: the clamped voltage takes its share of the peak.",
            ),
        ),
    ),
    Question(
        "phase_and_watts",
        LESSON,
        "A degree and the watts",
        "A lamp has a displacement factor of {displacement_factor}. A wattmeter sees its current too late by {turned}."
        " By how many per cent are its watts too high?",
        _turned,
        "%",
        lambda q: _watts_too_many(q),
        solution=(
            TextStep(lambda q: f"The phase error in radians: {q.turned:g}° × π/180 = {math.radians(q.turned):.4g}"),
            TheoryStep("power_error_of_phase", lambda q: {"phase_error": math.radians(q.turned)}),
            SumStep(lambda q: f"100 × {_watts_too_many(q) / 100:.4g} %", "In per cent:"),
        ),
        hints=(
            "The meter takes the cosine of an angle that is a little too small.",
            "cos(φ − ε) over cos φ, less 1; φ is the angle whose cosine is the displacement factor.",
        ),
        slips=(
            Slip(
                "degrees for radians",
                lambda q: 100 * q.using("power_error_of_phase", phase_error=q.turned),
                "The degrees went into a cosine that counts in radians.",
            ),
            Slip(
                "as if in step",
                lambda q: 100 * (1 - math.cos(math.radians(q.turned))),
                "So little it would be near a power factor of 1; here the cosine is steep.",
            ),
            Slip(
                "angle itself",
                lambda q: 100 * math.radians(q.turned),
                "That is the angle in radians; the tangent of φ multiplies it.",
            ),
        ),
        tolerance=_PERCENT,
    ),
    Question(
        "across_a_shunt",
        LESSON,
        "Volts across a shunt",
        "An isolated twin of a lamp has {resistor} in its line. The oscilloscope across it, set to × 1, shows a peak"
        " of {swing} through a probe of 10 : 1. What is the peak of the line current?",
        _shunt,
        "A",
        lambda q: 10 * q.swing / q.resistor,
        solution=(
            SumStep(
                lambda q: f"10 × {q.swing * 1e3:g} mV / {q.resistor:g} Ω", "The volts at the probe's tip over the ohms:"
            ),
        ),
        hints=(
            "The probe hands on a tenth, and the instrument does not know of it.",
            "Ohm's law with ten times what is shown.",
        ),
        slips=(
            Slip("probe forgotten", lambda q: q.swing / q.resistor, "The probe divides by ten: the tip has tenfold."),
            Slip("probe the wrong way", lambda q: 0.1 * q.swing / q.resistor, "The probe divides; so multiply."),
            Slip(
                "rms",
                lambda q: 10 * q.swing / q.resistor / math.sqrt(2),
                "The peak is asked for; and for this wave √2 would not lead to its rms.",
            ),
        ),
    ),
    Question(
        "lead_in_degrees",
        LESSON,
        "Milliseconds and degrees",
        "On {frequency} the fundamental of the line current passes zero upwards {time} before the voltage does. By how"
        " many degrees does it lead?",
        _ahead,
        "°",
        lambda q: 360 * q.frequency * q.time,
        solution=(SumStep(lambda q: f"360° × {q.frequency:g} Hz × {q.time * 1e3:g} ms", "A whole period is 360°:"),),
        hints=("How long is a whole period?", "Its share of the period, times 360°."),
        slips=(
            Slip("half periods", lambda q: 720 * q.frequency * q.time, "A half cycle is 180°, a whole period 360°."),
            Slip("half the angle", lambda q: 180 * q.frequency * q.time, "A whole period is 360°, not 180°."),
            Slip("radians for degrees", lambda q: 2 * math.pi * q.frequency * q.time, "Those are radians."),
        ),
        tolerance=_DEGREES,
    ),
    Question(
        "dropper_from_readings",
        LESSON,
        "The dropper from what was measured",
        "On {voltage}, {frequency} a lamp's string is measured to carry {string_current_mean} on average, its bridge"
        " is held at {clamped_voltage}. What capacitance has its dropper?",
        _recorded,
        "F",
        lambda q: q.dropper_for_current,
        solution=(TheoryStep("peak_voltage"), TheoryStep("dropper_for_current")),
        hints=("The mean current is 4fC(Vp − D); all but C is known.", "Turn it round for C."),
        slips=(
            Slip(
                "string forgotten",
                lambda q: q.using("dropper_for_current", clamped_voltage=0.0),
                "The dropper swings through Vp − D only.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("dropper_for_current", peak_voltage=q.voltage),
                "You took the rms volts for the peak.",
            ),
            Slip(
                "reactance",
                lambda q: q.string_current_mean / (2 * math.pi * q.frequency * q.voltage),
                "I = V·ωC is for the rms current into a short; this is a mean, and there is a string.",
            ),
        ),
    ),
    Choice(
        "which_part_changed",
        LESSON,
        "Which part has changed?",
        "A lamp with {in_series} LEDs in series and a dropper of {dropper} on {voltage}, {frequency} took"
        " {line_current_rms} at a power factor of {power_factor}. Now it takes {greatest_current} at"
        " {better_factor}. What has changed?",
        _changed,
        {
            "dropper": "the dropper has lost capacitance",
            "shorted": "some groups of LEDs are shorted",
            "taller": "a string of more LEDs was put in",
        },
        lambda q: _which(q),
        {
            "dropper": "A smaller dropper scales the current and keeps its shape: the power factor hardly moves.",
            "shorted": "With fewer LEDs D falls: the current would have grown and the power factor fallen.",
            "taller": "With more LEDs D grows: the current would have fallen and the power factor risen.",
        },
        lambda q: (
            f"The power factor went from {q.power_factor:.2f} to {q.better_factor:.2f}, the line current from"
            f" {1e3 * q.line_current_rms:.1f} to {1e3 * q.greatest_current:.1f} mA. In an ideal lamp the"
            " power factor depends on D/Vp alone, the current on C as well; the inrush resistor adds a little."
        ),
        (
            "One of the two parts moves the power factor, the other does not.",
            "The current's size goes with C, the power factor with D/Vp.",
        ),
    ),
    Choice(
        "one_truth",
        LESSON,
        "Can these be one truth?",
        "One plug-in meter shows {voltage}, {line_current_rms}, {real_power} and a power factor of {power_factor}, with"
        " digits of 0.1 V, 1 mA, 0.1 W and 0.01. Do they agree with one another?",
        _four,
        {"yes": "yes, within its digits", "no": "no"},
        lambda q: "yes" if _agreement(q).agrees else "no",
        {
            "yes": "Work out watts over volts times amperes, with half a digit either way: the power factor"
            " lies outside.",
            "no": "Each number may be off by half a digit; with that there is a truth that fits all four.",
        },
        lambda q: _agreement(q).words,
        ("Watts are volts times amperes times the power factor.", "Give each reading half a digit either way."),
    ),
)
