"""Tasks of lesson 6, second part: what the dropper keeps after unplugging, and what rules say of it."""

import math

from ...circuit.series import preferred
from ..tasks.lamps import lamp_of
from ..tasks.question import Choice, Question, Slip
from ..tasks.random_values import mains, part
from ..tasks.solution import TextStep, TheoryStep

LESSON = 6
# Volts and seconds of published rules; a test holds them to `standards.TOUCH_RULES`.
HOUSEHOLD, OTHERS = (34.0, 1.0), ((34.0, 1.0), (60.0, 1.0), (60.0, 5.0))
_MOMENTS = ("moment", "other_moment", "third_moment")
_NO_PROOF = TextStep(
    lambda q: (
        "A figure for choosing parts. That a capacitor is empty is proved by measuring, each time, by those who are"
        " allowed to, as local codes ask."
    )
)


def _emptied(chance):
    """Mains, dropper and a bleeder that empties it in a second or so."""
    values = mains(chance) | {"dropper": part(chance, 6, 150e-9, 1e-6)}
    return values | {"bleeder": part(chance, 6, 0.3 / values["dropper"], 1.5 / values["dropper"])}


def _waited(chance):
    values = _emptied(chance)
    times = [seconds for seconds in (0.2, 0.5, 1.0, 2.0, 3.0) if 0.5 <= seconds / _tau(values) <= 2.5]
    return values | {"time": chance.choice(times)}


def _down_to(chance):
    return _emptied(chance) | {"limit_voltage": chance.choice((34.0, 50.0, 60.0))}


def _ruled(chance):
    limit, seconds = chance.choice((HOUSEHOLD, *OTHERS))
    return mains(chance) | {"dropper": part(chance, 6, 330e-9, 1.5e-6), "limit_voltage": limit, "time": seconds}


def _judged(chance):
    """A dropper and a bleeder whose product is well away from where a rule turns on mains of 220 V to 240 V."""
    values = {"voltage": chance.choice((220.0, 230.0, 240.0)), "frequency": 50.0}
    low, high = chance.choice(((0.1, 0.4), (0.48, 0.9), (1.1, 4.0)))
    pairs = [
        (farads, ohms)
        for farads in preferred(6, 150e-9, 1.5e-6)
        for ohms in preferred(6, 100e3, 10e6)
        if low <= farads * ohms <= high
    ]
    values["dropper"], values["bleeder"] = chance.choice(pairs)
    return values


def _tau(values):
    return values["bleeder"] * values["dropper"]


def _three_moments(chance):
    """One moment between a crest and the next conduction, one on the way up to a crest, one near zero."""
    moments = [
        chance.choice((100, 105, 110, 115, 120)) + chance.choice((0, 180)),
        chance.choice((40, 45, 50, 55, 60)) + chance.choice((0, 180)),
        chance.choice((0, 5, 180, 185)),
    ]
    chance.shuffle(moments)
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 1e-6),
        "in_series": chance.randint(15, 30),
        **dict(zip(_MOMENTS, map(float, moments), strict=True)),
    }


