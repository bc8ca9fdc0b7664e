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
from . import behind_transformer
from .proved_dead import TRAINED, minutes_text, unplugged, volts_text, wait_time
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
    return behind_transformer.LIVE if low_voltage(lamp) else _LIVE


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
            *((behind_transformer.transformer_step(lamp),) if low_voltage(lamp) else ()),
            Step(
                "eyes",
                f"Eye protection on{'' if low_voltage(lamp) else ', case closed'}, no hand on the lamp; a"
                " residual-current device in the supply.",
                "A wrong electrolytic bursts in the first seconds. The device sees current to earth only: none from"
                " line to neutral, and none behind an isolating transformer.",
            ),
            Step(
                "series lamp",
                behind_transformer.connection_words(filament) if low_voltage(lamp) else _box_words(filament),
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
                "Unplug, take the filament lamp out of the line, and begin at the top of this list.",
                "The lamp has been live since.",
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
            *_line_steps(lamp, result, f"{rows}; power factor {bands['power_factor'].words}"),
            Step(
                "own sum",
                "Multiply volts and amperes yourself and compare with watts over power factor.",
                "Cheap meters disagree with themselves; that is the meter's business and not the lamp's.",
                f"{show(result.apparent_power, 'VA')}.",
            ),
            _bus_step(
                low_voltage(lamp), f"{show(bus, 'V')}, and {show(result.bus_ripple, 'V')} of ripple from peak to peak."
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


def _box_words(filament):
    """How the filament lamp comes into the line of the mains."""
    return (
        f"Plug the lamp into a finished, closed series box with a filament lamp of {filament.marked}, and switch on at"
        " the supply. Never with loose wires; without such a box leave this stage to somebody who has one."
    )


def _line_steps(lamp, result, rows):
    """The readings of the line."""
    if low_voltage(lamp):
        scope = (behind_transformer.oscilloscope_step(lamp, result),) if lamp.inrush_resistor else ()
        return (behind_transformer.loaded_step(lamp, result), behind_transformer.line_step(lamp, result), *scope)
    return (
        Step(
            "plug-in meter",
            "Read the volts first, then milliamperes, watts and power factor, and write the last digit's size beside"
            " each.",
            "At a power factor like this a degree of phase error moves the watts by several per cent, and a digit of"
            " 0.1 W may be a tenth of all.",
            f"With {show(lamp.mains.voltage, 'V')} at the socket: {rows}. Other volts are no fault; the rest moves with"
            " them.",
        ),
    )


def _bus_step(low, expect):
    """The dc volts across the string."""
    if low:
        return behind_transformer.bus_step(expect)
    return Step(
        "bus volts",
        "Dc volts across the string only if you are licensed and equipped for live work: insulated probes of the right"
        " category, clipped on while unplugged and proved dead.",
        "It tells a shorted diode from shorted LEDs, which the plug-in meter cannot.",
        expect,
    )


def after_stage(lamp: Lamp) -> Stage:
    """What comes after: the bleeder judged by one reading, the list kept."""
    record = Step(
        "record",
        "Write the readings, the date, the meter and its digits into the lamp's file and on its sheet.",
        "The next fault is found by what has changed.",
    )
    return Stage("After", (_bleeder_step(lamp), record), behind_transformer.LIVE if low_voltage(lamp) else _PULLED)


def _bleeder_step(lamp):
    """One reading that tells whether the dropper is emptied at all; how quickly is computed."""
    if lamp.bleeder is None:
        return Step(
            "bleeder works",
            "Do not leave it so: fit a bleeder across the dropper.",
            f"Without one the dropper holds up to {show(lamp.mains.peak, 'V')} for hours.",
        )
    values = {"dropper": lamp.dropper, "bleeder": lamp.bleeder, "initial_voltage": lamp.mains.peak, "time": 1.0}
    left = theory.residual_voltage(**values)
    reading = Reading(
        "residual_voltage", "the dropper holds, after 1 s", left, "V", "residual_voltage", values, exact=True
    )
    low, minutes = low_voltage(lamp), minutes_text(lamp)
    pins = volts_text(unplugged(lamp, wait_time(lamp), metered=True).pins_voltage[-1])
    return Step(
        "bleeder works",
        f"Unplug the transformer, wait {minutes}, and measure across the dropper's own leads."
        if low
        else f"Unplug, leave the case closed, and wait {minutes}. {TRAINED} measure once from pin to pin with a"
        " proved meter, or in a closed test box made for it. Nothing is clipped to pins that may get power.",
        "It tells whether anything empties the dropper. How quickly is computed, and not timed by hand.",
        f"{'Less than 0.1 V' if low else f'Between the pins {pins}'}. For choosing the bleeder: with"
        f" {show(lamp.mains.voltage, 'V')} and both parts as marked the dropper holds {show(left, 'V')} at most after"
        f" 1 s; {_limits(lamp)}",
        reading,
    )


def _limits(lamp):
    checks = judge(lamp.dropper, lamp.bleeder, lamp.mains.peak).checks
    over = sum(check.word == "over" for check in checks)
    judged = sum(check.word in ("over", "within") for check in checks)
    if not judged:
        return "none of the published rules kept here asks for anything."
    return f"of the {judged} published rules that ask for something, it breaks {over or 'none'}."
