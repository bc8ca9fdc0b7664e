"""Pull of the plug: what stands on the pins and on both capacitors a time after, for several moments of pulling."""

from collections.abc import Sequence

from ...circuit.lamp import Lamp
from ..kernel import transient
from .circuit import LINE_RESISTANCE, check_line_resistance, check_number
from .faults import Faulty, circuit_of
from .repeating_cycle import settle
from .run import Run

_FINE = 80  # steps at least from the pull to the end


def volts_left(lamp: Lamp | Faulty, angles: Sequence[float], seconds: float, across: float) -> list[tuple[float, ...]]:
    """Volts between the pins, on the dropper and on the bus a time after the pull: last values of `unplug`'s waves.

    The settled lamp is followed once through its cycle for all moments, and no wave is kept.

    Parameters
    ----------
    angles
        Of the mains at the pull, degrees, 0 to 360, rising.
    seconds
        From the pull on, 1 ms to 1e6 s.
    across
        Ohms across the pins from then on, 1 Ω to 1 TΩ.

    Raises
    ------
    ValueError
        If a value is out of its range, or nothing is left to limit the inrush.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", inrush_resistor=220)
    >>> [round(volts) for volts in volts_left(lamp, [90.0], 1e-3, 1e6)[0]]
    [187, 255, 66]
    """
    circuit = circuit_of(lamp)
    line = check_line_resistance(circuit, LINE_RESISTANCE)
    angles = [check_number("angles", angle, "degrees", 0, 360) for angle in angles]
    if angles != sorted(angles):
        raise ValueError("angles: they must rise")
    seconds = check_number("seconds", seconds, "s", 1e-3, 1e6)
    across = check_number("across", across, "Ω", 1, 1e12)
    run, left = Run(circuit, line, 0.0, *settle(lamp).start), []
    for angle in angles:
        if angle > 360 * run.time / run.period:
            run.advance(angle / 360 * run.period - run.time, jump=False)
            run.clear()
        pulled = Run(circuit, across, run.time, run.dropper, run.bus)
        pulled.advance(seconds, factor=0.0, longest=seconds / _FINE)
        last = pulled.blocks[-1][:, -1]
        dropper = last[transient.DROPPER]
        pins = dropper + last[transient.BRIDGE] + circuit.inrush_resistor * last[transient.LINE]
        left.append((float(pins), float(dropper), float(last[transient.BUS])))
    return left