TASKS = (
    Question(
        "left_on_pins",
        LESSON,
        "Left in the dropper",
        "A lamp with a dropper of {dropper} and a bleeder of {bleeder} is unplugged at a crest of the mains,"
        " {voltage} rms. What voltage is left on the dropper after {time}, if it held all of the mains' peak?",
        _waited,
        "V",
        lambda q: q.residual_voltage,
        solution=(_NO_PROOF, TheoryStep("peak_voltage"), TheoryStep("residual_voltage")),
        hints=(
            "Bleeder times capacitance is a time; in each such time the voltage falls to 37 % of what it was.",
            "It starts from the peak, √2 times {voltage}, and falls by the exponential of {time} over that time.",
        ),
        slips=(
            Slip(
                "rms for peak",
                lambda q: q.using("residual_voltage", initial_voltage=q.voltage),
                "You started from the rms volts. At worst it is unplugged at a crest.",
            ),
            Slip(
                "straight line",
                lambda q: _down_a_line(q),
                "You let it fall in a straight line. The bleeder's current falls with the voltage, so it goes ever"
                " slower.",
            ),
            Slip(
                "what is gone",
                lambda q: q.peak_voltage - q.residual_voltage,
                "That is what the bleeder has taken away; what is left is asked for.",
            ),
            Slip(
                "halved each time constant",
                lambda q: q.peak_voltage * 2 ** (-q.time / (q.bleeder * q.dropper)),
                "In one bleeder times capacitance it falls to 37 %, not to a half.",
            ),
            Slip(
                "no bleeder",
                lambda q: q.peak_voltage,
                "That would be left without a bleeder, for hours. The bleeder is what empties the dropper once the plug"
                " is out.",
            ),
        ),
    ),
    Question(
        "time_to_limit",
        LESSON,
        "How long it takes",
        "A lamp with a dropper of {dropper} and a bleeder of {bleeder} is unplugged at a crest of the mains,"
        " {voltage} rms. After what time has the voltage fallen to {limit_voltage}?",
        _down_to,
        "s",
        lambda q: q.discharge_time,
        solution=(_NO_PROOF, TheoryStep("peak_voltage"), TheoryStep("discharge_time")),
        hints=(
            "How many times smaller than the mains' peak is {limit_voltage}?",
            "The natural logarithm of that number counts the times of bleeder times capacitance.",
        ),
        slips=(
            Slip(
                "rms for peak",
                lambda q: q.using("discharge_time", initial_voltage=q.voltage),
                "You started from the rms volts. At worst it is unplugged at a crest.",
            ),
            Slip(
                "common logarithm",
                lambda q: q.discharge_time / math.log(10),
                "That is the logarithm to base 10; an exponential asks for the natural one, 2.3 times as large.",
            ),
            Slip(
                "one time constant",
                lambda q: q.bleeder * q.dropper,
                "That is bleeder times capacitance: after it 37 % of the peak is left.",
            ),
            Slip(
                "five time constants",
                lambda q: 5 * q.bleeder * q.dropper,
                "Five times bleeder times capacitance is a rule for nearly empty; the limit is reached sooner.",
            ),
        ),
    ),
    Question(
        "bleeder_for_rule",
        LESSON,
        "The largest bleeder",
        "A rule asks that no more than {limit_voltage} be left {time} after unplugging. How large may the bleeder"
        " across a dropper of {dropper} be, on {voltage}, unplugged at a crest?",
        _ruled,
        "Ω",
        lambda q: q.largest_bleeder,
        solution=(_NO_PROOF, TheoryStep("peak_voltage"), TheoryStep("largest_bleeder")),
        hints=(
            "How many times smaller than the mains' peak is {limit_voltage}? Take the natural logarithm.",
            "Bleeder times capacitance may be {time} over that logarithm.",
        ),
        slips=(
            Slip(
                "time constant for time",
                lambda q: q.time / q.dropper,
                "You let bleeder times capacitance be {time}. Then 37 % of the peak would be left, too much here.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("largest_bleeder", initial_voltage=q.voltage),
                "You started from the rms volts, and the bleeder comes out too large. At worst it is a crest.",
            ),
            Slip(
                "common logarithm",
                lambda q: q.largest_bleeder * math.log(10),
                "That is the logarithm to base 10; an exponential asks for the natural one, 2.3 times as large.",
            ),
        ),
    ),
    Question(
        "held_charge",
        LESSON,
        "Charge left behind",
        "A lamp with a dropper of {dropper} is unplugged at a crest of the mains, {voltage} rms. How much charge"
        " does the dropper hold at worst? (IEC 60204-1 asks nothing of a machine's capacitors up to 60 µC.)",
        lambda chance: mains(chance) | {"dropper": part(chance, 12, 100e-9, 2.2e-6)},
        "C",
        lambda q: q.stored_charge,
        solution=(_NO_PROOF, TheoryStep("peak_voltage"), TheoryStep("stored_charge")),
        hints=("Capacitance is charge for each volt.", "At worst it holds the mains' peak."),
        slips=(
            Slip(
                "rms for peak",
                lambda q: q.using("stored_charge", initial_voltage=q.voltage),
                "You took the rms volts. At worst it is unplugged at a crest, and keeps that.",
            ),
            Slip(
                "peak to peak",
                lambda q: 2 * q.stored_charge,
                "That is the charge that moves while its voltage is turned over; held is half of it.",
            ),
            Slip("half", lambda q: q.stored_charge / 2, "The half belongs to the energy, not to the charge."),
        ),
    ),
    Choice(
        "rules_disagree",
        LESSON,
        "Two rules",
        "A dropper of {dropper} with a bleeder of {bleeder} across it, unplugged at a crest of the mains, {voltage}"
        " rms. Which rule is kept: no more than 37 % left after 1 s (IEC 60950-1, superseded), or no more than 34 V"
        " left after 1 s (IEC 60335-1)?",
        _judged,
        {"both": "both", "share": "only the 37 %", "volts": "only the 34 V", "neither": "neither"},
        lambda q: _kept(q),
        {
            "both": "34 V is about a tenth of the peak, and to get there takes more than twice as long as to 37 %."
            " Compare bleeder times capacitance with 1 s.",
            "share": "37 % is what is left after one time of bleeder times capacitance; 34 V after a bit more than two."
            " Count how many of them fit in 1 s.",
            "volts": "On this mains 34 V is less than 37 % of the peak: whoever keeps it keeps the other one too.",
            "neither": "After one time of bleeder times capacitance 37 % is left. Compare that time with 1 s.",
        },
        lambda q: f"After 1 s {_percent_left(q):.3g} % of the peak of {q.peak_voltage:.4g} V is left. {_said(q)}",
        (
            "How long is bleeder times capacitance?",
            "After that time 37 % is left. After how many of them 34 V?",
            "ln(Vp / 34 V) is 2.2 to 2.3 on this mains: in 1 s so many times {bleeder} times {dropper} have to fit.",
        ),
    ),
    Choice(
        "worst_unplugging",
        LESSON,
        "Which moment leaves most",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, on {voltage}, {frequency}, no bleeder"
        " across the dropper. At which of three moments after the mains' rise through zero does unplugging leave"
        " most in the dropper?",
        _three_moments,
        {"moment": "at {moment}", "other_moment": "at {other_moment}", "third_moment": "at {third_moment}"},
        lambda q: max(_MOMENTS, key=lambda name: _left(q, q.values[name])),
        {
            name: "Not the mains at {" + name + "} stays, but what the dropper holds then. It gets its most at a crest,"
            " and keeps it until the next conduction."
            for name in _MOMENTS
        },
        lambda q: (
            "The solver finds in the dropper "
            + ", ".join(
                f"{_left(q, q.values[name]):.3g} V after unplugging at {q.values[name]:g}°" for name in _MOMENTS
            )
            + "."
        ),
        (
            "What stays is what the dropper holds; the mains is gone.",
            "Until the crest the dropper is charged further. What happens to its charge from the crest on?",
            "Between a crest and the next conduction all diodes block, and the dropper keeps what it got.",
        ),
    ),
)


def _down_a_line(q):
    left = q.peak_voltage * (1 - q.time / (q.bleeder * q.dropper))
    return left if left > 0 else math.nan


def _checks(q):
    """What the two rules say, the superseded one first."""
    from ...bench.residual import judge

    checks = {check.rule.key: check for check in judge(q.dropper, q.bleeder, q.peak_voltage).checks}
    return checks["office, superseded"], checks["household"]


def _said(q):
    from ...bench.residual import CAUTION

    return " ".join([*(check.words for check in _checks(q)), CAUTION])


def _kept(q):
    within = tuple(check.word == "within" for check in _checks(q))
    return {(True, True): "both", (True, False): "share", (False, True): "volts", (False, False): "neither"}[within]


def _percent_left(q):
    return 100 * q.using("residual_voltage", time=1.0) / q.peak_voltage


def _left(q, angle):
    """Volts that the dropper holds a tenth of a second after unplugging."""
    from ...solver.transient import unplug

    return abs(float(unplug(lamp_of(q), angle, seconds=0.1).dropper_voltage[-1]))
