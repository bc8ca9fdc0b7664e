"""Tasks of lesson 2: what a string makes of the current, and the power it takes."""

from ..tasks.lamps import direction, steady_lamp
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, part
from ..tasks.solution import SumStep, TheoryStep

LESSON = 2
_PERCENT = Tolerance(
    "A tenth of a point or 3 % of it is allowed: the mains moves more than that between two readings.", 0.03, 0.1
)
_NOTICED = 0.10  # a change of current that counts as one of brightness here; a choice of ours
_CHANGED = 0.02  # a change of power that counts as one


def _groups(chance):
    """A string well below half of the mains' peak, or well above it, and some LEDs to add."""
    voltage, frequency = chance.choice(((230.0, 50.0), (120.0, 60.0)))
    few, many = ((16, 28), (62, 74)) if voltage > 200 else ((9, 13), (32, 37))
    low, high = chance.choice((few, many))
    return {
        "voltage": voltage,
        "frequency": frequency,
        "dropper": part(chance, 6, 330e-9, 1e-6),
        "in_series": chance.randint(low, high),
        "more": 10 if voltage > 200 else 6,
    }


def _resistors(chance):
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 470e-9),
        "in_series": chance.randint(18, 36),
        "resistor": part(chance, 3, 10.0, 100.0),
        "larger_resistor": 1e3,
    }


