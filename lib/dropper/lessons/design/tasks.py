"""Tasks of lesson 10 on choosing: the dropper for a wish, the next value, two in series, half wave, a cooler lamp."""

from ...circuit.series import preferred
from ...circuit.values import show
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import bridge_lamp, mains, part, share_of_peak, value_text
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 10
_FACTOR = Tolerance("0.03 or 2 % is allowed: a rule of thumb is no better.", 0.02, 0.03)
_LIFE = {"rated_life": 1000.0, "rated_temperature": 105.0}  # any will do: only the ratio is asked for


def _wish(chance):
    values = mains(chance)
    count = chance.randint(8, 30) if values["voltage"] > 200 else chance.randint(5, 18)
    return values | {
        "in_series": count,
        "forward_voltage": chance.choice((2.0, 2.8, 3.0, 3.1, 3.2)),
        "diode_voltage": 0.8,
        "string_current_mean": chance.randint(8, 40) / 1e3,
    }


def _between(chance):
    """A wish that no E6 value meets, well away from the middle of its neighbours and from the LEDs' limit."""
    while True:
        values = bridge_lamp(chance, 0.2, 0.6)
        del values["dropper"]
        below = part(chance, 6, 150e-9, 1e-6)
        above = preferred(6, below * 1.1, below * 1.6)[0]
        ideal = below + chance.uniform(0.2, 0.8) * (above - below)
        peak, off = 1.414 * values["voltage"], float(chance.choice((5, 10)))
        wish = round(4e3 * values["frequency"] * ideal * (peak - values["clamped_voltage"]), 1) / 1e3
        hottest = 4 * values["frequency"] * (1 + off / 100) * above * (1.1 * peak - values["clamped_voltage"])
        limit = round(1e3 * hottest * chance.choice((0.75, 1.4))) / 1e3
        if abs(ideal - (below + above) / 2) > 0.08 * ideal and limit > 1.1 * hottest * below / above:
            return values | {
                "value_below": below,
                "value_above": above,
                "string_current_mean": wish,
                "dropper_off": off,
                "greatest_current": limit,
            }


def _pair(chance):
    values = bridge_lamp(chance, 0.15, 0.5)
    del values["dropper"]
    large = part(chance, 6, 680e-9, 2.2e-6)
    return values | {"value_above": large, "value_below": part(chance, 6, 0.4 * large, 0.8 * large)}


def _pump(chance):
    values = mains(chance)
    return values | {
        "dropper": part(chance, 6, 150e-9, 1e-6),
        "diode_voltage": 0.7,
        "output_voltage": share_of_peak(chance, values["voltage"], 0.1, 0.55),
    }


def _warm(chance):
    return {
        "room_temperature": float(chance.choice((20, 25, 30))),
        "temperature": float(chance.randint(60, 90)),
        "lost": float(chance.choice((10, 15, 20, 25, 30, 40))),
    }


