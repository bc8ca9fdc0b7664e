"""The lamps that tasks ask the solver about: plain white LEDs behind a bridge."""

from functools import lru_cache


@lru_cache(maxsize=128)
def lamp(voltage, frequency, dropper, in_series, smoothing=22e-6, inrush_resistor=0.0):
    """A lamp of LEDs of 3 V at 20 mA; the rest in SI units."""
    from ..lamp import Lamp, Led, LedString, Mains

    string = LedString(Led(forward_voltage=3.0, at_current=0.020), in_series=in_series)
    mains = Mains(voltage=voltage, frequency=frequency)
    return Lamp(mains, string, dropper, smoothing, inrush_resistor=inrush_resistor)


@lru_cache(maxsize=128)
def settled(voltage, frequency, dropper, in_series, smoothing=22e-6, inrush_resistor=0.0):
    """Its steady state."""
    from ..steady import steady_state

    return steady_state(lamp(voltage, frequency, dropper, in_series, smoothing, inrush_resistor), 256)


def direction(before, after, least):
    """Whether a quantity "rises", "falls" or, within a fraction `least` of what it was, stays the "same"."""
    if abs(after - before) <= least * before:
        return "same"
    return "rises" if after > before else "falls"
