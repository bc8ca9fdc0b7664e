"""Under power: first through a filament lamp, then the readings, and what comes after."""

from ... import theory
from ...circuit.lamp import Lamp
from ...circuit.parts import BY_KEY
from ...circuit.values import show
from ...results.reading import Reading
from ...solver.heat import Surroundings, temperatures
from ...solver.steady import steady_state
from ...standards.cautions import low_voltage
from ..meter import PlugInMeter, expected_bands
from ..residual import judge
from .series_lamp import FilamentLamp, faults_by_glow, first_power
from .steps import Stage, Step

_LIVE = (
    "Everything in the lamp is live now, behind the bridge too, and stays so whether it shines or not. Whether you may"
    " take these readings, local codes and licensed practice say."
)
_PULLED = (
    "A plug that has just been pulled counts as live until it has been measured. Whether you may take readings"
    " on it, local codes and licensed practice say."
)


def _live(lamp):
    """The caution of what is done under power."""
    return " ".join((*low_voltage(lamp), _LIVE))


def first_power_stage(lamp: Lamp, filament: FilamentLamp | None) -> Stage:
    """First power: a filament lamp in series, whose glow tells of shorts.

    Parameters
    ----------
    filament
        None: one that suits the lamp.
    """
    filament = filament or FilamentLamp.for_lamp(lamp)
    whole = first_power(lamp, filament)
    glowing, dark = faults_by_glow(lamp, filament)
    seen = "; ".join(f"{trial.fault}: {trial.glow}" for trial in glowing) or "none of the faults kept here"
    unseen = "; ".join(trial.fault for trial in dark[:3])
    reading = Reading(
        "series_current",
        "current through the filament lamp",
        whole.state.line_current_rms,
        "A",
        "filament_current",
        filament.values(whole.temperature),
        from_readings=True,
    )
    return Stage(
        "First power, behind a filament lamp",
        (
            *_transformer(lamp),
            Step(
                "eyes",
                "Eye protection on, case closed, no hand on the lamp; a residual-current device in the supply.",
                "A wrong electrolytic bursts in the first seconds. The device helps against current to earth only,"
                " not from line to neutral.",
            ),
            Step(
                "series lamp",
                _connection_words(lamp, filament),
                f"Cold it has {show(filament.resistance(298.0), 'Ω')}, hot"
                f" {show(filament.resistance(filament.hot_temperature), 'Ω')}: nearly nothing for a sound lamp, and a"
                " limit for one with a short. It makes nothing fit to be touched.",
                f"{whole.sentence} Your lamp's string shines, a little less than it will.",
                reading,
                f"Any glow is a stop. It shows: {seen}.",
            ),
            Step(
                "dark is not sound",
                "Do not take a dark filament for a sound lamp.",
                "The dropper limits the current whatever is behind it, so most faults leave the filament dark: "
                f"{unseen} and others.",
                f"{len(dark)} of the {len(dark) + len(glowing)} faults kept here stay dark.",
            ),
            Step(
                "off again",
                "Unplug, take the lamp out of the series box, and begin at the top: measure, discharge, measure.",
                "It has been live since.",
            ),
        ),
        _live(lamp),
    )


def readings_stage(lamp: Lamp, meter: PlugInMeter | None, surroundings: Surroundings | None) -> Stage:
    """The readings, each with the band that it should fall in.

    Parameters
    ----------
    surroundings
        None: a closed case, typical practice.
    """
    meter = meter or PlugInMeter()
    result = steady_state(lamp)
    bands = expected_bands(result, meter)
    warm = temperatures(lamp, result, surroundings or Surroundings.typical("enclosed"))
    warmest = max(warm.parts, key=warm.parts.get)
    rows = ", ".join(f"{bands[key].words}" for key in ("current", "power", "apparent_power"))
    bus = result.bus_voltage_mean
    return Stage(
        "Readings",
        (
            Step(
                "bet",
                "Write down what you expect before you look.",
                "A reading that was guessed first teaches; one that is only looked at confirms.",
            ),
            _line_step(lamp, result, f"{rows}; power factor {bands['power_factor'].words}"),
            Step(
                "own sum",
                "Multiply volts and amperes yourself and compare with watts over power factor.",
                "Cheap meters disagree with themselves; that is the meter's business and not the lamp's.",
                f"{show(result.apparent_power, 'VA')}.",
            ),
            Step(
                "bus volts",
                "Dc volts across the string only if you are licensed and equipped for live work:"
                " insulated probes of the right category, clipped on while unplugged.",
                "It tells a shorted diode from shorted LEDs, which the plug-in meter cannot.",
                f"{show(bus, 'V')}, and {show(result.bus_ripple, 'V')} of ripple from peak to peak.",
            ),
            Step(
                "warmth",
                "Do not feel for it: read temperatures from outside with a probe or a camera at 1, 10 and 30 minutes.",
                "A heavy case is slow: go on until nothing rises any more.",
                f"In the end about {warm.parts[warmest]:.0f} °C at the {BY_KEY[warmest].name} in a closed case and a"
                f" room of {warm.room:.0f} °C (typical practice, no source).",
            ),
        ),
        _live(lamp),
    )


