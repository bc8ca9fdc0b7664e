"""Tasks of lesson 2: what a string makes of the current, and the power it takes."""

from ..tasks.lamps import direction, steady_lamp
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, part, share_of_peak
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 2
_PERCENT = Tolerance(
    "A tenth of a point or 3 % of it is allowed: the mains moves more than that between two readings.", 0.03, 0.1
)
_NOTICED = 0.10  # a change of current that counts as one of brightness here; a choice of ours
_CHANGED = 0.02  # a change of power that counts as one
_MICROFARAD = 1e-6  # F


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


def _no_dropper(chance):
    values = bridge_lamp(chance, 0.2, 0.7)
    del values["dropper"]
    return values


def _high(chance):
    values = mains(chance)
    return {
        "voltage": values["voltage"],
        "clamped_voltage": share_of_peak(chance, values["voltage"], 0.2, 0.65),
        "mains_off": float(chance.choice((4, 5, 6, 8, 10))),
        "dropper_off": float(chance.choice((5, 8, 10, 15, 20))),
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
        "A lamp has {in_series} LEDs of 3 V each in one string, on {voltage}, {frequency} with {dropper}. {more}"
        " more are put in series. What does the power do?",
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
        "A lamp of {in_series} LEDs in series has a dropper of {dropper} and a resistor of {resistor} in the line,"
        " on {voltage}. The resistor is changed to {larger_resistor}. What does the light do?",
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
    Question(
        "rule_of_thumb",
        LESSON,
        "Milliamperes for each microfarad",
        "“So many milliamperes for each microfarad of dropper”, people say, whatever the LEDs. On {voltage},"
        " {frequency} a string holds the bridge at {clamped_voltage}. What mean current does each microfarad really"
        " give it?",
        _no_dropper,
        "A",
        lambda q: q.using("mean_string_current", dropper=_MICROFARAD),
        solution=(TheoryStep("peak_voltage"), TheoryStep("mean_string_current", lambda q: {"dropper": _MICROFARAD})),
        hints=(
            "The rule is what an ammeter shows in a short circuit: rms, and without LEDs.",
            "Work out the mean current of this string for a dropper of 1 µF.",
        ),
        slips=(
            Slip(
                "the rule",
                lambda q: q.using("short_circuit_current", dropper=_MICROFARAD),
                "That is the rule's own number: rms, and for a short circuit. LEDs shine with the mean, and the string"
                " holds {clamped_voltage} back.",
            ),
            Slip(
                "string forgotten",
                lambda q: q.using("mean_string_current", dropper=_MICROFARAD, clamped_voltage=0.0),
                "That is the mean current into a short circuit; the string keeps {clamped_voltage} back.",
            ),
            Slip(
                "rms for mean",
                lambda q: q.using("line_current_rms", dropper=_MICROFARAD),
                "That is the rms current of the line. LEDs shine with the mean, which is less.",
            ),
        ),
    ),
    Question(
        "both_high",
        LESSON,
        "Both a little high",
        "On {voltage} a string holds the bridge at {clamped_voltage}. The mains is {mains_off} higher than that, and"
        " the dropper has {dropper_off} more capacitance than is marked on it. By how many per cent is the mean current"
        " of the LEDs higher than with everything as marked?",
        _high,
        "%",
        lambda q: _rise(q, q.mains_off, q.dropper_off),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(
                lambda q: (
                    f"By the dropper {q.dropper_off:g} % more, in proportion. The mains is {q.mains_off:g} % higher:"
                    " what pushes the current goes from"
                    f" {q.peak_voltage:.4g} V − {q.clamped_voltage:g} V = {q.peak_voltage - q.clamped_voltage:.4g} V to"
                    f" {q.peak_voltage * _times(q.mains_off):.4g} V − {q.clamped_voltage:g} V ="
                    f" {q.peak_voltage * _times(q.mains_off) - q.clamped_voltage:.4g} V."
                )
            ),
            SumStep(
                lambda q: (
                    f"100 × ({_times(q.dropper_off):g} × {q.peak_voltage * _times(q.mains_off) - q.clamped_voltage:.4g}"
                    f" / {q.peak_voltage - q.clamped_voltage:.4g} − 1)"
                ),
                "Both together:",
            ),
        ),
        hints=(
            "The current is in proportion to the capacitance, and to the mains' peak less {clamped_voltage}.",
            "The string's volts stay. So the difference grows by more per cent than the mains does.",
        ),
        slips=(
            Slip(
                "it does not matter",
                lambda q: 0.0,
                "Tolerances do matter: the dropper's goes into the current as it is, that of the mains is magnified.",
            ),
            Slip(
                "plain sum",
                lambda q: q.mains_off + q.dropper_off,
                "You added the two. The string's volts stay, so the mains counts for more than its per cents.",
            ),
            Slip(
                "mains alone",
                lambda q: _rise(q, q.mains_off, 0.0),
                "That is what the mains does. The dropper's {dropper_off} come on top.",
            ),
            Slip(
                "dropper alone",
                lambda q: q.dropper_off,
                "That is what the dropper does. The mains is {mains_off} high too.",
            ),
        ),
        tolerance=_PERCENT,
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


def _times(percent):
    return 1 + percent / 100


def _rise(q, mains_off, dropper_off):
    """How much more mean current the string gets, in per cent."""
    peak, plain = q.peak_voltage * _times(mains_off), {"frequency": 50.0, "dropper": _MICROFARAD}
    high = q.using(
        "mean_string_current", **plain | {"dropper": _MICROFARAD * _times(dropper_off), "peak_voltage": peak}
    )
    return 100 * (high / q.using("mean_string_current", **plain) - 1)
