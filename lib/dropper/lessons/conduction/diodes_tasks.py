"""Tasks of lesson 3 that are a choice: which diodes conduct, with another string, and with one of them open."""

import math

from ..tasks.lamps import before_and_after, lamp
from ..tasks.question import Choice
from ..tasks.random_values import bridge_lamp, part, value_text

LESSON = 3
# Strings of a fifth, a half and four fifths of the peak at 230 V, with moments well away from where they change.
_MOMENTS = (
    ((20, 23), (10, 20, 60, 110, 125, 165, 200, 240, 290, 305, 340)),
    ((51, 56), (25, 45, 65, 110, 130, 155, 205, 230, 250, 290, 310, 335)),
    ((82, 87), (15, 60, 75, 110, 150, 195, 240, 255, 290, 330)),
)


def _moment(chance):
    groups, moments = chance.choice(_MOMENTS)
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 330e-9, 1e-6),
        "in_series": chance.randint(*groups),
        "moment": float(chance.choice(moments)),
    }


def _two_strings(chance):
    values = bridge_lamp(chance, 0.15, 0.7)
    shift = chance.choice((-0.5, 0.25)) * values["clamped_voltage"]
    return values | {"string_voltage": 5.0 * round((values["clamped_voltage"] + shift) / 5.0)}


TASKS = (
    Choice(
        "which_pair",
        LESSON,
        "Which pair conducts",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, on {voltage}, {frequency}. Which"
        " diodes conduct {moment} after the mains' rise through zero? (D1 and D4 serve the positive half cycle.)",
        _moment,
        {"positive": "D1 and D4", "negative": "D2 and D3", "none": "none of them"},
        lambda q: _seen(q).conducting or "none",
        {
            "positive": "D1 and D4 conduct from where mains and dropper together reach the string, up to the positive"
            " crest at 90°, and no longer.",
            "negative": "D2 and D3 conduct from half a period after D1 and D4, up to the negative crest at 270°.",
            "none": "The dropper is still charged from the crest before and helps the mains, so conduction starts"
            " earlier than the mains alone would reach the string.",
        },
        lambda q: (
            f"D1 and D4 conduct from about {value_text(round(_seen(q).start), '°')} to"
            f" {value_text(round(_seen(q).end), '°')}, D2 and D3 half a period later."
            f" At {q.moment:g}° the line current is"
            f" {value_text(round(_seen(q).line_current, 6), 'A')}."
        ),
        (
            "Conduction ends at a crest: at 90° and at 270°.",
            "It starts where the mains reaches 2D − Vp; for the negative half cycle the same half a period later.",
            "D is about {in_series} times 3 V, and Vp is √2 times {voltage}. Find the start, and see where {moment}"
            " lies.",
        ),
    ),
    Choice(
        "other_string",
        LESSON,
        "Another string",
        "On {voltage} a string holds the bridge at {clamped_voltage}. It is changed for one that holds it at"
        " {string_voltage}. What happens to the time of conduction?",
        _two_strings,
        {"longer": "it grows", "same": "it stays", "shorter": "it shrinks"},
        lambda q: "longer" if _angle(q, q.string_voltage) > _angle(q, q.clamped_voltage) else "shorter",
        {
            "longer": "More volts of string have to be reached: the start is later, and the end stays at the crest.",
            "same": "Only the end stays, at the crest. The start moves with the string.",
            "shorter": "Fewer volts of string are reached sooner, and the end stays at the crest.",
        },
        lambda q: (
            f"It conducts for {_angle(q, q.clamped_voltage):.0f}° of each half cycle with {q.clamped_voltage:g} V, and"
            f" for {_angle(q, q.string_voltage):.0f}° with {q.string_voltage:g} V."
        ),
        ("Where does conduction end, with any string?", "The start moves. Towards the crest, or away from it?"),
    ),
    Choice(
        "diode_missing",
        LESSON,
        "Three diodes of four",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, without a bleeder, on {voltage},"
        " {frequency}. One diode of the bridge is open. After the first few cycles, when does current still flow in"
        " the line?",
        lambda chance: {
            "voltage": 230.0,
            "frequency": 50.0,
            "dropper": part(chance, 6, 220e-9, 1e-6),
            "in_series": chance.randint(14, 40),
        },
        {
            "as before": "in both half cycles, as before",
            "every other": "in every other half cycle: half the light is left",
            "never": "hardly ever: the lamp is dark",
        },
        lambda q: _left_of_three(q),
        {
            "as before": "The open diode and its partner carried one of the half cycles. That way is closed.",
            "every other": "One half cycle still has its way, but only until the dropper is full. A capacitor lets no"
            " current through that always flows the same way: what is never given back cannot come again.",
            "never": "Here the dropper still finds a way to give its charge back.",
        },
        lambda q: (
            "The solver finds a mean of {:.3g} mA in the string with four diodes and {:.1g} mA with three.".format(
                *(1e3 * settled.string_current_mean for settled in _with_and_without(q))
            )
        ),
        (
            "In which direction can current still flow in the line?",
            "Each half cycle turns the dropper's voltage over. What if nothing turns it back?",
        ),
    ),
)


def _angle(q, clamped_voltage):
    return math.degrees(q.using("conduction_angle", clamped_voltage=clamped_voltage))


def _seen(q):
    from .view import Moment, view_of

    return view_of(Moment(lamp(q.voltage, q.frequency, q.dropper, q.in_series, 47e-6), q.moment))


def _with_and_without(q):
    return before_and_after(q, "open", "D1")


def _left_of_three(q):
    return {"dark": "never", "same": "as before"}.get(_with_and_without(q)[1].word, "every other")
