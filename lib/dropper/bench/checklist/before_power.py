"""Before power: proved dead, read and measured, put together."""

import math

from ... import theory
from ...circuit.lamp import Lamp
from ...circuit.values import show
from ...results.reading import Reading
from ...standards.cautions import DISCHARGE, low_voltage
from .steps import Stage, Step

DISCHARGE_RESISTOR = 4.7e3  # Ω, 2 W: between the 1 and 10 kΩ of common practice, no source
EMPTY = 1.0  # V; what is below no longer counts as charged here
CAPACITOR, RESISTOR, ELECTROLYTIC = 0.10, 0.05, 0.20  # tolerances taken where the print says nothing else
BENCH_SUPPLY = 30.0  # V of a common small one
TRY = 0.1  # of the LEDs' stated current, for a try on a low voltage

_DEAD = (
    "A capacitor counts as live until it has been measured. Nothing here says that a part may be touched; local codes"
    " and licensed practice do."
)


def discharge_stage(lamp: Lamp) -> Stage:
    """Proved dead: unplugged, the meter tried, measured, discharged, measured again."""
    peak = lamp.mains.peak
    joules = 0.5 * lamp.dropper * peak**2
    charge = f"The dropper can keep up to {show(peak, 'V')} from pin to pin"
    if lamp.bleeder is None:
        wait, reading = f"{charge}, and this lamp has no bleeder that would empty it.", None
    else:
        values = {"dropper": lamp.dropper, "bleeder": lamp.bleeder, "initial_voltage": peak, "limit_voltage": EMPTY}
        seconds = theory.discharge_time(**values)
        wait = f"{charge}; a sound bleeder takes it to {show(EMPTY, 'V')} in {show(seconds, 's')}."
        reading = Reading("discharge_time", "time to 1 V", seconds, "s", "discharge_time", values, exact=True)
    steps = [
        Step(
            "unplug",
            "Unplug the lamp and keep the plug in sight. Open nothing before.",
            "A switch may be in the neutral and leave every part live.",
        ),
        Step(
            "prove the meter",
            "Measure a voltage that you know: a battery's.",
            "A dead meter, a blown fuse or a wrong range shows 0 V of anything.",
        ),
        Step(
            "residual volts",
            "Measure pin to pin, then across each capacitor, on a dc range of 600 V or more.",
            "If the bleeder is open or missing, the charge stays for hours.",
            wait,
            reading,
            "A voltage that stays for longer: the bleeder is open, or there is none.",
        ),
        Step(
            "discharge",
            f"Where a voltage is left, it is discharged through {show(DISCHARGE_RESISTOR, 'Ω')}, 2 W. {DISCHARGE}",
            f"A short takes the dropper's {show(joules, 'J')} in one spark of many amperes; a resistor takes it in"
            f" {show(5 * DISCHARGE_RESISTOR * lamp.dropper, 's')} or so.",
        ),
    ]
    if lamp.smoothing:
        volts = lamp.string.voltage_at(1e-5)
        steps.append(
            Step(
                "smoothing volts",
                "Look at the smoothing capacitor too, and discharge it through the same resistor.",
                f"The LEDs empty it to about {show(volts, 'V')} and no further"
                + ("." if lamp.smoothing_bleeder else "; there is no bleeder across it.")
                + " With the string open it keeps the peak of the mains.",
                f"Between nothing and {show(volts, 'V')}.",
                None,
                "Far more: the string is open, and so is its bleeder, if one is fitted.",
            )
        )
    steps.append(
        Step(
            "measure again",
            "Measure once more, then the battery once more.",
            "Only the second reading tells that it is empty, and only the battery that the meter still lives.",
        )
    )
    return Stage("Unplugged, and proved dead", tuple(steps), _DEAD)


def measurement_stage(lamp: Lamp) -> Stage:
    """Marks read and parts measured, out of power."""

    def tolerance_words(value, unit, share):
        low, high = (show(value * (1 + way * share), unit) for way in (-1, 1))
        return f"{show(value, unit)} ± {100 * share:.3g} %: {low} to {high}."

    steps = [
        Step(
            "dropper",
            "Read the dropper's print, then measure it with one lead lifted.",
            "The current goes with it, per cent for per cent; a film capacitor can have lost half and look like new.",
            tolerance_words(lamp.dropper, "F", CAPACITOR),
            None,
            ""
            if low_voltage(lamp)
            else "No class for the mains on it (X1, X2), or a print for dc only: look for the right kind.",
        )
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
            "Measure ohms from pin to pin.",
            "It finds a short of the line. It cannot find a shorted dropper: the bridge does not conduct at the"
            " meter's low voltage, so the dropper is measured by itself.",
            f"Over range{through}.",
            None,
            "A few ohms or a few hundred: a short; go no further.",
        ),
    ]
    return Stage("Read and measured", tuple(steps))


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
                "One diode the wrong way round shorts the bus or the mains through the dropper.",
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
            Step(
                "spacing",
                "Look at the distance from the mains' parts to everything that can be touched, at the"
                " insulation and at the strain relief; clean off flux.",
                "Distances over air and along surfaces are what keeps a shock out: IEC 60664-1 or the lamp's own"
                " standard has the figures, and local codes decide.",
            ),
            Step("closed", "Close the case.", "From here on nothing of the circuit is to be reached."),
        ),
        "For a new lamp, and for what is soldered anew in an old one: unplugged, proved dead, discharged. If the LEDs"
        " are ultraviolet: do not look into them, diffuse the light, limit the time, read the data sheet.",
    )
