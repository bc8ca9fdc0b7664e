"""Tasks of lesson 9: how many LEDs, in which colours and arrangement, and how LEDs side by side share."""

from .draw import mains, part, shown, stepped
from .lamps import settled
from .question import PARTS, Choice, Question, Slip, Tolerance
from .work import By, Say, Sum

LESSON = 9
_LEDS = Tolerance("Half an LED either way is allowed: no one fits half of one.", relative=0.0, absolute=0.5)
_FACTOR = Tolerance("0.03 or 2 % is allowed: two digits are what a factor is read to.", 0.02, 0.03)
_VOLTS = Tolerance("Half a volt is allowed: LEDs of one type differ by more.", relative=0.0, absolute=0.5)
_PERCENT = Tolerance("Half a point or 3 % of it is allowed: thermal resistances are known no better.", 0.03, 0.5)
_ALL = 0.95  # of the current: taken as nearly all
_EQUAL = 0.55  # of the current of two: taken as about half
_SOME, _MUCH = 0.03, 0.10  # rise of the current by a bridged LED
_LARGE = 0.4  # rise of the current by an open LED
# LEDs in series on 230 V: a short string, and a long one; there 3 V each and the solver's softer LEDs agree in words.
_LENGTHS = ((18, 55), (92, 98))


def _wanted(chance):
    drawn = mains(chance, ((230.0, 50.0), (240.0, 50.0), (120.0, 60.0)))
    dropper = part(chance, 6, 330e-9, 1e-6) if drawn["voltage"] > 200 else part(chance, 6, 1e-6, 2.2e-6)
    short = 4 * drawn["frequency"] * dropper * 1.414 * drawn["voltage"]
    return drawn | {
        "dropper": dropper, "string_current_mean": round(1e3 * chance.uniform(0.45, 0.85) * short) / 1e3,
        "forward_voltage": chance.choice((2.0, 2.8, 3.0, 3.1, 3.2)), "diode_voltage": 0.8,
    }  # fmt: skip


def _best(chance):
    return {"voltage": mains(chance)["voltage"], "forward_voltage": chance.choice((1.9, 2.0, 2.8, 3.0, 3.1, 3.2, 6.0)),
            "diode_voltage": chance.choice((0.7, 0.8, 0.9))}  # fmt: skip


def _more(chance):
    drawn = mains(chance)
    times = chance.choice((1.5, 2.0, 2.5, 3.0))
    highest = 0.92 / times
    share = chance.uniform(0.12, min(highest, 0.45))
    return {"voltage": drawn["voltage"], "clamped_voltage": 5.0 * round(share * 1.4 * drawn["voltage"] / 5),
            "times_leds": times}  # fmt: skip


def _group(chance):
    return {"in_series": chance.randint(12, 40), "in_parallel": chance.randint(3, 6),
            "string_current_mean": chance.randint(24, 90) / 1e3}  # fmt: skip


def _pair(chance):
    return {"forward_voltage": chance.choice((2.8, 3.0, 3.1, 3.2)), "string_current_mean": chance.randint(24, 50) / 1e3,
            "forward_voltage_difference": stepped(chance, 0.04, 0.1, 0.01),
            "dynamic_resistance": float(chance.randint(9, 16))}  # fmt: skip


def _evened(chance):
    return _pair(chance) | {"forward_voltage_difference": stepped(chance, 0.1, 0.3, 0.05),
                            "limit": float(chance.choice((10, 15, 20)))}  # fmt: skip


def _warm(chance):
    return {"forward_voltage": chance.choice((2.8, 3.0, 3.1, 3.2)), "dynamic_resistance": float(chance.randint(5, 14)),
            "thermal_resistance": float(chance.choice((150, 200, 250, 300))),
            "voltage_coefficient": chance.choice((-2e-3, -3e-3))}  # fmt: skip


def _colours(chance):
    return {"in_series": chance.randint(6, 20), "forward_voltage": chance.choice((3.0, 3.1, 3.2)),
            "second_in_series": chance.randint(4, 18), "second_forward_voltage": chance.choice((1.8, 1.9, 2.0, 2.1)),
            "diode_voltage": chance.choice((0.7, 0.8, 0.9))}  # fmt: skip


