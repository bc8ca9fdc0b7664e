"""Tasks of lesson 8, second part: what the years take from electrolytics and from the dropper."""

from ...components.kinds import LIVES
from ..tasks.lamps import before_and_after, direction
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, part, value_text
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 8
_LIFE = Tolerance("5 % is allowed: the rule itself is a rule of thumb.", relative=0.05)
_HALF_DEGREE = Tolerance("Half a degree is allowed: it makes 4 % of the life.", relative=0.0, absolute=0.5)
_NOTICED = 0.10
_DAYS = 365


def _warm_can(chance, coolest=50):
    grade = chance.choice([grade for grade in LIVES if grade.hours < 10000])
    cooler = chance.choice(range(25, coolest + 5, 5))
    return {
        "rated_life": grade.hours,
        "rated_temperature": grade.temperature,
        "temperature": grade.temperature - cooler,
    }


def _on_a_day(chance):
    return _warm_can(chance, 40) | {"hours_a_day": float(chance.choice((4, 5, 6, 8, 10, 12)))}


def _mix(chance):
    low = chance.choice((35, 40, 45, 50))
    return {
        "first_hours": float(chance.choice((4, 6, 8, 10))),
        "second_temperature": float(low),
        "first_temperature": float(low + chance.choice((20, 25, 30, 35))),
    }


def _faded(chance):
    return bridge_lamp(chance, least=330e-9) | {"lost": float(chance.choice((10, 15, 20, 25, 30, 35, 40, 45, 55, 60)))}


def _yearly(chance):
    return {
        "dropper": part(chance, 6, 330e-9, 1.5e-6),
        "yearly": float(chance.choice((4, 5, 6, 7, 8, 9, 10))),
        "years": chance.randint(6, 12),
    }


def _old_lamp(chance):
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 470e-9),
        "in_series": chance.randint(22, 50),
        "lost": float(chance.choice((20, 25, 30, 35, 40))),
    }


