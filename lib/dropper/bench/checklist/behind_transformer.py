"""Steps of a lamp behind an isolating transformer: what a class may measure there, and how."""

from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show
from ...solver.steady import SteadyState, steady_state
from .series_lamp import FilamentLamp
from .steps import Step

MORE_VOLTS = 1.2  # times the print: within the 15 % to 40 % that a small transformer stands higher with a small load
LIVE = (
    "Behind a safety isolating transformer a class may take these readings, as the rules of the school ask. No hand on"
    " parts meanwhile: they get hot. Never connect this lamp to the mains."
)


def transformer_step(lamp: Lamp) -> Step:
    """Looked at before everything else."""
    return Step(
        "transformer",
        f"Look at the transformer first: a safety isolating one (IEC 61558-2-6, from memory),"
        f" {show(lamp.mains.voltage, 'V')} ac, with its fuse. Its plug goes to the mains, the lamp's leads never do.",
        "The lamp is made for these volts alone; on the mains its parts fail at once, and everything in it is live.",
    )


def connection_words(filament: FilamentLamp) -> str:
    """How the filament lamp comes between transformer and lamp."""
    return (
        f"Connect the lamp to the transformer through a filament lamp of {filament.marked} while the transformer is"
        " unplugged; then plug the transformer in, from a distance."
    )


def loaded_step(lamp: Lamp, result: SteadyState) -> Step:
    """The volts of the transformer with the lamp on it, before any bet is settled."""
    higher = replace_at(lamp, "mains.voltage", MORE_VOLTS * lamp.mains.voltage)
    more = steady_state(higher)
    change = 100 * (more.line_current_rms / result.line_current_rms - 1)
    return Step(
        "loaded volts",
        "Measure the ac volts behind the transformer with the lamp on it, write them into the lamp's file as the"
        " mains' voltage, and bet again.",
        "A small transformer stands 15 % to 40 % above its print with so small a load (common practice, no source).",
        f"At {show(higher.mains.voltage, 'V')} instead of {show(lamp.mains.voltage, 'V')} the line current is"
        f" {change:.0f} % more, {show(more.line_current_rms, 'A')}, and the power factor {more.power_factor:.3f}"
        f" instead of {result.power_factor:.3f}.",
    )


def line_step(lamp: Lamp, result: SteadyState) -> Step:
    """The current between transformer and lamp."""
    return Step(
        "line",
        "Read the line current with a true-rms multimeter, connected between transformer and lamp while the"
        " transformer is unplugged.",
        "A plug-in meter belongs into a mains socket only; before the transformer it would show the transformer's own"
        " current too.",
        f"With {show(lamp.mains.voltage, 'V')} behind the transformer: {show(result.line_current_rms, 'A')} and"
        f" {show(result.real_power, 'W')}, power factor {result.power_factor:.2f}.",
    )


def oscilloscope_step(lamp: Lamp, result: SteadyState) -> Step:
    """Where the two clips of an oscilloscope go."""
    across = lamp.inrush_resistor * float(abs(result.line_current).max())
    return Step(
        "oscilloscope",
        "Both clips of an oscilloscope on one node, the transformer's end of R1; one tip on the transformer's other"
        " terminal, one on the other end of R1. Move them with the transformer unplugged.",
        "The clips are joined inside: on two nodes they would short what lies between. So connected, both curves stand"
        " upside down, and their product has the right sign.",
        f"Peaks of {show(lamp.mains.peak, 'V')}, and of {show(across, 'V')} across R1. The watts that the transformer"
        " gives are the mean of the product, divided by R1.",
    )


def bus_step(expect: str) -> Step:
    """The dc volts across the string."""
    return Step(
        "bus volts",
        "Read the dc volts across the string with a multimeter, clipped on while the transformer is unplugged.",
        "It tells a shorted diode from shorted LEDs, which the line cannot.",
        expect,
    )
