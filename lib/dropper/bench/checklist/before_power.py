"""Before power: parts read and measured, put together."""

import math

from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...standards.cautions import low_voltage
from .steps import Stage, Step

CAPACITOR, RESISTOR, ELECTROLYTIC = 0.10, 0.05, 0.20  # tolerances taken where the print says nothing else
BENCH_SUPPLY = 30.0  # V of a common small one
_POLAR = "A stripe for minus on it: an electrolytic would burst here. Take a film or a bipolar one."
TRY = 0.1  # of the LEDs' stated current, for a try on a low voltage


def measurement_stage(lamp: Lamp) -> Stage:
    """Marks read and parts measured, out of power."""

    def tolerance_words(value, unit, share):
        low, high = (show(value * (1 + way * share), unit) for way in (-1, 1))
        return f"{show(value, unit)} ± {100 * share:.3g} %: {low} to {high}."

    steps = [
        _fuse(lamp),
        Step(
            "dropper",
            "Read the dropper's print, then measure it with one lead lifted.",
            "The current goes with it, per cent for per cent; a film capacitor can have lost half and look like new.",
            tolerance_words(lamp.dropper, "F", CAPACITOR),
            None,
            _POLAR
            if low_voltage(lamp)
            else "No class for the mains on it (X1, X2), a print for dc only, or a data sheet that does not name it for"
            " use in series with the mains: look for the right kind. An X mark alone is for across the line.",
        ),
    ]
    if lamp.bleeder is not None:
        steps.append(
            Step(
                "bleeder",
                "Measure the dropper's bleeder where it is: across the dropper.",
                "It is the only resistance there; a reading near zero means a shorted dropper, one that is"
                " over range an open bleeder.",
                tolerance_words(lamp.bleeder, "Ω", RESISTOR),
            )
        )
    if lamp.inrush_resistor:
        steps.append(
            Step(
                "inrush resistor",
                "Read its bands with their names, then measure it.",
                "Scorched ones drift upwards, and nobody sees that in the light.",
                tolerance_words(lamp.inrush_resistor, "Ω", RESISTOR),
            )
        )
    if lamp.smoothing_bleeder is not None:
        steps.append(
            Step(
                "smoothing bleeder",
                "Measure the smoothing capacitor's bleeder, minus lead to minus.",
                "With the leads the other way round the meter may drive the LEDs or the bridge.",
                tolerance_words(lamp.smoothing_bleeder, "Ω", RESISTOR),
            )
        )
    if lamp.smoothing:
        steps.append(
            Step(
                "smoothing",
                "Measure the smoothing capacitor with one lead lifted.",
                "Dried out it has lost most of its value: the light flickers, and nothing else tells.",
                tolerance_words(lamp.smoothing, "F", ELECTROLYTIC),
            )
        )
    bleeders = [ohms for ohms in (lamp.bleeder, lamp.smoothing_bleeder) if ohms]
    through = (
        f", or about {show(sum(bleeders), 'Ω')} where the meter's own volts open the bridge"
        if len(bleeders) == 2
        else ""
    )
    steps += [
        Step(
            "diodes",
            "Test each of the four diodes both ways.",
            "One that is open makes the lamp dark, one that is short dim; each shows here at once.",
            "About 0.5 V to 0.7 V one way, over range the other.",
        ),
        Step(
            "pin to pin",
            f"Measure ohms {'between the two leads of the lamp' if low_voltage(lamp) else 'from pin to pin'}.",
            "It finds a short of the line. It cannot find a shorted dropper: the bridge does not conduct at the"
            " meter's low voltage, so the dropper is measured by itself.",
            f"Over range{through}.",
            None,
            "A few ohms or a few hundred: a short; go no further.",
        ),
    ]
    return Stage("Read and measured", tuple(steps))


