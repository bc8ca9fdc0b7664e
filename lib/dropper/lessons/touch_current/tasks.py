"""Tasks of lesson 7, third part: what flows through a person, and what an earth-leakage breaker makes of it."""

from ...standards import HOUSEHOLD_DEVICE, NO_LEAVE
from ..tasks.lamps import lamp_of
from ..tasks.question import Choice, Question, Slip
from ..tasks.random_values import mains, part, share_of_peak, value_text
from ..tasks.solution import TextStep, TheoryStep

LESSON = 7
_DEVICE = {
    "nothing": "it sees nothing of it",
    "stays on": "it must stay on: below half of its rating",
    "either": "it may trip or stay on: between half of its rating and all of it",
    "trips": "it must trip",
}
_WRONG_DEVICE = {
    "nothing": "This current leaves one wire of the mains and comes back over earth. The two wires differ by it.",
    "stays on": "Hold the current to earth against half of the device's rating.",
    "either": "Hold the current to earth against half of the device's rating, and against all of it.",
    "trips": "A device of 30 mA must trip at 30 mA and above. Less than that it need not end, though from a"
    " third of it on a hand may no longer open.",
}
_CAUTION = TextStep(lambda q: NO_LEAVE)


def _reached(chance):
    return mains(chance) | {
        "dropper": part(chance, 6, 470e-9, 2.2e-6),
        "body_resistance": chance.choice((1500.0, 2000.0, 2500.0, 3000.0, 4000.0, 5000.0)),
    }


def _turned(chance):
    values = _reached(chance)
    return values | {"string_voltage": share_of_peak(chance, values["voltage"], 0.15, 0.6)}


def _touched(chance):
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": chance.choice((150e-9, 220e-9, 470e-9, 1e-6, 1.5e-6)),
        "in_series": chance.randint(20, 30),
        "body_resistance": chance.choice((700.0, 800.0, 900.0, 1000.0)),
    }


def _strung(chance):
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 680e-9),
        "in_series": chance.randint(10, 40),
        "body_resistance": chance.choice((1000.0, 1500.0, 2000.0, 3000.0)),
    }


