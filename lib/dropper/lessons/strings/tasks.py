"""Tasks of lesson 9: how many LEDs, and in which colours."""

from ..tasks.lamps import steady_lamp
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import mains, part, value_text
from ..tasks.solution import TheoryStep

LESSON = 9
_LEDS = Tolerance("Half an LED either way is allowed: no one fits half of one.", relative=0.0, absolute=0.5)
_FACTOR = Tolerance("0.03 or 2 % is allowed: two digits are what a factor is read to.", 0.02, 0.03)
_VOLTS = Tolerance("Half a volt is allowed: LEDs of one type differ by more.", relative=0.0, absolute=0.5)
_SOME, _MUCH = 0.03, 0.10  # rise of the current by a bridged LED
# LEDs in series on 230 V: a short string, and a long one; there 3 V each and the solver's softer LEDs agree in words.
_LENGTHS = ((18, 55), (92, 98))


def _wanted(chance):
    values = mains(chance, ((230.0, 50.0), (240.0, 50.0), (120.0, 60.0)))
    dropper = part(chance, 6, 330e-9, 1e-6) if values["voltage"] > 200 else part(chance, 6, 1e-6, 2.2e-6)
    short = 4 * values["frequency"] * dropper * 1.414 * values["voltage"]
    return values | {
        "dropper": dropper,
        "string_current_mean": round(1e3 * chance.uniform(0.45, 0.85) * short) / 1e3,
        "forward_voltage": chance.choice((2.0, 2.8, 3.0, 3.1, 3.2)),
        "diode_voltage": 0.8,
    }


def _best(chance):
    return {
        "voltage": mains(chance)["voltage"],
        "forward_voltage": chance.choice((1.9, 2.0, 2.8, 3.0, 3.1, 3.2, 6.0)),
        "diode_voltage": chance.choice((0.7, 0.8, 0.9)),
    }


def _more(chance):
    values = mains(chance)
    times = chance.choice((1.5, 2.0, 2.5, 3.0))
    highest = 0.92 / times
    share = chance.uniform(0.12, min(highest, 0.45))
    return {
        "voltage": values["voltage"],
        "clamped_voltage": 5.0 * round(share * 1.4 * values["voltage"] / 5),
        "times_leds": times,
    }


def _colours(chance):
    return {
        "in_series": chance.randint(6, 20),
        "forward_voltage": chance.choice((3.0, 3.1, 3.2)),
        "second_in_series": chance.randint(4, 18),
        "second_forward_voltage": chance.choice((1.8, 1.9, 2.0, 2.1)),
        "diode_voltage": chance.choice((0.7, 0.8, 0.9)),
    }


def _bridged(chance):
    low, high = chance.choice(_LENGTHS)
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 330e-9, 1e-6),
        "in_series": chance.randint(low, high),
    }


