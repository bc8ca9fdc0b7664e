"""Tasks of lesson 7, second part: one part gone wrong, and what the lamp does then."""

from ..tasks.lamps import before_and_after
from ..tasks.question import Choice, Question, Slip
from ..tasks.random_values import bridge_lamp, part, value_text
from ..tasks.solution import TheoryStep

LESSON = 7
# What `SteadyState.word` says, with its bounds; a test holds the two together.
WORDS = {
    "dark": "dark: below 1 % of the string current before",
    "dim": "dimmer: below 95 % of it",
    "same": "the same to the eye: within 5 % of it",
    "brighter": "brighter: 5 % to 50 % more",
    "over": "more than half more: the string is overdriven",
}
_FULL = 90.0  # percent flicker of light that all but goes out between


def _lamp(chance):
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 470e-9),
        "in_series": chance.randint(12, 26),
        "smoothing": part(chance, 6, 22e-6, 68e-6),
    }


def _with_bleeder(chance):
    return _lamp(chance) | {"bleeder": part(chance, 6, 330e3, 2.2e6)}


def _with_resistor(chance):
    return _lamp(chance) | {"inrush_resistor": part(chance, 6, 47, 220), "in_series": chance.randint(20, 50)}


def _some_short(chance):
    """Few short groups, some, or most of a long string; well away from where the words change."""
    pairs = ((20, 2), (24, 2), (30, 3), (24, 12), (30, 15), (40, 12), (45, 15), (70, 35), (75, 45))
    whole, short = chance.choice(pairs)
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 680e-9),
        "in_series": whole,
        "more": short,
    }


def _aged(chance):
    return _lamp(chance) | {"lost": float(chance.choice((1, 2, 3, 8, 10, 20, 30, 40, 50, 60)))}


def _pump(chance):
    values = bridge_lamp(chance, 0.2, 0.6)
    values["string_voltage"] = values.pop("clamped_voltage")
    return values | {"diode_voltage": chance.choice((0.7, 0.8, 0.9))}