TASKS = (
    Question(
        "body_behind_dropper",
        LESSON,
        "A person behind the dropper",
        "The plug puts live at the dropper of {dropper}, on {voltage}, {frequency}. A person of {body_resistance} is"
        " the way from the dropper's other end to earth, and the rest of the lamp takes nothing. What rms current flows"
        " through that person?",
        _reached,
        "A",
        lambda q: q.body_current_behind_dropper,
        solution=(TheoryStep("dropper_reactance"), _CAUTION, TheoryStep("body_current_behind_dropper")),
        hints=(
            "Body and dropper are in series. How do ohms of a resistance and ohms of a capacitor add?",
            "As the sides of a right-angled triangle: the root of the sum of their squares.",
        ),
        slips=(
            Slip(
                "ohms added",
                lambda q: q.voltage / (q.body_resistance + q.reactance),
                "You added the ohms as of two resistances. Body and dropper are a quarter of a period apart: add the"
                " squares. More flows than the plain sum says.",
            ),
            Slip(
                "dropper alone",
                lambda q: q.short_circuit_current,
                "That is the dropper across the mains alone; here the body counts as well.",
            ),
            Slip(
                "body alone",
                lambda q: q.body_current,
                "That is the whole mains across the body. It is so with the plug turned; here the dropper is in the"
                " way.",
            ),
        ),
    ),
    Question(
        "body_plug_turned",
        LESSON,
        "The plug turned",
        "A lamp with a dropper of {dropper} holds its string at {string_voltage}, on {voltage}, {frequency}. The plug"
        " is turned: live is at the bridge, neutral at the dropper. A person of {body_resistance} reaches from the"
        " string to earth; bridge and string count as a plain wire. What rms current flows through that person?",
        _turned,
        "A",
        lambda q: q.body_current,
        solution=(_CAUTION, TheoryStep("body_current")),
        hints=(
            "Draw the way from live to earth. Is the dropper in it?",
            "It is in the wire to neutral. From live it is the bridge, the hand, the body, earth.",
        ),
        slips=(
            Slip(
                "behind the dropper",
                lambda q: q.body_current_behind_dropper,
                "That is with live at the dropper. Turned, the dropper is in the other wire and limits nothing here.",
            ),
            Slip(
                "string's volts",
                lambda q: q.string_voltage / q.body_resistance,
                "The string's volts stand between its plus and its minus. Against earth both swing with live.",
            ),
            Slip(
                "breaker's rating",
                lambda q: HOUSEHOLD_DEVICE.trips,
                "30 mA is where a residual-current device must trip. It limits nothing: until it has, all of it flows.",
            ),
        ),
    ),
    Question(
        "times_turned",
        LESSON,
        "How many times more",
        "On {voltage}, {frequency} a person of {body_resistance} stands behind a dropper of {dropper}, live at the"
        " dropper; the rest of the lamp takes nothing. Then the plug is turned, and bridge and string count as a plain"
        " wire. How many times as much flows through the same person?",
        _reached,
        "",
        lambda q: q.times_turned,
        solution=(TheoryStep("dropper_reactance"), _CAUTION, TheoryStep("times_turned")),
        hints=(
            "The same mains drives both currents. What stands in its way the first time, and what the second?",
            "First body and dropper together, as the root of the sum of squares; then the body alone.",
        ),
        slips=(
            Slip(
                "as before",
                lambda q: 1.0,
                "That would be so if the dropper stood in both ways. Turned, it is in the wire to neutral.",
            ),
            Slip(
                "dropper over body",
                lambda q: q.reactance / q.body_resistance,
                "The body stands in the first way too: it is the two together over the body.",
            ),
            Slip(
                "ohms added",
                lambda q: 1 + q.reactance / q.body_resistance,
                "The ohms of a resistance and of a capacitor do not add plainly: add their squares.",
            ),
        ),
    ),
    Choice(
        "breaker_and_hand",
        LESSON,
        "Hand to earth, and the breaker",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, on {voltage}, {frequency}, live at"
        " the dropper. A person of {body_resistance} reaches from the string's minus to earth. What does a"
        " residual-current device of 30 mA do?",
        _touched,
        _DEVICE,
        lambda q: _device(q, "minus", "dropper"),
        _WRONG_DEVICE,
        lambda q: _found(q, "minus", "dropper"),
        (
            "How much can the dropper let through, and in which half cycles does it go to the hand?",
            "In one of the two. The rms of that is about two thirds of mains over reactance.",
        ),
    ),
    Choice(
        "breaker_hand_to_hand",
        LESSON,
        "Hand to hand, and the breaker",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, on {voltage}, {frequency}. A person"
        " of {body_resistance}, well insulated from earth, has one hand on the string's plus and the other on its"
        " minus. What does a residual-current device of 30 mA do?",
        _strung,
        _DEVICE,
        lambda q: _device(q, "string", "dropper"),
        _WRONG_DEVICE
        | {
            "stays on": "It does not trip, but not because the current is small: how do the two wires of the mains"
            " differ here?",
            "either": "The device compares the two wires of the mains. How do they differ here?",
            "trips": "The device compares the two wires of the mains. How do they differ here?",
        },
        lambda q: _found(q, "string", "dropper"),
        (
            "By which wire does the current come back?",
            "By the lamp's own other wire. What goes out comes back, to the last microampere.",
        ),
    ),
    Choice(
        "minus_from_earth",
        LESSON,
        "How far from earth",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, on {voltage}, {frequency}, live at"
        " the bridge. How far does the string's minus stand from earth at most, with a person of {body_resistance}"
        " between the two?",
        _strung,
        {
            "none": "hardly at all: minus is the lamp's own zero",
            "string": "as far as the string's own volts",
            "half": "half of the mains' peak: plus and minus share it",
            "peak": "as far as the mains' peak",
        },
        lambda q: _distance(q),
        {
            "none": "Minus is where volts are counted from in a drawing. Earth is somewhere else: at the other wire.",
            "string": "Those stand between plus and minus. Which wire of the mains is tied to minus through a diode?",
            "half": "Nothing divides it: in one half cycle a diode of the bridge ties minus to live itself.",
            "peak": "Here it does not come so far.",
        },
        lambda q: (
            f"The solver finds {value_text(_touch(q, 'minus', 'bridge').minus_voltage_peak, 'V')}, with the string at"
            f" {value_text(_touch(q, 'minus', 'bridge').bus_voltage_mean, 'V')} and a mains of"
            f" {value_text(q.peak_voltage, 'V')} peak. {NO_LEAVE}"
        ),
        (
            "With live at the bridge, which diode ties minus to it, and when?",
            "D4, in the half cycle in which live is below the dropper's side. Minus is then at live.",
        ),
    ),
)


def _touch(q, hand, live):
    from ...solver.transient import Body, touch

    return touch(lamp_of(q), Body(q.body_resistance, hand, live))


def _device(q, hand, live):
    return HOUSEHOLD_DEVICE.answer(_touch(q, hand, live).earth_current_rms)


def _found(q, hand, live):
    flow = _touch(q, hand, live)
    through, to_earth = (value_text(amperes, "A") for amperes in (flow.current_rms, flow.earth_current_rms))
    return f"The solver finds {through} rms through the person, {to_earth} of it to earth. {NO_LEAVE}"


def _distance(q):
    flow, peak = _touch(q, "minus", "bridge"), q.peak_voltage
    places = {"none": 0.0, "string": flow.bus_voltage_mean, "half": peak / 2, "peak": peak}
    return min(places, key=lambda name: abs(places[name] - flow.minus_voltage_peak))