TASKS = (
    Question(
        "leds_for_current",
        LESSON,
        "How many LEDs on this dropper",
        "{dropper} is fitted, on {voltage}, {frequency}. The LEDs of {forward_voltage} each are to get"
        " {string_current_mean} on average, behind a bridge whose diodes drop {diode_voltage} each. How many belong"
        " in series? (A fraction will do.)",
        _wanted,
        "",
        lambda q: q.in_series_for_current,
        solution=(TheoryStep("peak_voltage"), TheoryStep("in_series_for_current")),
        hints=(
            "The load line: the wanted current leaves so many volts for the bridge.",
            "Two diodes take their part of them; the rest is shared out among the LEDs.",
        ),
        slips=(
            Slip(
                "rms for peak",
                lambda q: q.using("in_series_for_current", peak_voltage=q.voltage),
                "You started from the rms volts; the dropper charges to the peak.",
            ),
            Slip(
                "reactance taken as a resistor",
                lambda q: (q.voltage - q.string_current_mean * q.reactance) / q.forward_voltage,
                "You took current times reactance from the mains' volts. The volts do not add plainly, and the mean"
                " is no rms current.",
            ),
            Slip(
                "no current left",
                lambda q: (q.peak_voltage - 2 * q.diode_voltage) / q.forward_voltage,
                "With so many the string holds the whole peak, and no current flows.",
            ),
            Slip(
                "half a bridge",
                lambda q: q.using("in_series_for_current", string_current_mean=q.string_current_mean / 2),
                "You counted one half cycle's charge; the bridge hands on two in each period.",
            ),
        ),
        tolerance=_LEDS,
    ),
    Question(
        "leds_for_power",
        LESSON,
        "LEDs for the greatest power",
        "LEDs of {forward_voltage} each in series behind a bridge whose diodes drop {diode_voltage} each, on"
        " {voltage}. With how many does a lamp take the most power, whatever its dropper? (A fraction will do.)",
        _best,
        "",
        lambda q: q.in_series_of_greatest_power,
        solution=(TheoryStep("peak_voltage"), TheoryStep("in_series_of_greatest_power")),
        hints=(
            "Volts times a current that falls in a straight line with the volts: where is such a product greatest?",
            "At half of the mains' peak; two diodes are part of that.",
        ),
        slips=(
            Slip(
                "rms for peak",
                lambda q: q.using("in_series_of_greatest_power", peak_voltage=q.voltage),
                "Half of the peak, not of the rms volts.",
            ),
            Slip(
                "the whole peak",
                lambda q: (q.peak_voltage - 2 * q.diode_voltage) / q.forward_voltage,
                "There the volts are greatest, and the current is nought.",
            ),
            Slip(
                "the mains",
                lambda q: (q.voltage - 2 * q.diode_voltage) / q.forward_voltage,
                "You filled the mains' rms volts with LEDs; that is beyond the top of the hump.",
            ),
        ),
        tolerance=_LEDS,
    ),
    Question(
        "more_leds_power",
        LESSON,
        "Twice the LEDs, twice the power?",
        "On {voltage} a string holds the bridge at {clamped_voltage}. It is made {times_leds} times as long, so that it"
        " holds {times_leds} times those volts. By what factor does the power change?",
        _more,
        "",
        lambda q: q.power_of_more_leds,
        solution=(TheoryStep("peak_voltage"), TheoryStep("power_of_more_leds")),
        hints=(
            "Power is the clamped voltage times the current. The first grows by the factor; and the second?",
            "The current goes with the peak less the clamped voltage.",
        ),
        slips=(
            Slip(
                "in proportion",
                lambda q: q.times_leds,
                "The volts grow by that. But the current falls: it is no constant-current supply.",
            ),
            Slip(
                "the same watts",
                lambda q: 1.0,
                "The dropper does not fix the watts. It fixes neither the current: that goes along the load line.",
            ),
            Slip(
                "current alone",
                lambda q: q.power_of_more_leds / q.times_leds,
                "That is the factor of the current. Each ampere now comes with more volts.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("power_of_more_leds", peak_voltage=q.voltage),
                "You took the rms volts where the peak belongs.",
            ),
        ),
        tolerance=_FACTOR,
    ),
    Question(
        "two_colours_in_series",
        LESSON,
        "Two colours in one string",
        "One string has {in_series} LEDs of {forward_voltage} each and {second_in_series} of"
        " {second_forward_voltage} each in series, in any order, behind a bridge whose diodes drop {diode_voltage}"
        " each. At what voltage is the bridge held?",
        _colours,
        "V",
        lambda q: q.mixed_clamped_voltage,
        solution=(TheoryStep("mixed_clamped_voltage"),),
        hints=(
            "In series all carry the same current, whatever their colour.",
            "Each drops what its colour drops; two diodes come on top.",
        ),
        slips=(
            Slip(
                "diodes forgotten",
                lambda q: q.mixed_clamped_voltage - 2 * q.diode_voltage,
                "The current passes two diodes as well.",
            ),
            Slip(
                "all like the first",
                lambda q: q.using("mixed_clamped_voltage", second_forward_voltage=q.forward_voltage),
                "You reckoned all of them at {forward_voltage}.",
            ),
            Slip(
                "the second left out",
                lambda q: q.using("mixed_clamped_voltage", second_in_series=0),
                "The other {second_in_series} drop their volts too: nothing in a string is passed by.",
            ),
        ),
        tolerance=_VOLTS,
    ),
    Choice(
        "dead_led_bridged",
        LESSON,
        "A dead LED bridged",
        "One of {in_series} LEDs of 3 V each in one string is dead: it lets no current through. The string stands"
        " behind a bridge and {dropper} on {voltage}, {frequency}. With the lamp unplugged and proved empty the dead"
        " LED is bridged with a wire. Against the string when it was whole, what does the current through the others"
        " do?",
        _bridged,
        {
            "none": "it rises, but by less than 3 %",
            "some": "it rises by 3 % to 10 %",
            "much": "it rises by more than 10 %",
            "falls": "it falls",
        },
        lambda q: _bridging(q),
        {
            "none": "Hold 3 V against what is left of the peak, √2 times {voltage} less {in_series} times 3 V: here"
            " that is not much.",
            "some": "Hold 3 V against what is left of the peak, √2 times {voltage} less {in_series} times 3 V.",
            "much": "Hold 3 V against what is left of the peak, √2 times {voltage} less {in_series} times 3 V: that is"
            " a good deal more.",
            "falls": "The dropper gets the volts that the dead one no longer takes; more pushes the current.",
        },
        lambda q: (
            f"The solver finds {value_text(_mean(q, 0), 'A')} with the whole string and"
            f" {value_text(_mean(q, 1), 'A')} with one LED less:"
            f" {100 * (_mean(q, 1) / _mean(q, 0) - 1):+.1f} %. Each further one counts for a little less, for"
            " more is left of the peak."
        ),
        (
            "Three volts less across the string: who has them now?",
            "What pushes the current is the mains' peak less the string. By what part has that grown?",
        ),
    ),
)


def _mean(q, less):
    return steady_lamp(q.voltage, q.frequency, q.dropper, q.in_series - less).string_current_mean


def _bridging(q):
    rise = _mean(q, 1) / _mean(q, 0) - 1
    return "falls" if rise < 0 else "none" if rise < _SOME else "some" if rise <= _MUCH else "much"
