"""Tasks of lesson 5: watts, volt-amperes, and what lies between them."""

import math
from cmath import phase

from ..tasks.lamps import steady_lamp
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, meter_reading, part, share_of_peak, step_value
from ..tasks.solution import SHARE, SumStep, TheoryStep

LESSON = 5
_FACTOR = Tolerance("0.01 or 3 % is allowed: a plug-in meter shows two places, and no more.", 0.03, 0.01)
_PERCENT = Tolerance("3 % of it is allowed: a few volts of the mains move it by as much.", relative=0.03)


def _held(chance):
    values = mains(chance)
    return {"voltage": values["voltage"], "clamped_voltage": share_of_peak(chance, values["voltage"], 0.15, 0.85)}


def _parts(chance):
    real = step_value(chance, 0.8, 3.0, 0.1)
    return {
        "real_power": real,
        "reactive_power": round(real * chance.uniform(1.2, 3.5), 1),
        "current_distortion_power": round(real * chance.uniform(0.8, 1.6), 1),
    }


TASKS = (
    Question(
        "volt_amperes",
        LESSON,
        "Volt-amperes from readings",
        "A plug-in meter shows {voltage}, {line_current_rms} and {real_power}. What is the apparent power?",
        meter_reading,
        "VA",
        lambda q: q.voltage * q.line_current_rms,
        solution=(
            SumStep(lambda q: f"{q.voltage:g} V × {q.line_current_rms * 1e3:g} mA", "Rms volts times rms amperes:"),
        ),
        hints=("It asks only how much voltage and how much current there is, not when.", "Rms volts, rms amperes."),
        slips=(
            Slip("W for VA", lambda q: q.real_power, "Those are the watts; volt-amperes are volts times amperes."),
            Slip(
                "peak for rms",
                lambda q: q.peak_voltage * q.line_current_rms,
                "You took the peak of the mains; apparent power is of rms values.",
            ),
            Slip(
                "watts taken away",
                lambda q: q.voltage * q.line_current_rms - q.real_power,
                "You took the watts away; and besides, they do not add plainly to the rest.",
            ),
        ),
    ),
    Question(
        "factor_from_readings",
        LESSON,
        "Power factor from readings",
        "A plug-in meter shows {voltage}, {line_current_rms} and {real_power}. What is the power factor?",
        meter_reading,
        "",
        lambda q: _factor(q),
        solution=(
            SumStep(
                lambda q: f"{q.real_power:g} W / ({q.voltage:g} V × {q.line_current_rms * 1e3:g} mA)",
                "Watts over volt-amperes:",
            ),
        ),
        hints=("It says what part of the volt-amperes is power.", "Watts over volts times amperes."),
        slips=(
            Slip("upside down", lambda q: 1 / _factor(q), "You turned it over; a power factor is never above 1."),
            Slip("peak for rms", lambda q: _factor(q) / math.sqrt(2), "You took the peak of the mains for its rms."),
            Slip("the rest", lambda q: 1 - _factor(q), "That is what is missing from 1."),
            Slip("volt-amperes", lambda q: q.voltage * q.line_current_rms, "Those are the volt-amperes themselves."),
        ),
        tolerance=_FACTOR,
    ),
    Question(
        "factor_from_string",
        LESSON,
        "Power factor from the string",
        "On {voltage} a string holds the bridge at {clamped_voltage}. What power factor does the lamp have?",
        _held,
        "",
        lambda q: q.power_factor,
        solution=(TheoryStep("peak_voltage"), SHARE, TheoryStep("power_factor")),
        hints=(
            "Frequency and capacitance cancel: only D as a share of the mains' peak counts.",
            "It can be had from the angle of conduction, the arccosine of 2D/Vp − 1, or as watts over volt-amperes"
            " with any dropper. The curve of the panel will do as well.",
        ),
        slips=(
            Slip(
                "displacement factor",
                lambda q: q.displacement_factor,
                "That is the displacement factor, of the fundamental alone; harmonics take their share too.",
            ),
            Slip(
                "share of the peak",
                lambda q: q.clamped_fraction,
                "That is D over the peak itself; the power factor follows from it, but is less simple.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("power_factor", clamped_fraction=q.clamped_voltage / q.voltage),
                "You took D over the rms volts; the peak belongs there.",
            ),
            Slip(
                "mean for rms",
                lambda q: q.clamped_voltage / q.voltage,
                "That is D over the mains' rms: it takes the mean current of the string for the rms current of the"
                " line.",
            ),
        ),
        tolerance=_FACTOR,
    ),
    Question(
        "displacement",
        LESSON,
        "Displacement factor",
        "On {voltage} a string holds the bridge at {clamped_voltage}. What displacement factor does the lamp have?",
        _held,
        "",
        lambda q: q.displacement_factor,
        solution=(TheoryStep("peak_voltage"), SHARE, TheoryStep("displacement_factor")),
        hints=(
            "It is the power factor of the fundamental alone: the cosine of the angle by which it leads.",
            "The power factor is displacement factor times distortion factor.",
        ),
        slips=(
            Slip("power factor", lambda q: q.power_factor, "That is the power factor, harmonics and all."),
            Slip(
                "distortion factor",
                lambda q: q.distortion_factor,
                "That is the distortion factor: how much of the rms current is fundamental.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("displacement_factor", clamped_fraction=q.clamped_voltage / q.voltage),
                "You took D over the rms volts; the peak belongs there.",
            ),
            Slip(
                "sine for cosine",
                lambda q: math.sqrt(1 - q.displacement_factor**2),
                "That is the sine of the angle; the cosine is asked for.",
            ),
        ),
        tolerance=_FACTOR,
    ),
    Question(
        "distortion_share",
        LESSON,
        "How much is fundamental",
        "On {voltage} a string holds the bridge at {clamped_voltage}. What share of the line current's rms is its"
        " fundamental?",
        _held,
        "",
        lambda q: q.distortion_factor,
        solution=(
            TheoryStep("peak_voltage"),
            SHARE,
            TheoryStep("power_factor"),
            TheoryStep("displacement_factor"),
            SumStep(
                lambda q: f"{q.power_factor:.4g} / {q.displacement_factor:.4g}",
                "Distortion factor is power factor over displacement factor:",
            ),
        ),
        hints=(
            "That share has a name: distortion factor.",
            "Distortion factor times displacement factor is the power factor.",
        ),
        slips=(
            Slip(
                "displacement factor",
                lambda q: q.displacement_factor,
                "That is the displacement factor, the cosine of the fundamental's lead.",
            ),
            Slip("power factor", lambda q: q.power_factor, "That is the power factor, both shares together."),
            Slip(
                "harmonics over fundamental",
                lambda q: q.current_thd,
                "That is the total harmonic distortion: harmonics over fundamental.",
            ),
            Slip(
                "plain remainder",
                lambda q: 1 - q.current_thd,
                "Fundamental and harmonics do not add plainly: their squares do.",
            ),
        ),
        tolerance=_FACTOR,
    ),
    Question(
        "distortion",
        LESSON,
        "Total harmonic distortion",
        "On {voltage} a string holds the bridge at {clamped_voltage}. What total harmonic distortion does the line"
        " current have?",
        _held,
        "%",
        lambda q: 100 * q.current_thd,
        solution=(
            TheoryStep("peak_voltage"),
            SHARE,
            TheoryStep("distortion_factor"),
            TheoryStep("current_thd"),
            SumStep(lambda q: f"100 × {q.current_thd:.4g} %", "In per cent:"),
        ),
        hints=(
            "Rms of all harmonics together over the rms of the fundamental.",
            "The squares of fundamental and harmonics add to the square of the whole rms.",
        ),
        slips=(
            Slip(
                "over the whole",
                lambda q: 100 * math.sqrt(max(1 - q.distortion_factor**2, 0.0)),
                "You divided by the whole rms; THD divides by the fundamental.",
            ),
            Slip(
                "plain remainder",
                lambda q: 100 * (1 / q.distortion_factor - 1),
                "You took the difference of the rms values; their squares differ.",
            ),
            Slip(
                "distortion factor",
                lambda q: 100 * q.distortion_factor,
                "That is the fundamental over the whole; harmonics over fundamental are asked for.",
            ),
        ),
        tolerance=_PERCENT,
    ),
    Question(
        "power_parts",
        LESSON,
        "Three parts of the volt-amperes",
        "A lamp takes {real_power} of real power, {reactive_power} of reactive power and {current_distortion_power} of"
        " current distortion power. What is its apparent power?",
        _parts,
        "VA",
        lambda q: q.apparent_power_from_parts,
        solution=(TheoryStep("apparent_power_from_parts"),),
        hints=(
            "The three stand at right angles to one another, like the edges of a box.",
            "Apparent power is the diagonal of the box.",
        ),
        slips=(
            Slip(
                "plain sum",
                lambda q: q.real_power + q.reactive_power + q.current_distortion_power,
                "They do not add plainly: their squares do.",
            ),
            Slip(
                "distortion forgotten",
                lambda q: math.hypot(q.real_power, q.reactive_power),
                "The harmonics are left out: that is the apparent power of the fundamental.",
            ),
            Slip(
                "nonactive alone",
                lambda q: math.hypot(q.reactive_power, q.current_distortion_power),
                "That is the nonactive power; the watts belong to it too.",
            ),
            Slip("root forgotten", lambda q: q.apparent_power_from_parts**2, "Take the root."),
        ),
    ),
    Question(
        "nonactive",
        LESSON,
        "What is no power",
        "A lamp on {voltage}, {frequency} with {dropper} holds its bridge at {clamped_voltage}. How large is its"
        " nonactive power?",
        bridge_lamp,
        "var",
        lambda q: q.nonactive_power,
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("real_power"),
            TheoryStep("line_current_rms"),
            TheoryStep("apparent_power"),
            SumStep(
                lambda q: f"√(({q.apparent_power:.4g} VA)² − ({q.real_power:.4g} W)²)",
                "What is left of the apparent power, squares taken away:",
            ),
        ),
        hints=(
            "Find the watts, and the volt-amperes from the rms line current.",
            "All of the volt-amperes that are not watts; their squares differ, not they themselves.",
        ),
        slips=(
            Slip(
                "plain difference",
                lambda q: q.apparent_power - q.real_power,
                "You took the plain difference of VA and W; their squares differ.",
            ),
            Slip(
                "reactive alone",
                lambda q: q.fundamental_reactive_power,
                "That is the reactive power of the fundamental; the harmonics belong to it too.",
            ),
            Slip("volt-amperes", lambda q: q.apparent_power, "Those are the volt-amperes, the watts still in them."),
        ),
    ),
    Choice(
        "lead_or_lag",
        LESSON,
        "Lead or lag",
        "A lamp with {in_series} LEDs in series and a dropper of {dropper} is on {voltage}, {frequency}. Where does"
        " the fundamental of its current stand against the mains voltage?",
        lambda chance: (
            mains(chance, ((230.0, 50.0), (120.0, 60.0)))
            | {"dropper": part(chance, 6, 330e-9, 1e-6), "in_series": chance.randint(10, 30)}
        ),
        {"leads": "it leads", "in step": "it is in step", "lags": "it lags"},
        lambda q: _place(q),
        {
            "lags": "Motors and coils lag. A capacitor's current leads, and the bridge with its string changes that"
            " only in part.",
            "in step": "Then there would be no displacement, and the displacement factor would be 1.",
            "leads": "Here the string leaves next to nothing of the dropper's lead.",
        },
        lambda q: (
            f"The solver finds its fundamental {abs(_lead(q)):.0f}° {'before' if _lead(q) > 0 else 'behind'} the"
            " mains voltage."
        ),
        (
            "When does current flow: before the mains' crest, or after it?",
            "It flows while the mains rises, and stops at the crest. Its middle lies before the crest.",
        ),
    ),
)


def _factor(q):
    from ...solver import power

    return float(power.power_factor(q.real_power, q.voltage * q.line_current_rms))


def _lead(q):
    """Degrees by which the fundamental of the line current leads the mains."""
    from ...solver.power import harmonics

    return math.degrees(phase(harmonics(steady_lamp(q.voltage, q.frequency, q.dropper, q.in_series).line_current)[1]))


def _place(q):
    return "in step" if abs(_lead(q)) < 3 else "leads" if _lead(q) > 0 else "lags"