TASKS = (
    Question(
        "one_diode_short",
        LESSON,
        "One diode short",
        "A lamp on {voltage}, {frequency} with {dropper} has a string of {string_voltage} behind its bridge, whose"
        " diodes drop {diode_voltage} each. One of the four goes short. What mean current do the LEDs still get?",
        _pump,
        "A",
        lambda q: _pumped(q),
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("half_wave_current", lambda q: {"output_voltage": q.string_voltage}),
        ),
        hints=(
            "In one half cycle the current now takes the short cut past the string: the dropper charges to nearly"
            " the peak.",
            "In the other half cycle it passes the string. Once a period the dropper's voltage goes from one peak to"
            " the other, less the string and two drops.",
        ),
        slips=(
            Slip("as before", lambda q: _bridged(q), "That is what the LEDs had with a whole bridge."),
            Slip(
                "half",
                lambda q: _bridged(q) / 2,
                "It is more than half: in the half cycle past the string the dropper charges to the whole peak.",
            ),
            Slip(
                "V over Xc",
                lambda q: q.short_circuit_current,
                "That is mains over reactance: the line current does rise towards it, the LEDs' does not.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("half_wave_current", output_voltage=q.string_voltage, peak_voltage=q.voltage),
                "You took the rms volts; the dropper swings between the peaks.",
            ),
            Slip(
                "nothing",
                lambda q: 0.0,
                "It is not dark. In one half cycle the current still passes the string, and it pumps more than half.",
            ),
        ),
    ),
    Choice(
        "diode_open",
        LESSON,
        "One diode open",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper} without a bleeder, on {voltage},"
        " {frequency}. One of the four diodes goes open. What does the mean current of the LEDs become, against what"
        " it was?",
        _lamp,
        WORDS,
        lambda q: _word(q, "open", "D1"),
        {
            "dark": "Here charge still finds a way back.",
            "dim": "Half of the bridge is left, but not half of the light: the dropper lets no current through that"
            " always flows the same way. It charges up and stops.",
            "same": "One half cycle has lost its way. And without it the dropper cannot give back what the other half"
            " cycle put on it.",
            "brighter": "Nothing here pushes more charge. How is the dropper to get rid of a half cycle's charge?",
            "over": "Nothing here pushes more charge. How is the dropper to get rid of a half cycle's charge?",
        },
        lambda q: _told(q, "open", "D1"),
        (
            "In which direction can current still flow in the line?",
            "A capacitor blocks direct current. What becomes of the dropper's voltage after some half cycles that all"
            " push the same way?",
        ),
    ),
    Choice(
        "bleeder_open",
        LESSON,
        "The bleeder open",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper} with a bleeder of {bleeder}, on"
        " {voltage}, {frequency}. The bleeder goes open. What does the mean current of the LEDs become, against what"
        " it was?",
        _with_bleeder,
        WORDS,
        lambda q: _word(q, "open", "bleeder"),
        {
            "dark": "The bleeder carries next to nothing of the lamp's current.",
            "dim": "Its ohms are a hundred times the dropper's reactance and more: it carries next to nothing.",
            "same": "Here the bleeder did carry a good part of the current.",
            "brighter": "It took next to nothing from the LEDs; nothing is gained without it.",
            "over": "It took next to nothing from the LEDs; nothing is gained without it.",
        },
        lambda q: (
            _told(q, "open", "bleeder") + " In use nothing tells of it; only the voltage left after unplugging"
            " does, and measuring that is for those who are allowed to."
        ),
        (
            "How many ohms has the bleeder against the dropper's reactance?",
            "What is the bleeder for, and when does it do its work?",
        ),
    ),
    Choice(
        "smoothing_open",
        LESSON,
        "The smoothing capacitor open",
        "{in_series} LEDs of 3 V each in series behind a bridge, {dropper} and {smoothing} of smoothing, on"
        " {voltage}, {frequency}. The smoothing capacitor goes open. What does the light do?",
        _lamp,
        {
            "dark": "it goes out",
            "dim": "it falls clearly, and is as steady as before",
            "flicker": "its mean stays within 5 %, but between the half cycles it goes out",
            "same": "its mean stays within 5 %, and it is as steady as before",
            "brighter": "its mean rises clearly",
        },
        lambda q: _smoothless(q),
        {
            "dark": "The current still passes bridge and string; only its store is gone.",
            "dim": "What comes through the dropper in each half cycle still reaches the string, and no less of it.",
            "flicker": "Here the string's current never falls to nought.",
            "same": "Its store is gone: while the bridge rests the string gets nothing, a hundred times a second.",
            "brighter": "A store adds nothing to the mean, and its loss takes next to nothing away.",
        },
        lambda q: (
            _told(q, "open", "smoothing") + f" The percent flicker goes from {_flickers(q)[0]:.0f} % to"
            f" {_flickers(q)[1]:.0f} %."
        ),
        ("What sets the mean current of the string?", "And who feeds the string while the bridge rests?"),
    ),
    Choice(
        "groups_short",
        LESSON,
        "Some LEDs short",
        "{in_series} LEDs of 3 V each in one string behind a bridge and {dropper}, on {voltage}, {frequency}. {more}"
        " of them go short. What does the mean current of the others become, against what it was?",
        _some_short,
        WORDS,
        lambda q: _word(q, "short", "groups", q.more),
        {
            "dark": "A short LED lets the current through; the others stay lit.",
            "dim": "Fewer LEDs hold the bridge at less: more is left to push the current, not less.",
            "same": "Hold {more} times 3 V against the mains' peak less the string: that is by how much it rises.",
            "brighter": "Hold {more} times 3 V against the mains' peak less the string: that is by how much it rises.",
            "over": "It does rise. But hold {more} times 3 V against the mains' peak less the string.",
        },
        lambda q: _told(q, "short", "groups", q.more),
        (
            "What do the volts do that the short LEDs no longer take?",
            "The rise is those volts over what pushed the current before: the mains' peak less the string.",
            "Compare {more} times 3 V with √2 times {voltage} less {in_series} times 3 V.",
        ),
    ),
    Choice(
        "dropper_lost",
        LESSON,
        "A dropper that has shrunk",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, on {voltage}, {frequency}. Over the"
        " years the dropper has lost {lost} of its capacitance. What has the mean current of the LEDs become,"
        " against what it was?",
        _aged,
        WORDS,
        lambda q: _word(q, "lost", "dropper", q.lost / 100),
        {
            "dark": "Less capacitance is less current, not none.",
            "dim": "It is less by {lost}: that is within the 5 % here.",
            "same": "The current follows the capacitance in proportion: it is less by about {lost}.",
            "brighter": "A smaller capacitor has more reactance and lets less current through, not more.",
            "over": "A smaller capacitor has more reactance and lets less current through, not more.",
        },
        lambda q: _told(q, "lost", "dropper", q.lost / 100),
        (
            "How does the charge of each half cycle follow the capacitance?",
            "In proportion. Hold {lost} against the 5 % of the answers.",
        ),
    ),
    Choice(
        "output_short",
        LESSON,
        "A short at the output",
        "{in_series} LEDs of 3 V each in series behind a bridge, {dropper} and {inrush_resistor}, on {voltage},"
        " {frequency}. The string is shorted as a whole. What does the heat of all parts together do, the LEDs among"
        " them?",
        _with_resistor,
        {"falls": "it falls below half", "less": "it falls, but not below half", "rises": "it rises"},
        lambda q: _heat_changes(q),
        {
            "rises": "The line current rises a little, but it now meets no volts that it could turn to heat: the"
            " dropper takes them, and gives back what it takes.",
            "less": "Only resistor and diodes are left to make heat. What were the LEDs' watts against theirs?",
            "falls": "Here the resistor makes more heat than the LEDs did.",
        },
        lambda q: "The solver finds {:.3g} W before and {:.3g} W with the short.".format(*_heats(q)),
        (
            "Heat is volts times amperes in step. Which part still has both?",
            "A short takes amperes and no volts; the dropper has both, but a quarter of a period apart.",
        ),
    ),
)


def _pumped(q):
    return q.using("half_wave_current", output_voltage=q.string_voltage)


def _bridged(q):
    clamped = q.using("clamped_voltage", string_voltage=q.string_voltage)
    return q.using("mean_string_current", clamped_voltage=clamped)


def _word(q, *fault):
    return before_and_after(q, *fault)[1].word


def _told(q, *fault):
    before, after = (value_text(settled.string_current_mean, "A") for settled in before_and_after(q, *fault))
    return f"The solver finds a mean of {before} before and {after} with the fault."


def _flickers(q):
    return tuple(settled.percent_flicker for settled in before_and_after(q, "open", "smoothing"))


def _smoothless(q):
    word = _word(q, "open", "smoothing")
    if word == "same" and _flickers(q)[1] > _FULL:
        return "flicker"
    return "brighter" if word == "over" else word


def _heats(q):
    return tuple(sum(settled.heat.values()) for settled in before_and_after(q, "short", "smoothing"))


def _heat_changes(q):
    before, after = _heats(q)
    return "rises" if after > before else "falls" if after < before / 2 else "less"
