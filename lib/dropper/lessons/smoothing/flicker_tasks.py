"""Tasks of lesson 4 on the published lines of flicker, and on what more smoothing does to the mean."""

from ..tasks.lamps import direction, steady_lamp
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import part
from ..tasks.solution import SumStep

LESSON = 4
_LINE = Tolerance(
    "A tenth of a point is allowed: the limit goes with the frequency, and 8 % at 100 Hz is not 8.2 % at 102 Hz.",
    relative=0.0,
    absolute=0.1,
)
_NOTICED = 0.10
_SHALLOW, _DEEP = 10.0, 50.0  # percent flicker

TASKS = (
    Question(
        "low_risk",
        LESSON,
        "The line of low risk",
        "A lamp with a bridge runs on {frequency}. Up to how much percent flicker does IEEE 1789-2015 call its light of"
        " low risk?",
        lambda chance: {"frequency": chance.choice((48.0, 49.0, 50.0, 51.0, 52.0, 55.0, 57.0, 58.0, 60.0, 62.0))},
        "%",
        lambda q: _line("low_risk", 2 * q.frequency),
        solution=(
            SumStep(
                lambda q: f"{_slope(q):g} % × 2 × {q.frequency:g}",
                "From 90 Hz on, so much for each hertz of the light:",
            ),
        ),
        hints=(
            "Behind a bridge the light swings at twice the mains frequency.",
            "From 90 Hz up to 1250 Hz the line of low risk is 0.08 times the frequency.",
        ),
        slips=(
            Slip(
                "mains frequency",
                lambda q: _line("low_risk", q.frequency),
                "The light swings at twice {frequency}, and there another line holds.",
            ),
            Slip(
                "mains frequency on the right line",
                lambda q: _line("low_risk", 2 * q.frequency) / 2,
                "The light swings at twice {frequency}.",
            ),
            Slip(
                "no effect",
                lambda q: _line("no_effect", 2 * q.frequency),
                "That is the line of no observable effect, which is stricter.",
            ),
        ),
        tolerance=_LINE,
    ),
    Choice(
        "which_line",
        LESSON,
        "On which side of the lines",
        "A lamp with a bridge on {frequency} has a percent flicker of {limit}. Where does that lie in IEEE 1789-2015?",
        lambda chance: {
            "frequency": chance.choice((50.0, 60.0)),
            "limit": chance.choice((0.5, 1.0, 1.5, 2.0, 2.5, 5.0, 5.5, 6.0, 7.0, 12.0, 15.0, 20.0, 30.0)),
        },
        {
            "none": "at or below the line of no observable effect",
            "low": "between the lines: low risk",
            "above": "above the line of low risk",
        },
        lambda q: _side(q),
        {
            "none": "For that it would have to be at 0.0333 % for each hertz of the light, or less.",
            "low": "Between the lines lies what is above 0.0333 % and at most 0.08 % for each hertz of the light.",
            "above": "For that it would have to be above 0.08 % for each hertz of the light. The light has twice the"
            " mains frequency.",
        },
        lambda q: (
            f"At {2 * q.frequency:g} Hz no effect ends at {_line('no_effect', 2 * q.frequency):.3g} %, low risk at"
            f" {_line('low_risk', 2 * q.frequency):.3g} %; the lamp has {q.limit:g} %."
        ),
        (
            "How fast does the light swing behind a bridge on {frequency}?",
            "From 90 Hz on the lines are 0.0333 and 0.08 times the frequency of the light.",
        ),
    ),
    Choice(
        "few_microfarads",
        LESSON,
        "Are so many microfarads enough?",
        "A lamp of {in_series} LEDs of 3 V each in one string has a dropper of {dropper} and {smoothing} of"
        " smoothing, on {voltage}, {frequency}. How large is the percent flicker of the LED current?",
        lambda chance: {
            "voltage": 230.0,
            "frequency": 50.0,
            "dropper": part(chance, 6, 220e-9, 470e-9),
            "in_series": chance.randint(16, 36),
            "smoothing": chance.choice((2.2e-6, 3.3e-6, 4.7e-6, 22e-6, 33e-6, 220e-6, 330e-6)),
        },
        {"hardly": "below 10 %", "some": "10 % to 50 %", "deep": "above 50 %"},
        lambda q: _depth(_settled(q, 1).percent_flicker),
        {
            "hardly": "So few microfarads are not enough. Around its working point the string has few ohms, far fewer"
            " than volts over amperes: a small ripple of the bus moves its current much.",
            "some": "Hold the smoothing capacitor's reactance at twice {frequency} against the few hundred ohms that"
            " such a string has around its working point.",
            "deep": "With so much smoothing the bus ripples little, and the current with it.",
        },
        lambda q: (
            f"The solver finds a current between {_settled(q, 1).string_current.min() * 1e3:.3g} mA and"
            f" {_settled(q, 1).string_current.max() * 1e3:.3g} mA: a percent flicker of"
            f" {_settled(q, 1).percent_flicker:.0f} %."
        ),
        (
            "What counts is not volts over amperes, but how much the current moves for a small change of the volts.",
            "That dynamic resistance is some ten ohms for each LED. Hold it against the capacitor's reactance.",
        ),
    ),
    Choice(
        "brighter_by_smoothing",
        LESSON,
        "More smoothing",
        "The smoothing capacitor of a lamp with {in_series} LEDs in series and a dropper of {dropper} on {voltage}"
        " is changed from {smoothing} to ten times as much. What does the mean current of the LEDs do?",
        lambda chance: {
            "voltage": 230.0,
            "frequency": 50.0,
            "dropper": part(chance, 6, 330e-9, 1e-6),
            "in_series": chance.randint(18, 40),
            "smoothing": part(chance, 6, 4.7e-6, 15e-6),
        },
        {"rises": "it rises clearly", "same": "it stays within a tenth", "falls": "it falls clearly"},
        lambda q: direction(*(_settled(q, times).string_current_mean for times in (1, 10)), _NOTICED),
        {
            "rises": "A smoothing capacitor stores charge and gives it back. The charge itself comes through the"
            " dropper, and that is the same.",
            "falls": "What goes into the smoothing capacitor comes out again; none of it is lost.",
            "same": "Here the ripple is so deep that it shifts the mean.",
        },
        lambda q: (
            f"The mean is {_settled(q, 1).string_current_mean * 1e3:.3g} mA before and"
            f" {_settled(q, 10).string_current_mean * 1e3:.3g} mA after; the percent flicker goes from"
            f" {_settled(q, 1).percent_flicker:.0f} % to {_settled(q, 10).percent_flicker:.0f} %."
        ),
        (
            "What sets how much charge comes through in each half cycle?",
            "In the steady state nothing stays in the smoothing capacitor from cycle to cycle.",
        ),
    ),
)


def _line(name, frequency):
    from ... import standards

    return getattr(standards, f"{name}_modulation")(frequency)


def _slope(q):
    """Per cent for each hertz on the line of low risk."""
    return _line("low_risk", 2 * q.frequency) / (2 * q.frequency)


def _side(q):
    from ...standards import modulation_verdict

    word = modulation_verdict(q.limit, 2 * q.frequency).word
    return {"no effect": "none", "low risk": "low", "over": "above"}[word]


def _depth(flicker):
    return "hardly" if flicker < _SHALLOW else "deep" if flicker > _DEEP else "some"


def _settled(q, times):
    return steady_lamp(q.voltage, q.frequency, q.dropper, q.in_series, times * q.smoothing)
