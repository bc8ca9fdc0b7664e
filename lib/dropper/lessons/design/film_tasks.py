"""Tasks of lesson 10 on the dropper's kind: the ac volts that it must stand, and a dropper that fails short."""

from ...components.kinds import DC_FILM
from ..tasks.question import Question, Slip
from ..tasks.random_values import bridge_lamp, mains
from ..tasks.solution import SumStep, TextStep, TheoryStep

LESSON = 10


def _film(chance):
    """A dc film capacitor whose dc mark is above the mains' peak."""
    values = mains(chance)
    films = [film for film in DC_FILM if film.rated_voltage > 1.6 * values["voltage"]]
    return {
        "voltage": values["voltage"],
        "mains_off": float(chance.choice((5, 6, 8, 10))),
        "rated_voltage": chance.choice(films[:2]).rated_voltage,
    }


def _short(chance):
    values = bridge_lamp(chance, 0.15, 0.5)
    return values | {"inrush_resistor": float(chance.choice((47, 56, 68, 75, 82, 100, 120, 150)))}


TASKS = (
    Question(
        "film_on_the_mains",
        LESSON,
        "Will a dc film capacitor do?",
        "A film capacitor marked {rated_voltage} dc is offered as a dropper for {voltage}, which may be {mains_off}"
        " high. With two diodes of the bridge short all of the mains stands across the dropper. Which ac voltage (rms)"
        " must its data sheet name at least?",
        _film,
        "V",
        lambda q: _highest(q),
        solution=(
            SumStep(
                lambda q: f"{q.voltage:g} V × (1 + {q.mains_off:g} %)",
                "The dropper gets the mains at its upper end, as an rms value; the dc mark says nothing of it:",
            ),
        ),
        hints=("What stands across the dropper with D1 and D2 short?", "The whole mains, at its upper end, rms."),
        slips=(
            Slip(
                "the dc mark",
                lambda q: q.rated_voltage,
                "That is what it stands of dc. Of ac a film capacitor stands far less: gas in it glows at every peak,"
                " and eats it away.",
            ),
            Slip(
                "the peak",
                lambda q: q.peak_voltage * (1 + q.mains_off / 100),
                "That is the peak. The ac rating of a capacitor is an rms value.",
            ),
            Slip("nominal mains", lambda q: q.voltage, "The mains may be {mains_off} higher than that."),
        ),
    ),
    Question(
        "dropper_short",
        LESSON,
        "A dropper that fails short",
        "On {voltage} the dropper, of class X2, has failed short. Its string holds the bridge at {clamped_voltage}; the"
        " inrush resistor has {inrush_resistor}. How great does the line current get at the peak?",
        _short,
        "A",
        lambda q: q.using("inrush_peak", step_voltage=_left(q)),
        solution=(
            TheoryStep("peak_voltage"),
            TextStep(
                lambda q: (
                    "Only the resistor is left in the way of the volts that the string does not take:"
                    f" {q.peak_voltage:.4g} V − {q.clamped_voltage:g} V = {_left(q):.4g} V."
                )
            ),
            TheoryStep("inrush_peak", lambda q: {"step_voltage": _left(q)}),
        ),
        hints=("What is in the way of the current, once the dropper is a wire?", "Ohm's law for what Vp − D leaves."),
        slips=(
            Slip(
                "it fails open",
                lambda q: 0.0,
                "So X2 is often understood. Its tests are about fire, across the line; in series it may fail either"
                " way.",
            ),
            Slip(
                "as before",
                lambda q: q.mean_string_current,
                "That is the current with a sound dropper. A short one holds nothing back.",
            ),
            Slip(
                "rms for peak",
                lambda q: q.using("inrush_peak", step_voltage=q.voltage - q.clamped_voltage),
                "At the peak there are √2 times the rms volts.",
            ),
            Slip(
                "string forgotten",
                lambda q: q.using("inrush_peak"),
                "The LEDs still take their volts: {clamped_voltage} with the diodes.",
            ),
        ),
    ),
)


def _highest(q):
    return q.voltage * (1 + q.mains_off / 100)


def _left(q):
    """Volts that the string leaves over at the peak of the mains."""
    return q.peak_voltage - q.clamped_voltage