def _fuse(lamp):
    """What opens the line when a part is short."""
    if low_voltage(lamp):
        return Step(
            "fuse",
            "Look for the fuse behind the transformer, or a thermal cut-out in it.",
            "A short behind the transformer heats it until something opens.",
            stop="Neither of them: take a transformer that has one.",
        )
    return Step(
        "fuse",
        "Look for what opens the line: a fuse, or a resistor of a fusible, flame-proof kind, first in the line.",
        "With the dropper short only resistors limit the current. Something must open before anything burns.",
        "One of the two. What it has to carry, and at what it has to open, stands on the lamp's sheet at F1.",
        stop="Neither of them: fit one, chosen by its data sheet, before the lamp gets power.",
    )


def assembly_stage(lamp: Lamp) -> Stage:
    """Soldered in an order that keeps parts cool and the right way round, and tried on a low voltage."""
    string = lamp.string
    current = TRY * string.led.at_current * string.in_parallel
    whole = string.voltage_at(current) + lamp.series_resistor * current
    volt = whole / string.in_series
    groups = min(string.in_series, max(1, math.floor(BENCH_SUPPLY / volt)))
    volts = f"{show(current, 'A')} at about {show(groups * volt, 'V')} for {groups} in series"
    unit = "groups" if string.in_parallel > 1 else "LEDs"
    parts = "in one go" if groups == string.in_series else f"{groups} {unit} at a time"
    electrolytic = (
        [
            Step(
                "stripe",
                "Set the electrolytic with its stripe to minus; the long lead is plus.",
                "The wrong way round it leaks, warms, swells and bursts.",
            )
        ]
        if lamp.smoothing
        else []
    )
    return Stage(
        "Put together",
        (
            Step(
                "order",
                "Solder low parts first: resistors and diodes, then the dropper; the electrolytic and the LEDs last.",
                "Tall parts are in the way of low ones, and those that mind heat are heated once only.",
            ),
            Step(
                "bands",
                "Set each diode with its band as drawn: the band is the cathode.",
                "One diode the wrong way round keeps the lamp dark: in one half cycle the current passes the LEDs by,"
                " in the other none flows, and the dropper stays charged.",
            ),
            *electrolytic,
            Step(
                "LED polarity",
                "Try one LED of the kind with a diode test or 1 mA; then set them all the same way:"
                " the long lead is the anode, the flat of the rim the cathode.",
                "Kinds differ, and a meter's test may not reach a blue or white one's voltage. One the wrong way round"
                " keeps the whole string dark.",
            ),
            Step(
                "few at a time",
                "Solder a few LEDs, let them cool, go on. No more than 3 s a lead.",
                "An LED's lead carries the heat straight to its junction (3 s: common practice, no source).",
            ),
            Step(
                "low voltage",
                f"Try the string on a current-limited supply of {show(BENCH_SUPPLY, 'V')} or less, {parts}.",
                "Whatever is the wrong way round shows at a few volts, before the mains finds it.",
                f"{volts}, all alike.",
            ),
            *_closing_steps(lamp),
        ),
        "For a new lamp, and for what is soldered anew in an old one: unplugged, proved dead, discharged. If the LEDs"
        " are ultraviolet: do not look into them, diffuse the light, limit the time, read the data sheet.",
    )


def _closing_steps(lamp):
    """What keeps hands and the mains apart."""
    if low_voltage(lamp):
        return (
            Step(
                "spacing",
                "Keep the circuit away from the transformer's mains side, and its leads too short to reach a socket.",
                "The transformer is what isolates: nothing may lead past it.",
            ),
        )
    return (
        Step(
            "spacing",
            "Look at the distance from the mains' parts to everything that can be touched, at the insulation and at the"
            " strain relief; clean off flux.",
            "Distances over air and along surfaces are what keeps a shock out: IEC 60664-1 or the lamp's own standard"
            " has the figures, and local codes decide.",
        ),
        Step("closed", "Close the case.", "From here on nothing of the circuit is to be reached."),
    )