def _two_colours(chance):
    high, low = chance.choice((3.0, 3.1, 3.2)), chance.choice((1.9, 2.0, 2.1))
    first, second = chance.choice(((high, low), (low, high), (high, high), (low, low)))
    return {"forward_voltage": first, "second_forward_voltage": second,
            "string_current_mean": chance.randint(10, 30) / 1e3}  # fmt: skip


def _bridged(chance):
    low, high = chance.choice(_LENGTHS)
    return {"voltage": 230.0, "frequency": 50.0, "dropper": part(chance, 6, 330e-9, 1e-6),
            "in_series": chance.randint(low, high)}  # fmt: skip


def _opened(chance):
    return {"in_series": chance.randint(12, 40), "in_parallel": chance.choice((2, 3, 4, 5, 6, 8))}


TASKS = (
    Question(
        "leds_for_current", LESSON, "How many LEDs on this dropper",
        "{dropper} is fitted, on {voltage}, {frequency}. The LEDs of {forward_voltage} are to get"
        " {string_current_mean} on average, behind a bridge whose diodes drop {diode_voltage}. How many belong in"
        " series? (A fraction will do.)",
        _wanted, "", lambda q: q.in_series_for_current,
        work=(By("peak_voltage"), By("in_series_for_current")),
        hints=("The load line: the wanted current leaves so many volts for the bridge.",
               "Two diodes take their part of them; the rest is shared out among the LEDs."),
        slips=(
            Slip("rms for peak", lambda q: q.using("in_series_for_current", peak_voltage=q.voltage),
                 "You started from the rms volts; the dropper charges to the peak."),
            Slip("reactance taken as a resistor",
                 lambda q: (q.voltage - q.string_current_mean * q.reactance) / q.forward_voltage,
                 "You took current times reactance from the mains' volts. The volts do not add plainly, and the mean"
                 " is no rms current."),
            Slip("no current left", lambda q: (q.peak_voltage - 2 * q.diode_voltage) / q.forward_voltage,
                 "With so many the string holds the whole peak, and no current flows."),
            Slip("half a bridge",
                 lambda q: q.using("in_series_for_current", string_current_mean=q.string_current_mean / 2),
                 "You counted one half cycle's charge; the bridge hands on two in each period."),
        ),
        tolerance=_LEDS,
    ),
    Question(
        "leds_for_power", LESSON, "LEDs for the greatest power",
        "LEDs of {forward_voltage} in series behind a bridge whose diodes drop {diode_voltage}, on {voltage}. With how"
        " many does a lamp take the most power, whatever its dropper? (A fraction will do.)",
        _best, "", lambda q: q.in_series_of_greatest_power,
        work=(By("peak_voltage"), By("in_series_of_greatest_power")),
        hints=("Volts times a current that falls in a straight line with the volts: where is such a product greatest?",
               "At half of the mains' peak; two diodes are part of that."),
        slips=(
            Slip("rms for peak", lambda q: q.using("in_series_of_greatest_power", peak_voltage=q.voltage),
                 "Half of the peak, not of the rms volts."),
            Slip("the whole peak", lambda q: (q.peak_voltage - 2 * q.diode_voltage) / q.forward_voltage,
                 "There the volts are greatest, and the current is nought."),
            Slip("the mains", lambda q: (q.voltage - 2 * q.diode_voltage) / q.forward_voltage,
                 "You filled the mains' rms volts with LEDs; that is beyond the top of the hump."),
        ),
        tolerance=_LEDS,
    ),
    Question(
        "more_leds_power", LESSON, "Twice the LEDs, twice the power?",
        "On {voltage} a string holds the bridge at {clamped_voltage}. It is made {times_leds} times as long, so that it"
        " holds {times_leds} times those volts. By what factor does the power change?",
        _more, "", lambda q: q.power_of_more_leds,
        work=(By("peak_voltage"), By("power_of_more_leds")),
        hints=("Power is the clamped voltage times the current. The first grows by the factor; and the second?",
               "The current goes with the peak less the clamped voltage."),
        slips=(
            Slip("in proportion", lambda q: q.times_leds,
                 "The volts grow by that. But the current falls: it is no constant-current supply."),
            Slip("the same watts", lambda q: 1.0,
                 "The dropper does not fix the watts. It fixes neither the current: that goes along the load line."),
            Slip("current alone", lambda q: q.power_of_more_leds / q.times_leds,
                 "That is the factor of the current. Each ampere now comes with more volts."),
            Slip("rms for peak", lambda q: q.using("power_of_more_leds", peak_voltage=q.voltage),
                 "You took the rms volts where the peak belongs."),
        ),
        tolerance=_FACTOR,
    ),
    Question(
        "one_open_share", LESSON, "One of a group open",
        "{in_series} groups of {in_parallel} LEDs side by side carry {string_current_mean} on average. In one group an"
        " LED goes open. What does each of the others in that group then carry, if they share alike?",
        _group, "A", lambda q: q.using("shared_current", opened=1),
        work=(By("shared_current", lambda q: {"opened": 1}),),
        hints=("Does the dropper notice that one LED is gone?",
               "The string's current hardly changes, for one group drops a few hundredths of a volt more."),
        slips=(
            Slip("as before", lambda q: q.using("shared_current", opened=0),
                 "That is what each had before. The current of the missing one has to go somewhere."),
            Slip("all of it", lambda q: q.string_current_mean, "That is the whole string's; the others share it."),
            Slip("its share lost", lambda q: q.using("shared_current", opened=0) * (1 - 1 / q.in_parallel),
                 "You spread a smaller current. The groups in series all carry the same, this one too."),
        ),
    ),
    Question(
        "pair_difference", LESSON, "A few hundredths of a volt",
        "Two LEDs of {forward_voltage} side by side carry {string_current_mean} together. At one and the same current"
        " the first would drop {forward_voltage_difference} less than the second. About there the curve of each has a"
        " slope of {dynamic_resistance}, so many millivolts for each milliampere, its own resistance included. How much"
        " more current does the first one take?",
        _pair, "A", lambda q: q.current_difference,
        work=(By("current_difference"),),
        hints=("Side by side both have the same voltage. So it is their currents that have to differ.",
               "Ohms are volts for each ampere: how many amperes make up for those volts?"),
        slips=(
            Slip("equal", lambda q: 0.0,
                 "They have the same voltage, not the same current; with different curves that cannot both be."),
            Slip("in proportion",
                 lambda q: q.string_current_mean / 2 * q.forward_voltage_difference / q.forward_voltage,
                 "You took the volts in proportion. The curve is far steeper than a line from nought: divide by its"
                 " slope."),
            Slip("half of it", lambda q: q.current_difference / 2,
                 "By that each is away from the mean; from one to the other it is twice as much."),
        ),
    ),
    Question(
        "resistor_for_pair", LESSON, "A resistor for each branch",
        "Two LEDs of {forward_voltage} side by side carry {string_current_mean} together and differ by"
        " {forward_voltage_difference}; the curve of each has a slope of {dynamic_resistance}, so many millivolts for"
        " each milliampere. How many ohms in series with each keep the difference of their currents to {limit} of"
        " one LED's share?",
        _evened, "Ω", lambda q: q.using("branch_resistor_for_imbalance", **_held(q)),
        work=(
            Say(lambda q: f"One share: {shown(q.string_current_mean, 'A')} / 2 ="
                          f" {shown(q.string_current_mean / 2, 'A')}; allowed: {q.limit:g} % of it"),
            By("branch_resistor_for_imbalance", lambda q: _held(q)),
        ),
        hints=("The difference of the volts over the slope of a branch is the difference of the currents.",
               "The LED's own slope is part of the branch's; the resistor has to bring the rest."),
        slips=(
            Slip("own slope forgotten", lambda q: _ohms(q) + q.dynamic_resistance,
                 "That is the slope of the whole branch. The LED brings {dynamic_resistance} of it itself."),
            Slip("own slope added", lambda q: _ohms(q) + 2 * q.dynamic_resistance,
                 "The LED's own slope helps; it is to be taken off, not added."),
            Slip("of the whole current",
                 lambda q: q.using("branch_resistor_for_imbalance", **_held(q) | {
                     "junction_current": q.string_current_mean}),
                 "You took {limit} of the current of both; one LED's share is half of that."),
        ),
        tolerance=PARTS,
    ),
    Question(
        "warm_difference", LESSON, "What warmth adds",
        "Two LEDs of {forward_voltage} side by side; the curve of each has a slope of {dynamic_resistance}, cold. Each"
        " has {thermal_resistance} to the air, and its voltage changes by {voltage_coefficient}. By how many per cent"
        " is the difference of their currents larger once each has warmed itself?",
        _warm, "%", lambda q: 100 * (q.dynamic_resistance / _warm_slope(q) - 1),
        work=(
            By("branch_resistance", lambda q: _single(q)),
            Sum(lambda q: f"100 × ({q.dynamic_resistance:g} Ω / {_warm_slope(q):.4g} Ω − 1) %",
                "The same volts over fewer ohms:"),
        ),
        hints=("A milliampere more brings so many milliwatts, so many kelvins, so many millivolts less.",
               "Millivolts less for a milliampere more: warmth works like a resistance that is taken off the slope."),
        slips=(
            Slip("none", lambda q: 0.0, "The warmer one drops less and takes more still."),
            Slip("once round", lambda q: 100 * (1 - _warm_slope(q) / q.dynamic_resistance),
                 "You went round once. The current that warmth adds warms again, and so on: divide by what is left of"
                 " the slope."),
            Slip("sign", lambda q: 100 * (q.dynamic_resistance / (2 * q.dynamic_resistance - _warm_slope(q)) - 1),
                 "The coefficient is below zero: the ohms come off the slope, and the difference grows."),
        ),
        tolerance=_PERCENT,
    ),
    Question(
        "two_colours_in_series", LESSON, "Two colours in one string",
        "One string has {in_series} LEDs of {forward_voltage} and {second_in_series} of {second_forward_voltage} in"
        " series, in any order, behind a bridge whose diodes drop {diode_voltage}. At what voltage is the bridge held?",
        _colours, "V", lambda q: q.mixed_clamped_voltage,
        work=(By("mixed_clamped_voltage"),),
        hints=("In series all carry the same current, whatever their colour.",
               "Each drops what its colour drops; two diodes come on top."),
        slips=(
            Slip("diodes forgotten", lambda q: q.mixed_clamped_voltage - 2 * q.diode_voltage,
                 "The current passes two diodes as well."),
            Slip("all like the first",
                 lambda q: q.using("mixed_clamped_voltage", second_forward_voltage=q.forward_voltage),
                 "You reckoned all of them at {forward_voltage}."),
            Slip("the second left out", lambda q: q.using("mixed_clamped_voltage", second_in_series=0),
                 "The other {second_in_series} drop their volts too: nothing in a string is passed by."),
        ),
        tolerance=_VOLTS,
    ),
    Choice(
        "two_colours_side_by_side", LESSON, "Two LEDs side by side",
        "An LED of {forward_voltage} and one of {second_forward_voltage}, both stated at 20 mA, stand side by side"
        " without resistors and get {string_current_mean} together. Who takes the current?",
        _two_colours,
        {"first": "nearly all of it goes through the first", "both": "each takes about half",
         "second": "nearly all of it goes through the second"},
        lambda q: _taker(q),
        {
            "first": "Side by side they have one voltage. At that voltage, does the first one's curve already rise?",
            "second": "Side by side they have one voltage. At that voltage, does the second one's curve already rise?",
            "both": "One volt apart, the higher of the two carries next to nothing at the voltage at which the lower"
                    " one carries all.",
        },
        lambda q: "The first carries {} and the second {}, at {} in common.".format(
            *(shown(current, "A") for current in _split(q).currents), shown(_split(q).voltage, "V")),
        ("What do two parts side by side have in common, and what not?",
         "Go up with the voltage from nought. Whose curve begins to rise first, and does the voltage ever get to the"
         " other's?"),
    ),
    Choice(
        "dead_led_bridged", LESSON, "A dead LED bridged",
        "One of {in_series} LEDs of 3 V in one string is dead, behind a bridge and {dropper} on {voltage},"
        " {frequency}. With the lamp unplugged and proved empty it is bridged with a wire. Against the whole string,"
        " what does the current through the others do?",
        _bridged,
        {"none": "it rises, but by less than 3 %", "some": "it rises by 3 % to 10 %",
         "much": "it rises by more than 10 %", "falls": "it falls"},
        lambda q: _bridging(q),
        {
            "none": "Hold 3 V against what is left of the peak, √2 times {voltage} less {in_series} times 3 V: here"
                    " that is not much.",
            "some": "Hold 3 V against what is left of the peak, √2 times {voltage} less {in_series} times 3 V.",
            "much": "Hold 3 V against what is left of the peak, √2 times {voltage} less {in_series} times 3 V: that is"
                    " a good deal more.",
            "falls": "The dropper gets the volts that the dead one no longer takes; more pushes the current.",
        },
        lambda q: f"The solver finds {shown(_mean(q, 0), 'A')} with the whole string and {shown(_mean(q, 1), 'A')} with"
                  f" one LED less: {100 * (_mean(q, 1) / _mean(q, 0) - 1):+.1f} %. Each further one counts for more.",
        ("Three volts less across the string: who has them now?",
         "What pushes the current is the mains' peak less the string. By what part has that grown?"),
    ),
    Choice(
        "open_in_group", LESSON, "How much do the others get",
        "{in_series} groups of {in_parallel} LEDs side by side, all alike. One LED goes open. By how much does the"
        " current of the others in its group rise?",
        _opened,
        {"none": "not at all", "some": "by less than 40 %", "large": "by 40 % or more"},
        lambda q: "large" if _rise(q) >= _LARGE else "some",
        {
            "none": "The string's current is the same in every group, and this group has one LED less to carry it.",
            "some": "Share the current of {in_parallel} out among one less: with so few side by side that is much.",
            "large": "Share the current of {in_parallel} out among one less: with so many side by side each gets only a"
                     " little more.",
        },
        lambda q: f"One of {q.in_parallel} is gone: the others rise by 1/({q.in_parallel} − 1), {100 * _rise(q):.0f} %."
                  " Where one LED was near its limit, the next one may follow.",
        ("What does the string's current do, when a single LED of many goes open?",
         "So the current of {in_parallel} is carried by one less."),
    ),
)  # fmt: skip


def _held(q):
    return {"imbalance": q.limit / 100, "junction_current": q.string_current_mean / 2}


def _ohms(q):
    return q.using("branch_resistor_for_imbalance", **_held(q))


def _single(q):
    return {"in_series": 1, "branch_resistor": 0.0, "junctions": 1}


def _warm_slope(q):
    return q.using("branch_resistance", **_single(q))


def _split(q):
    from ..lamp import Led
    from ..sharing import Branch, share

    pair = [Branch.of(Led(volts, 0.020, 8.0)) for volts in (q.forward_voltage, q.second_forward_voltage)]
    return share(pair, q.string_current_mean)


def _taker(q):
    first, second = _split(q).shares
    return "first" if first > _ALL else "second" if second > _ALL else "both" if max(first, second) < _EQUAL else ""


def _mean(q, less):
    return settled(q.voltage, q.frequency, q.dropper, q.in_series - less).string_current_mean


def _bridging(q):
    rise = _mean(q, 1) / _mean(q, 0) - 1
    return "falls" if rise < 0 else "none" if rise < _SOME else "some" if rise <= _MUCH else "much"


def _rise(q):
    return q.using("shared_current", string_current_mean=1.0, opened=1) * q.in_parallel - 1