def _transformer(lamp):
    """What stands before everything else for a lamp that is not for the mains."""
    if not low_voltage(lamp):
        return ()
    volts = show(lamp.mains.voltage, "V")
    return (
        Step(
            "transformer",
            f"Look at the transformer first: a safety isolating one, {volts}, with its fuse. Its plug"
            " goes to the mains, the lamp's never does.",
            "The lamp is made for these volts alone; on the mains its parts fail at once, and everything in it is"
            " live.",
        ),
    )


def _connection_words(lamp, filament):
    """How the filament lamp comes into the line."""
    if low_voltage(lamp):
        return (
            f"Connect the lamp to the transformer through a filament lamp of {filament.marked} while the transformer is"
            " unplugged; then plug the transformer in, from a distance."
        )
    return (
        f"Plug the lamp into a finished, closed series box with a filament lamp of {filament.marked}, and switch on at"
        " the supply. Never with loose wires; without such a box leave this stage to somebody who has one."
    )


def _line_step(lamp, result, rows):
    """The readings of the line."""
    volts = show(lamp.mains.voltage, "V")
    if low_voltage(lamp):
        return Step(
            "line",
            "Read the line current with a true-rms multimeter, connected between transformer and lamp while the"
            " transformer is unplugged.",
            "A plug-in meter belongs into a mains socket only; before the transformer it would show the transformer's"
            " own current too.",
            f"With {volts} behind the transformer: {show(result.line_current_rms, 'A')} and"
            f" {show(result.real_power, 'W')}, power factor {result.power_factor:.2f}.",
        )
    return Step(
        "plug-in meter",
        "Read the volts first, then milliamperes, watts and power factor, and write the last digit's size beside each.",
        "At a power factor like this a degree of phase error moves the watts by several per cent, and a digit of 0.1 W"
        " may be a tenth of all.",
        f"With {volts} at the socket: {rows}. Other volts are no fault; the rest moves with them.",
    )


def after_stage(lamp: Lamp) -> Stage:
    """What comes after: the decay timed, the list kept."""
    steps = []
    if lamp.bleeder is not None:
        values = {"dropper": lamp.dropper, "bleeder": lamp.bleeder, "initial_voltage": lamp.mains.peak}
        left = theory.residual_voltage(**values, time=1.0)
        reading = Reading(
            "residual_voltage",
            "pin to pin after 1 s",
            left,
            "V",
            "residual_voltage",
            values | {"time": 1.0},
            exact=True,
        )
        steps.append(
            Step(
                "decay",
                "Unplug first, then at once hold the insulated probes of a meter of 10 MΩ to the pins and"
                " time the decay; several times. Nothing is clipped to the pins while it is plugged in.",
                "The moment of unplugging decides where it starts, so the worst of several counts. The meter's own"
                " resistance helps a little.",
                f"With {show(lamp.mains.voltage, 'V')} and both parts as marked no more than {show(left, 'V')} after"
                f" 1 s; {_limits(lamp)}",
                reading,
            )
        )
    else:
        steps.append(
            Step(
                "decay",
                "Do not leave it so: fit a bleeder across the dropper.",
                f"Without one the pins keep up to {show(lamp.mains.peak, 'V')} for hours.",
            )
        )
    steps.append(
        Step(
            "record",
            "Write the readings, the date, the meter and its digits into the lamp's file and on its sheet.",
            "The next fault is found by what has changed.",
        )
    )
    return Stage("After", tuple(steps), _PULLED)


def _limits(lamp):
    checks = judge(lamp.dropper, lamp.bleeder, lamp.mains.peak).checks
    over = sum(check.word == "over" for check in checks)
    judged = sum(check.word in ("over", "within") for check in checks)
    if not judged:
        return "none of the published rules kept here asks for anything."
    return f"of the {judged} published rules that ask for something, it breaks {over or 'none'}."