TASKS = (
    Question(
        "electrolytic_life",
        LESSON,
        "Life of a smoothing capacitor",
        "An electrolytic capacitor is stated to last {rated_life} at {rated_temperature}. In a lamp it has"
        " {temperature}. How many hours does it last there, if each 10 K less doubles its life?",
        _warm_can,
        "h",
        lambda q: q.electrolytic_life,
        solution=(TheoryStep("electrolytic_life"),),
        hints=("How many times 10 K is it cooler than stated?", "So many times its life doubles."),
        slips=(
            Slip(
                "wrong way",
                lambda q: q.rated_life**2 / q.electrolytic_life,
                "You halved it; a cooler capacitor lasts longer.",
            ),
            Slip(
                "times two for each",
                lambda q: q.rated_life * 2 * _steps(q),
                "You added up the doublings. Each one doubles what the one before has made: 2, 4, 8.",
            ),
            Slip(
                "in proportion",
                lambda q: q.rated_life * q.rated_temperature / q.temperature,
                "Life does not follow the degrees in proportion; it doubles with each 10 K.",
            ),
            Slip(
                "as stated",
                lambda q: q.rated_life,
                "That is its life at {rated_temperature}; in the lamp it is cooler.",
            ),
        ),
        tolerance=_LIFE,
    ),
    Question(
        "life_in_years",
        LESSON,
        "In years",
        "An electrolytic capacitor is stated to last {rated_life} at {rated_temperature}. In a lamp it has"
        " {temperature}, and the lamp is on for {hours_a_day} a day. How many years does it last, if each 10 K less"
        " doubles its life and nothing wears it while the lamp is off?",
        _on_a_day,
        "years",
        lambda q: q.electrolytic_life / (q.hours_a_day * _DAYS),
        solution=(
            TheoryStep("electrolytic_life"),
            SumStep(
                lambda q: f"{q.electrolytic_life:.0f} h / ({q.hours_a_day:g} h × {_DAYS})",
                "Divided by the hours of a year. (By the rule alone: beyond some 15 years nobody trusts it.)",
            ),
        ),
        hints=("How many hours does it last at {temperature}?", "A year has 365 times {hours_a_day}."),
        slips=(
            Slip(
                "always on",
                lambda q: q.electrolytic_life / (24 * _DAYS),
                "You let it burn day and night; it is on for {hours_a_day} a day.",
            ),
            Slip("days", lambda q: q.electrolytic_life / q.hours_a_day, "Those are days; a year has 365 of them."),
            Slip(
                "as stated",
                lambda q: q.rated_life / (q.hours_a_day * _DAYS),
                "You took the life at {rated_temperature}; in the lamp it is cooler and lasts longer.",
            ),
            Slip(
                "times two for each",
                lambda q: q.rated_life * 2 * _steps(q) / (q.hours_a_day * _DAYS),
                "You added up the doublings. Each one doubles what the one before has made: 2, 4, 8.",
            ),
        ),
        tolerance=_LIFE,
    ),
    Question(
        "mixed_temperature",
        LESSON,
        "Warm by day, cool by night",
        "A lamp is always on. For {first_hours} a day its smoothing capacitor has {first_temperature}, for the rest of"
        " the 24 hours {second_temperature}. Which steady temperature would wear it as fast, if each 10 K more halves"
        " its life?",
        _mix,
        "°C",
        lambda q: q.using("equivalent_temperature", first_share=_share(q)),
        solution=(
            TextStep(
                lambda q: (
                    f"At the first temperature it spends {q.first_hours:g} h / 24 h = {_share(q):.4g} of the time."
                )
            ),
            TheoryStep("equivalent_temperature", lambda q: {"first_share": _share(q)}),
        ),
        hints=(
            "Not the degrees are to be averaged, but the wear.",
            "Wear doubles with each 10 K: average 2 to the power of degrees over 10, then turn it back.",
        ),
        slips=(
            Slip(
                "mean of the degrees",
                lambda q: _share(q) * q.first_temperature + (1 - _share(q)) * q.second_temperature,
                "You averaged the degrees. The warm hours wear far more than the cool ones save.",
            ),
            Slip(
                "shares swapped",
                lambda q: q.using("equivalent_temperature", first_share=1 - _share(q)),
                "You gave the warm temperature the hours of the cool one.",
            ),
            Slip(
                "half and half",
                lambda q: q.using("equivalent_temperature", first_share=0.5),
                "You let both last 12 hours; the warm one lasts {first_hours}.",
            ),
            Slip(
                "the warmer",
                lambda q: q.first_temperature,
                "That would be so if it were warm all day. The cool hours do save something.",
            ),
        ),
        tolerance=_HALF_DEGREE,
    ),
    Question(
        "faded_current",
        LESSON,
        "Current of an old lamp",
        "A lamp on {voltage}, {frequency} was built with {dropper}; its string holds the bridge at {clamped_voltage}."
        " Over the years the dropper has lost {lost} of its capacitance. What mean current do the LEDs get now?",
        _faded,
        "A",
        lambda q: q.using("mean_string_current", dropper=_remaining(q)),
        solution=(
            TextStep(
                lambda q: (
                    f"{q.lost:g} % of {value_text(q.dropper, 'F')} lost: {value_text(_remaining(q), 'F', 4)} is left."
                )
            ),
            TheoryStep("peak_voltage"),
            TheoryStep("mean_string_current", lambda q: {"dropper": _remaining(q)}),
        ),
        hints=(
            "Current and light follow the capacitance in proportion.",
            "What it has lost is missing; what is left counts.",
        ),
        slips=(
            Slip("as built", lambda q: q.mean_string_current, "That is the current of the lamp as it was built."),
            Slip(
                "what is lost",
                lambda q: q.using("mean_string_current", dropper=q.dropper * q.lost / 100),
                "That is what is missing; what is left is asked for.",
            ),
            Slip(
                "squared",
                lambda q: q.using("mean_string_current", dropper=_remaining(q) * (1 - q.lost / 100)),
                "The current follows the capacitance in proportion, not its square: the string's volts stay.",
            ),
            Slip(
                "rms for mean",
                lambda q: q.using("line_current_rms", dropper=_remaining(q)),
                "That is the rms line current; the LEDs follow the mean.",
            ),
        ),
    ),
    Question(
        "capacitance_left",
        LESSON,
        "A loss each year",
        "A scenario: in a lamp each year takes {yearly} of the capacitance that the dropper still has. It was {dropper}"
        " when new. How much is left after {years} years?",
        _yearly,
        "F",
        lambda q: q.using("remaining_capacitance", loss_each_year=q.yearly / 100),
        solution=(
            TextStep(lambda q: f"{q.yearly:g} % is {q.yearly / 100:g}."),
            TheoryStep("remaining_capacitance", lambda q: {"loss_each_year": q.yearly / 100}),
        ),
        hints=(
            "It is like interest, only downwards: each year takes its part of less.",
            "Multiply once for each year by what a year leaves.",
        ),
        slips=(
            Slip(
                "straight line",
                lambda q: q.dropper * (1 - q.years * q.yearly / 100),
                "You took the same amount away each year. Each year takes {yearly} of what is left by then.",
            ),
            Slip(
                "what is lost",
                lambda q: q.dropper - q.using("remaining_capacitance", loss_each_year=q.yearly / 100),
                "That is what is lost; what is left is asked for.",
            ),
            Slip("one year", lambda q: q.dropper * (1 - q.yearly / 100), "That is what one year leaves."),
        ),
    ),
    Choice(
        "factor_with_age",
        LESSON,
        "An old lamp on the meter",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, on {voltage}, {frequency}. The"
        " dropper has lost {lost} of its capacitance. A plug-in meter shows fewer milliamperes and fewer watts. And"
        " the power factor?",
        _old_lamp,
        {"falls": "it falls in the same proportion", "same": "it stays within a tenth", "rises": "it rises clearly"},
        lambda q: direction(*(settled.power_factor for settled in _aged(q)), _NOTICED),
        {
            "falls": "Watts and volt-amperes fall together, so what one is over the other stays. The power factor hangs"
            " on the string's volts against the mains' peak, and those have hardly changed.",
            "rises": "Less capacitance makes every current smaller in the same proportion, the useful part of it too.",
            "same": "Here the string's volts have changed clearly with the current.",
        },
        lambda q: (
            "The solver finds "
            + ", and ".join(
                f"{settled.line_current_rms * 1e3:.3g} mA, {settled.real_power:.3g} W, power factor"
                f" {settled.power_factor:.3f} {when}"
                for settled, when in zip(_aged(q), ("when new", "now"), strict=True)
            )
            + "."
        ),
        (
            "What does the power factor of such a lamp hang on: its capacitance, or the clamped voltage over the peak?",
            "Current and watts both follow the capacitance. What is one over the other?",
        ),
    ),
    Choice(
        "looks_good",
        LESSON,
        "It looks as new",
        "{in_series} LEDs of 3 V each in series behind a bridge, {dropper} and {smoothing} of smoothing, on"
        " {voltage}, {frequency}. After years the lamp is dimmer. At the plug the milliamperes have fallen by {lost}"
        " since it was new. The dropper looks as new, and its insulation is perfect. What explains all of that?",
        lambda chance: _old_lamp(chance) | {"smoothing": part(chance, 6, 22e-6, 68e-6)},
        {
            "dropper": "the dropper: it has lost capacitance",
            "smoothing": "the smoothing capacitor: it has dried out",
            "leds": "the LEDs: they give less light for their current",
        },
        lambda q: _explanation(q),
        {
            "dropper": "A dropper that had shrunk would have taken the current down with it.",
            "smoothing": "A dried-out smoothing capacitor makes the light flicker. The current hardly changes.",
            "leds": "LEDs that fade take the same current as before. A film capacitor that looks good, and does not"
            " leak, can have lost half of its capacitance: only a capacitance meter tells.",
        },
        lambda q: (
            f"The solver finds a line current lower by {_line_lost(q, 'lost', 'dropper'):.0f} % if the dropper has lost"
            f" {q.lost:g} %, and by {_line_lost(q, 'dried out', 'smoothing'):.0f} % if the smoothing capacitor has."
            " With LEDs that only give less light it stays."
        ),
        (
            "Which part sets the current?",
            "What does the line current do if the LEDs give less light? And what if the dropper loses {lost}?",
        ),
    ),
    Choice(
        "worn_first",
        LESSON,
        "What fades, what flickers",
        "{in_series} LEDs of 3 V each in series behind a bridge, {dropper} and {smoothing} of smoothing, on"
        " {voltage}, {frequency}. After years its light has the same mean as when new, within a tenth, but flickers."
        " Which capacitor has dried out or shrunk by {lost}?",
        lambda chance: (
            _old_lamp(chance) | {"smoothing": part(chance, 6, 22e-6, 68e-6), "lost": float(chance.choice((80, 85, 90)))}
        ),
        {"dropper": "the dropper", "smoothing": "the smoothing capacitor"},
        lambda q: _culprit(q),
        {
            "dropper": "A dropper that has lost {lost} gives that much less light; the mean would not be the same.",
            "smoothing": "A dried-out smoothing capacitor leaves the mean as it is.",
        },
        lambda q: (
            f"The solver finds a mean of {_share_left(q, 'lost', 'dropper'):.0f} % of that when new if the dropper has"
            f" lost {q.lost:g} %, and of {_share_left(q, 'dried out', 'smoothing'):.0f} % if the smoothing capacitor"
            " has."
        ),
        ("Which of the two sets the mean current, and which one only evens it out?",),
    ),
)


