"""Tasks of lesson 13, first part: from readings to what may be at fault, and what they cannot tell apart."""

from ..tasks.known import KnownQuantities
from ..tasks.lamps import before_and_after
from ..tasks.question import Choice, Question, Slip
from ..tasks.random_values import mains, part, share_of_peak, step_value, value_text
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 13
_SPLITS = ("plug-in", "leds", "dropper", "bus")  # what is offered to tell two causes apart
_ANY = 1e-6  # F
_APART = 0.10  # readings nearer than this, as a part of each other, are not apart on a cheap meter


def _faded(chance):
    before, share = chance.randint(18, 70), chance.uniform(0.12, 0.45)
    return {"line_current_rms": before / 1e3, "current_after": round(before * (1 - share)) / 1e3}


def _lost(q):
    return 100 * (1 - q.current_after / q.line_current_rms)


def _pump(chance):
    values = mains(chance)
    return values | {"string_voltage": share_of_peak(chance, values["voltage"], 0.15, 0.4)}


def _pump_factor(q, current=None):
    """Watts of the string over volts and amperes of the mains; the farads cancel, so any will do."""
    ideal = {"dropper": _ANY, "diode_voltage": 0.0}
    mean = q.using("half_wave_current", output_voltage=q.string_voltage, **ideal) if current is None else current
    return mean * q.string_voltage * q.using("dropper_reactance", dropper=_ANY) / q.voltage**2


def _whole_bridge(q):
    return _pump_factor(q, q.using("mean_string_current", dropper=_ANY, clamped_voltage=q.string_voltage))


def _dark(chance):
    """A dark lamp's current in whole milliamperes, with one of six faults."""
    values = mains(chance) | {"dropper": part(chance, 6, 220e-9, 680e-9), "in_series": chance.randint(14, 26)}
    fault = chance.choice(
        (
            ("open", "dropper"),
            ("open", "D1"),
            ("open", "string"),
            ("short", "smoothing"),
            ("short", "D1 and D2"),
            ("short", "D1 and D3"),
        )
    )
    current = before_and_after(KnownQuantities(values), *fault)[1].line_current_rms
    return values | {"line_current_rms": round(1e3 * current) / 1e3}


