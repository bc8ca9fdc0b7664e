"""Cases of fault finding: two faults that a plug-in meter shows alike, and a dark lamp with current in its line."""

from dataclasses import dataclass

from ... import theory
from ...bench.diagnosis import Hunt, measurements_for
from ...bench.meter import PlugInMeter
from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp
from ...circuit.values import show, unbroken
from ...solver.steady import SteadyState
from ...solver.transient import Fault, settle, with_fault

DARK_HUNT = 5  # of the stair marker: dark, with current in the line
_DIODE = Fault("short", "D1")


@documented
@dataclass(frozen=True)
class LookAlikes:
    """One diode short, and so many groups short that the watts come nearest to it."""

    groups: int = about("how many groups are short")
    diode_shown: str = about("what the plug-in meter shows with the diode short")
    groups_shown: str = about("what it shows with the groups short")

    @property
    def alike(self) -> bool:
        """Whether the meter shows them digit for digit the same."""
        return self.diode_shown == self.groups_shown


def shown_at_the_plug(state: SteadyState) -> str:
    """Current and watts as a plug-in meter shows them: "23 mA and 0.8 W"."""
    meter = PlugInMeter()
    amperes, watts = (
        meter.reading_text("current", state.line_current_rms),
        meter.reading_text("power", state.real_power),
    )
    return unbroken(f"{amperes} and {watts}")


def look_alikes(lamp: Lamp) -> LookAlikes | None:
    """Two faults of a lamp that look alike at the plug; None for a lamp that is dark or has too few groups."""
    count = lamp.string.in_series
    if count < 4 or settle(lamp).dark:
        return None
    diode = settle(with_fault(lamp, _DIODE))
    near = {
        groups: settle(with_fault(lamp, Fault("short", "groups", groups)))
        for groups in range(max(count // 2 - 1, 2), min(count // 2 + 2, count - 1) + 1)
    }
    groups = min(near, key=lambda one: abs(near[one].real_power - diode.real_power))
    return LookAlikes(groups, shown_at_the_plug(diode), shown_at_the_plug(near[groups]))


def same_watts(lamp: Lamp) -> str:
    """Volts times mean current of the string with one diode short and with half of the string short, in words.

    The diodes' own drops are left out.
    """
    volts = settle(lamp).bus_voltage_mean
    source = {"frequency": lamp.mains.frequency, "dropper": lamp.dropper, "peak_voltage": lamp.mains.peak}
    pump = theory.half_wave_current(output_voltage=volts, diode_voltage=0.0, **source)
    bridge = theory.mean_string_current(clamped_voltage=volts / 2, **source)
    lines = (
        f"{name}: {show(held, 'V')} times {show(amperes, 'A')} are {show(held * amperes, 'W')}"
        for name, held, amperes in (("one diode short", volts, pump), ("half the string short", volts / 2, bridge))
    )
    return "\n".join(lines)


def dark_question(lamp: Lamp) -> str:
    """What a dark lamp shows at the plug, and what is asked."""
    hunt = Hunt(lamp, DARK_HUNT)
    read = hunt.measure("plug-in").readings
    meter = PlugInMeter()
    shown = ", ".join(meter.reading_text(name, read[name]) for name in ("current", "power"))
    return unbroken(f"The {lamp.name} is dark. The plug-in meter shows {shown}. What would you do next?")


def dark_case(lamp: Lamp) -> tuple[str, str]:
    """What tells most of a dark lamp with current in its line, for its cost, the safer first.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the measurement.
    """
    hunt = Hunt(lamp, DARK_HUNT)
    hunt.measure("plug-in")
    diagnosis = hunt.diagnosis()
    causes = [cause.words for cause in diagnosis.causes[:3]]
    allowed = {measurement.key: measurement for measurement in measurements_for(lamp, live=False)}
    key = diagnosis.next.measurement.key
    return (
        f"Three causes fit: {', '.join(causes[:-1])}, or {causes[-1]}. What parts them best for its trouble:"
        f" {allowed[key].words}. The dc volts would be nought with all three."
    ), key