def _steps(q):
    """How many times 10 K it is cooler than stated."""
    return (q.rated_temperature - q.temperature) / 10


def _share(q):
    return q.first_hours / 24


def _remaining(q):
    return q.dropper * (1 - q.lost / 100)


def _aged(q):
    return before_and_after(q, "lost", "dropper", q.lost / 100)


def _share_left(q, kind, part_lost):
    """Mean string current with one of the two worn, in per cent of what it was."""
    before, after = before_and_after(q, kind, part_lost, q.lost / 100)
    return 100 * after.string_current_mean / before.string_current_mean


def _line_lost(q, kind, part_lost):
    """How much lower the line current is with one of the two worn, in per cent."""
    before, after = before_and_after(q, kind, part_lost, q.lost / 100)
    return 100 * (1 - after.line_current_rms / before.line_current_rms)


def _explanation(q):
    lower = {
        "dropper": _line_lost(q, "lost", "dropper"),
        "smoothing": _line_lost(q, "dried out", "smoothing"),
        "leds": 0.0,
    }
    return min(lower, key=lambda name: abs(lower[name] - q.lost))


def _culprit(q):
    shares = {"dropper": _share_left(q, "lost", "dropper"), "smoothing": _share_left(q, "dried out", "smoothing")}
    return min(shares, key=lambda name: abs(shares[name] - 100))