TASKS = (
    Question(
        "greatest_power",
        LESSON,
        "The most that can be had",
        "How much power can at most be had behind a bridge and a dropper of {dropper} on {voltage}, {frequency},"
        " whatever the string?",
        lambda chance: mains(chance) | {"dropper": part(chance, 6, 220e-9, 4.7e-6)},
        "W",
        lambda q: q.greatest_power,
        solution=(TheoryStep("peak_voltage"), TheoryStep("greatest_power")),
        hints=(
            "A short circuit takes current and no volts; at the mains' peak there are volts and no current.",
            "The best place is in the middle, at half of the peak.",
        ),
        slips=(
            Slip(
                "VA for W",
                lambda q: q.voltage * q.short_circuit_current,
                "That is mains times short-circuit current: volt-amperes, and no watts at all.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("greatest_power", peak_voltage=q.voltage),
                "You took the rms volts; the peak counts, and squared it is twice as much.",
            ),
            Slip(
                "volts of one place, amperes of another",
                lambda q: 4 * q.greatest_power,
                "You multiplied the greatest voltage with the greatest current. They never come together.",
            ),
            Slip(
                "one factor of two",
                lambda q: 2 * q.greatest_power,
                "At half of the peak there is half of the short-circuit current too: both halves count.",
            ),
        ),
    ),
    Question(
        "best_string",
        LESSON,
        "The string of greatest power",
        "At how many volts should a string hold the bridge to get the greatest power from a mains of {voltage}?",
        lambda chance: {"voltage": chance.choice((100.0, 110.0, 120.0, 127.0, 200.0, 208.0, 220.0, 230.0, 240.0))},
        "V",
        lambda q: q.best_clamped_voltage,
        solution=(TheoryStep("peak_voltage"), TheoryStep("best_clamped_voltage")),
        hints=(
            "Power is the clamped voltage times a current that falls in a straight line with it.",
            "Such a product is greatest half way to where the current is nought.",
        ),
        slips=(
            Slip("rms for peak", lambda q: q.voltage / 2, "Half of the peak, not of the rms volts."),
            Slip(
                "best power factor",
                lambda q: q.peak_voltage * _best_factor_at(),
                "There the power factor is greatest. Power is greatest elsewhere.",
            ),
            Slip("all of the peak", lambda q: q.peak_voltage, "At the peak no current flows any more."),
            Slip("mains", lambda q: q.voltage, "That is the mains itself, 0.71 of the peak: too far."),
        ),
    ),
    Question(
        "mains_rise",
        LESSON,
        "The mains rises",
        "The mains of {voltage} rises by {rise}. The string holds the bridge at {clamped_voltage} as before. By how"
        " many per cent does the current rise?",
        lambda chance: bridge_lamp(chance, 0.3, 0.7) | {"rise": float(chance.choice((2, 3, 4, 5, 6, 8)))},
        "%",
        lambda q: q.rise * q.elasticity_to_peak_voltage,
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("elasticity_to_peak_voltage"),
            SumStep(lambda q: f"{q.rise:g} % × {q.elasticity_to_peak_voltage:.3g}", "So much for each per cent:"),
        ),
        hints=(
            "The string's volts do not rise with the mains: all of the rise goes to what is left.",
            "How large is the peak against the peak less the clamped voltage?",
        ),
        slips=(
            Slip(
                "in proportion",
                lambda q: q.rise,
                "In proportion would be right without a string. What pushes the current is the peak less"
                " {clamped_voltage}, and that rises by more.",
            ),
            Slip(
                "constant current",
                lambda q: 0.0,
                "It is no constant-current supply: its load line is straight, and moves with the mains.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.rise * q.voltage / (q.voltage - q.clamped_voltage),
                "You took the rms volts where the peak belongs.",
            ),
            Slip(
                "string over rest",
                lambda q: -q.rise * q.elasticity_to_clamped_voltage,
                "That is the string's share over the rest: how the current follows the string's volts, not the mains.",
            ),
        ),
        tolerance=_PERCENT,
    ),
    Question(
        "groups_bridged",
        LESSON,
        "Some LEDs bridged",
        "On {voltage} a string holds the bridge at {clamped_voltage}. With the lamp unplugged and proved empty, LEDs"
        " that took {lost_voltage} together are bridged with a wire; then it is in use again. By how many per cent has"
        " the current through the others risen?",
        lambda chance: (
            bridge_lamp(chance, 0.3, 0.65) | {"lost_voltage": float(chance.choice((3, 6, 9, 12, 15, 18, 24)))}
        ),
        "%",
        lambda q: 100 * q.current_rise_on_short,
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("current_rise_on_short"),
            SumStep(
                lambda q: f"100 × {q.lost_voltage:g} V / ({q.peak_voltage:.4g} V − {q.clamped_voltage:g} V) %",
                "In per cent:",
            ),
        ),
        hints=(
            "The dropper gets the volts that the LEDs no longer take.",
            "Compare those volts with what pushed the current before: the peak less the clamped voltage.",
        ),
        slips=(
            Slip(
                "share of the string",
                lambda q: 100 * q.lost_voltage / q.clamped_voltage,
                "You compared with the string. What pushes the current is the peak less the string.",
            ),
            Slip(
                "share of the peak",
                lambda q: 100 * q.lost_voltage / q.peak_voltage,
                "You compared with the whole peak; {clamped_voltage} of it never pushed the current.",
            ),
            Slip("constant current", lambda q: 0.0, "It is no constant-current supply; fewer LEDs get more current."),
            Slip(
                "rms for peak",
                lambda q: 100 * q.lost_voltage / (q.voltage - q.clamped_voltage),
                "You took the rms volts where the peak belongs.",
            ),
        ),
        tolerance=_PERCENT,
    ),
    Choice(
        "more_leds",
        LESSON,
        "More LEDs",
        "A lamp has {in_series} LEDs of 3 V in one string, on {voltage}, {frequency} with {dropper}. {more} more are"
        " put in series. What does the power do?",
        _groups,
        {"rises": "it rises", "same": "it stays within 2 %", "falls": "it falls"},
        lambda q: direction(_watts(q, 0), _watts(q, q.more), _CHANGED),
        {
            "rises": "More LEDs take more power only while the string is below half of the mains' peak. Beyond it the"
            " current falls faster than the voltage grows.",
            "falls": "The current does fall. But while the string is below half of the mains' peak its voltage grows"
            " faster.",
            "same": "The power is voltage times a current that falls in a straight line with it: flat only near half of"
            " the peak.",
        },
        lambda q: (
            f"With {q.in_series} LEDs the lamp takes {_watts(q, 0):.3g} W, with {q.in_series + q.more} it takes"
            f" {_watts(q, q.more):.3g} W. Half of the mains' peak is {q.peak_voltage / 2:.0f} V."
        ),
        (
            "Power is voltage times current. Which of the two grows with more LEDs, and which one falls?",
            "The power is greatest where the string holds half of the mains' peak. On which side is this string?",
            "Compare {in_series} times 3 V, before and with {more} more LEDs, with half of √2 times {voltage}.",
        ),
    ),
    Choice(
        "larger_resistor",
        LESSON,
        "A larger resistor",
        "A lamp of {in_series} LEDs has a dropper of {dropper} and a resistor of {resistor} in the line, on {voltage}."
        " The resistor is changed to {larger_resistor}. What does the light do?",
        _resistors,
        {"brighter": "clearly brighter", "same": "about the same, within a tenth", "dimmer": "clearly dimmer"},
        lambda q: _light(q),
        {
            "dimmer": "The resistor does not set the current, the dropper does: its reactance is seven to fourteen"
            " times as many ohms, and the two add as the sides of a right-angled triangle.",
            "brighter": "A resistor in the line never adds current; it only turns power into heat.",
            "same": "Here the resistor is no longer small against the reactance of the dropper.",
        },
        lambda q: (
            f"The string gets {_amperes(q, q.resistor) * 1e3:.3g} mA with the first resistor and"
            f" {_amperes(q, q.larger_resistor) * 1e3:.3g} mA with the second. The reactance of the dropper is"
            f" {q.reactance / 1e3:.3g} kΩ."
        ),
        (
            "How many ohms of reactance does {dropper} have at {frequency}?",
            "Ohms of resistance and of reactance do not add plainly: the larger one rules.",
            "{larger_resistor} stands at a right angle to about ten times as much: the long side hardly grows.",
        ),
    ),
)


def _best_factor_at():
    from ...theory import greatest_power_factor

    return greatest_power_factor()[0]


def _watts(q, more):
    return steady_lamp(q.voltage, q.frequency, q.dropper, q.in_series + more).real_power


def _amperes(q, resistor):
    lamp = (q.voltage, q.frequency, q.dropper, q.in_series)
    return steady_lamp(*lamp, inrush_resistor=resistor).string_current_mean


def _light(q):
    change = direction(_amperes(q, q.resistor), _amperes(q, q.larger_resistor), _NOTICED)
    return {"rises": "brighter", "falls": "dimmer", "same": "same"}[change]