TASKS = (
    Question(
        "dropper_for_leds",
        LESSON,
        "A dropper for a wish",
        "{in_series} LEDs of {forward_voltage} each in series are to get {string_current_mean} on average on"
        " {voltage}, {frequency}, behind a bridge whose diodes drop {diode_voltage} each. Which dropper gives just"
        " that, before a preferred value is looked for?",
        _wish,
        "F",
        lambda q: q.using("dropper_for_current", clamped_voltage=_held(q)),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(lambda q: f"The string drops {q.in_series:g} × {q.forward_voltage:g} V = {_string(q):.4g} V."),
            TheoryStep("clamped_voltage", lambda q: {"string_voltage": _string(q)}),
            TheoryStep("dropper_for_current", lambda q: {"clamped_voltage": _held(q)}),
        ),
        hints=(
            "The string and two diodes hold the bridge; what the peak leaves over is the dropper's.",
            "In each half cycle the dropper is turned over by 2(Vp − D), twice in every period.",
        ),
        slips=(
            Slip(
                "reactance alone",
                lambda q: 1e-6 * q.string_current_mean / q.using("short_circuit_current", dropper=1e-6),
                "You took the mains over the reactance. That is an rms current, and one that no LED hinders.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("dropper_for_current", peak_voltage=q.voltage, clamped_voltage=_held(q)),
                "The dropper charges to the peak, not to the rms volts.",
            ),
            Slip(
                "half a bridge",
                lambda q: 2 * q.using("dropper_for_current", clamped_voltage=_held(q)),
                "You counted one half cycle's charge; the bridge hands on two in each period.",
            ),
        ),
    ),
    Choice(
        "next_value",
        LESSON,
        "The next value up, or down",
        "A string that holds the bridge at {clamped_voltage} on {voltage}, {frequency} is to get"
        " {string_current_mean} on average. Capacitors of {value_below} and {value_above} are in the drawer, all"
        " ±{dropper_off}. The mains may be 10 % high, and the LEDs must never get more than {greatest_current} on"
        " average. Of those that keep to that, which one comes nearer to {string_current_mean}?",
        _between,
        {"below": "{value_below}", "above": "{value_above}"},
        lambda q: _nearer(q),
        {
            "below": "It keeps the LEDs below their limit. But so does the other, which comes nearer.",
            "above": "With the mains high and the capacitor at its upper end it gives more than {greatest_current}, or"
            " the other comes nearer as designed.",
        },
        lambda q: (
            "; ".join(
                f"{show(value, 'F')} gives {value_text(_mean(q, value), 'A')}, and at the upper ends"
                f" {value_text(_hottest(q, value), 'A')}"
                for value in (q.value_below, q.value_above)
            )
            + "."
        ),
        (
            "Put each into 4fC(Vp − D): which is nearer to the wish?",
            "Then once more with the peak 10 % higher and the capacitor {dropper_off} larger: is it within the limit?",
        ),
    ),
    Question(
        "two_in_series",
        LESSON,
        "Two droppers in series",
        "The value that is needed is not in the drawer, and someone puts {value_above} and {value_below} in series. The"
        " string holds the bridge at {clamped_voltage} on {voltage}, {frequency}. What mean current does it get?",
        _pair,
        "A",
        lambda q: q.using("mean_string_current", dropper=_series(q)),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(
                lambda q: (
                    f"The same charge passes both, and their volts add: 1/(1/{value_text(q.value_above, 'F')} +"
                    f" 1/{value_text(q.value_below, 'F')}) = {value_text(_series(q), 'F', 4)}."
                )
            ),
            TheoryStep("mean_string_current", lambda q: {"dropper": _series(q)}),
        ),
        hints=(
            "In series the volts are shared out. Is that more charge for a volt, or less?",
            "Less than the smaller one alone: for capacitors it is the inverses that add in series.",
        ),
        slips=(
            Slip(
                "in parallel",
                lambda q: q.using("mean_string_current", dropper=q.value_above + q.value_below),
                "Capacitors add side by side. In series, their inverses do.",
            ),
            Slip(
                "the smaller",
                lambda q: q.using("mean_string_current", dropper=q.value_below),
                "The smaller one would give that alone. The other takes its share of the volts.",
            ),
            Slip(
                "the mean",
                lambda q: q.using("mean_string_current", dropper=(q.value_above + q.value_below) / 2),
                "You took the mean of the two.",
            ),
        ),
    ),
    Question(
        "half_wave_dropper",
        LESSON,
        "Half wave instead of a bridge",
        "Behind a bridge {dropper} feed an output of {output_voltage} on {voltage}, {frequency}; its diodes drop"
        " {diode_voltage} each. The bridge is replaced by two diodes that charge the output once a period. Which"
        " dropper gives the same mean current?",
        _pump,
        "F",
        lambda q: q.using("dropper_for_half_wave", string_current_mean=_bridged(q)),
        solution=(
            TheoryStep("peak_voltage"),
            TheoryStep("clamped_voltage", lambda q: {"string_voltage": q.output_voltage}),
            TheoryStep("mean_string_current", lambda q: {"clamped_voltage": _behind(q)}),
            TheoryStep("dropper_for_half_wave", lambda q: {"string_current_mean": _bridged(q)}),
        ),
        hints=(
            "How many volts does the dropper swing through in a period, from one end to the other?",
            "2Vp less the output and two diodes, once in each period; the bridge had 2(Vp − D), twice.",
        ),
        slips=(
            Slip(
                "the same",
                lambda q: q.dropper,
                "The half wave hands on one charge in a period, the bridge two. They are not quite of one size.",
            ),
            Slip(
                "twice",
                lambda q: 2 * q.dropper,
                "One charge instead of two would ask for twice the dropper; but each of them is larger, for the output"
                " takes its volts once only.",
            ),
        ),
    ),
    Question(
        "cooler_lasts",
        LESSON,
        "A little dimmer, much longer",
        "Inside a closed lamp it is {temperature}, in a room of {room_temperature}. A smaller dropper lowers the"
        " current and the heat by {lost}; what the air inside is warmer than the room falls in proportion. By what"
        " factor does the electrolytic last longer, if ten kelvins less double its life?",
        _warm,
        "",
        lambda q: _life(q, _cooler(q)) / _life(q, q.temperature),
        solution=(
            TextStep(
                lambda q: (
                    f"The air inside: {q.room_temperature:g} °C + (1 − {q.lost:g} %) ×"
                    f" ({q.temperature:g} − {q.room_temperature:g}) K = {_cooler(q):.4g} °C."
                )
            ),
            SumStep(lambda q: f"2^({q.temperature - _cooler(q):.3f} K / 10 K)", "Two for every ten kelvins:"),
        ),
        hints=(
            "The room stays as warm as it is; only what the lamp adds to it falls.",
            "How many kelvins is that, and how often do ten go into them?",
        ),
        slips=(
            Slip(
                "in proportion",
                lambda q: 1 / (1 - q.lost / 100),
                "You took life against heat in proportion. Life goes by kelvins, and doubles with every ten.",
            ),
            Slip(
                "the room as well",
                lambda q: _life(q, q.temperature * (1 - q.lost / 100)) / _life(q, q.temperature),
                "You let the room grow cooler too. Only what the lamp adds to it falls by {lost}.",
            ),
            Slip(
                "shorter",
                lambda q: _life(q, q.temperature) / _life(q, _cooler(q)),
                "Cooler is longer: the other way up.",
            ),
        ),
        tolerance=_FACTOR,
    ),
)


def _string(q):
    return q.in_series * q.forward_voltage


def _held(q):
    return q.using("clamped_voltage", string_voltage=_string(q))


def _mean(q, value):
    return q.using("mean_string_current", dropper=value)


def _hottest(q, value):
    """Mean current with the mains 10 % high and the capacitor at its upper end."""
    value *= 1 + q.dropper_off / 100
    return q.using("mean_string_current", dropper=value, peak_voltage=1.1 * q.peak_voltage)


def _nearer(q):
    fits = {"below": q.value_below, "above": q.value_above}
    fits = {key: value for key, value in fits.items() if _hottest(q, value) <= q.greatest_current}
    return min(fits, key=lambda key: abs(_mean(q, fits[key]) - q.string_current_mean))


def _series(q):
    return 1 / (1 / q.value_above + 1 / q.value_below)


def _behind(q):
    return q.using("clamped_voltage", string_voltage=q.output_voltage)


def _bridged(q):
    return q.using("mean_string_current", clamped_voltage=_behind(q))


def _cooler(q):
    return q.room_temperature + (1 - q.lost / 100) * (q.temperature - q.room_temperature)


def _life(q, temperature):
    return q.using("electrolytic_life", temperature=temperature, **_LIFE)