def _read_twice(chance):
    """Current and power factor of a lamp before and with a fault, as a plug-in meter writes them."""
    values = {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 330e-9, 680e-9),
        "in_series": 2 * chance.randint(9, 15),
        "inrush_resistor": part(chance, 6, 150, 220),
    }
    fault = chance.choice(
        (
            ("lost", "dropper", step_value(chance, 0.25, 0.5, 0.05)),
            ("short", "D1"),
            ("short", "groups", values["in_series"] // 2),
            ("drifted", "inrush_resistor", 10.0),
        )
    )
    before, after = before_and_after(KnownQuantities(values), *fault)
    values.pop("inrush_resistor")
    return values | {
        "line_current_rms": round(1e3 * before.line_current_rms) / 1e3,
        "power_factor": _factor(before, values),
        "current_after": round(1e3 * after.line_current_rms) / 1e3,
        "factor_after": _factor(after, values),
    }


def _factor(settled, values):
    return round(settled.real_power / (values["voltage"] * settled.line_current_rms), 2)


def _who(q):
    if q.factor_after > 1.15 * q.power_factor:
        return "resistor"
    return "lower" if q.factor_after < 0.85 * q.power_factor else "dropper"


def _half_short(chance):
    whole = 2 * chance.randint(8, 15)
    return {
        "voltage": 230.0,
        "frequency": 50.0,
        "dropper": part(chance, 6, 220e-9, 680e-9),
        "in_series": whole,
        "more": whole // 2,
    }


def _both(q):
    return before_and_after(q, "short", "D1")[1], before_and_after(q, "short", "groups", q.more)[1]


def _apart(q):
    """How far the two causes' readings are apart at most, by act, as a part of the larger."""
    pump, bridge = _both(q)
    pairs = {
        "plug-in": ((pump.line_current_rms, bridge.line_current_rms), (pump.real_power, bridge.real_power)),
        "leds": ((0, q.more),),
        "dropper": ((q.dropper, q.dropper),),
        "bus": ((pump.bus_voltage_mean, bridge.bus_voltage_mean),),
    }
    return {key: max(abs(a - b) / max(a, b) for a, b in pair) for key, pair in pairs.items()}


def _safest(q):
    from ...bench.diagnosis import MEASUREMENTS

    apart = _apart(q)
    return min((key for key in _SPLITS if apart[key] > _APART), key=lambda key: MEASUREMENTS[key].hazard)


def _told_apart(q):
    pump, bridge = _both(q)
    return (
        f"The solver finds {value_text(pump.line_current_rms, 'A')} and {value_text(pump.real_power, 'W')} with the"
        f" diode, {value_text(bridge.line_current_rms, 'A')} and {value_text(bridge.real_power, 'W')} with the groups;"
        f" {pump.bus_voltage_mean:.0f} V against {bridge.bus_voltage_mean:.0f} V on the string; and no dark LED"
        f" against {q.more:.0f}."
    )


TASKS = (
    Question(
        "share_lost",
        LESSON,
        "How much the dropper has lost",
        "A lamp took {line_current_rms} when it was new. Now a plug-in meter reads {current_after} on the same"
        " mains, the watts have fallen with the current, and the power factor is what it was. How many per cent of"
        " its capacitance has the dropper lost?",
        _faded,
        "%",
        lambda q: _lost(q),
        solution=(
            SumStep(
                lambda q: f"100 × (1 − {1e3 * q.current_after:g} mA / {1e3 * q.line_current_rms:g} mA) %",
                "At the same power factor the current follows the capacitance in proportion:",
            ),
        ),
        hints=(
            "The same power factor means the same D/Vp. What else does the current follow?",
            "Current is proportional to capacitance: what share of the current is left?",
        ),
        slips=(
            Slip("what is left", lambda q: 100 - _lost(q), "That share is left; the loss is the rest."),
            Slip(
                "counted from now",
                lambda q: 100 * (q.line_current_rms / q.current_after - 1),
                "You took the loss as a share of what is left; it is a share of what there was.",
            ),
        ),
    ),
    Question(
        "pump_factor",
        LESSON,
        "The power factor of half a bridge",
        "A lamp on {voltage}, {frequency} has a string of {string_voltage}. One diode of its bridge is short. Neglect"
        " the diodes' drops and all resistors, and take the line current as mains over reactance, which it nearly is."
        " What power factor comes of it?",
        _pump,
        "",
        lambda q: _pump_factor(q),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(
                lambda q: (
                    "Watts are the pump's mean current times the string's volts, *f·C·(2Vp − U)·U*;"
                    " volt-amperes are *V·2πf·C·V*. *f* and *C* cancel:"
                )
            ),
            SumStep(
                lambda q: (
                    f"(2 × {q.peak_voltage:.4g} V − {q.string_voltage:g} V) × {q.string_voltage:g} V"
                    f" / (2π × ({q.voltage:g} V)²)"
                )
            ),
        ),
        hints=(
            "Write the watts and the volt-amperes apart; which quantities stand in both?",
            "The string gets C·(2Vp − U) once a period. The line carries V over Xc.",
        ),
        slips=(
            Slip("whole bridge", lambda q: _whole_bridge(q), "That is what it had with four good diodes."),
            Slip(
                "half of it",
                lambda q: _whole_bridge(q) / 2,
                "It is more than half: past the string the dropper charges to the whole peak.",
            ),
            Slip(
                "peak for rms",
                lambda q: _pump_factor(q) * (q.voltage / q.peak_voltage) ** 2,
                "Volt-amperes are rms volts times rms amperes.",
            ),
        ),
    ),
    Choice(
        "dark_lamp",
        LESSON,
        "Dark, and next to no watts",
        "{in_series} LEDs of 3 V each in series behind a bridge and {dropper}, on {voltage}, {frequency}. The lamp"
        " is dark. The plug-in meter shows a line current of {line_current_rms} and hardly any watts. Where is the"
        " fault?",
        _dark,
        {
            "open": "the way of the current is open: at the dropper, a diode or the string",
            "short": "something behind the dropper is short, before the LEDs",
            "lost": "the dropper has lost part of its capacitance",
        },
        lambda q: "short" if q.line_current_rms > q.short_circuit_current / 2 else "open",
        {
            "open": "An open way carries next to nothing. Compare the reading with mains over reactance.",
            "short": "A short behind the dropper leaves the current to the dropper: mains over reactance. Compare.",
            "lost": "A smaller dropper gives less light, but still gives some: the watts fall with it and no faster.",
        },
        lambda q: (
            f"Mains over reactance is {value_text(q.short_circuit_current, 'A')}; the meter shows"
            f" {value_text(q.line_current_rms, 'A')}."
        ),
        (
            "What would the line current be with the bus shorted?",
            "Compare the reading with {voltage} over the reactance of {dropper}.",
        ),
    ),
    Choice(
        "whose_readings",
        LESSON,
        "Current and power factor, before and now",
        "A lamp with {dropper} and {in_series} LEDs of 3 V each in series, on {voltage}. New, it showed"
        " {line_current_rms} and a power factor of {power_factor}; now {current_after} and {factor_after}. What may"
        " be said?",
        _read_twice,
        {
            "dropper": "the dropper has lost capacitance",
            "lower": "less is dropped behind the bridge: a diode short, or groups short, or a leak; which one, these"
            " readings cannot tell",
            "resistor": "a resistor in the line has gone up in ohms",
        },
        lambda q: _who(q),
        {
            "dropper": "A smaller dropper takes current and watts down together; their ratio stays. Here it has not.",
            "lower": "With less behind the bridge the power factor falls while the current rises a little.",
            "resistor": "More ohms in the line turn more watts to heat for hardly less current: the factor would rise.",
        },
        lambda q: (
            f"The power factor went to {q.factor_after / q.power_factor:.2f} times what it was, the current to"
            f" {q.current_after / q.line_current_rms:.2f} times."
        ),
        (
            "Look at the power factor first. It knows D/Vp, and heat in resistors, and nothing of the capacitance.",
            "Same factor: the capacitance. Lower: less behind the bridge. Higher: watts burnt in the line.",
        ),
    ),
    Choice(
        "safest_split",
        LESSON,
        "What tells these two apart?",
        "Readings at the plug leave two causes for a lamp of {in_series} LEDs in series, 3 V each, and {dropper}:"
        " one diode short, or {more} of the groups short. Which of these is the safest that tells them apart?",
        _half_short,
        {
            "plug-in": "read the plug-in meter once more, very carefully",
            "leds": "count the LEDs that are dark, with the case closed",
            "dropper": "unplugged and proved empty: the capacitance of the dropper",
            "bus": "live: the dc volts across the string",
        },
        lambda q: _safest(q),
        {
            "plug-in": "Both give the same watts, but for the drops of diodes, and nearly the same current.",
            "leds": "Would the two causes leave the same LEDs alight?",
            "dropper": "It is good in both cases: this tells nothing of the two.",
            "bus": "It does tell them apart, by a factor of two. But it is a probe on live parts: is there no other?",
        },
        lambda q: _told_apart(q),
        ("Which of them do the two causes make different at all?", "Of those that differ, which needs no open case?"),
    ),
)
