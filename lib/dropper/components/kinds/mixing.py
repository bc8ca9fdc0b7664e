"""LEDs of several kinds in one string in series, as one LED that the lamp can count."""

import math
from collections.abc import Sequence

from ...circuit.excerpt import excerpt
from ...circuit.lamp import Led, LedString
from ...circuit.values import show
from .leds import LedKind

NEAR = 1e-3  # of the string's voltage: as far as the one LED may be off the many
FROM, TO = 0.01, 100.0  # times the common current: where that is looked at


def mixed(parts: Sequence[tuple[LedKind | Led, int]], which: str = "typical") -> LedString:
    """A string of LEDs of several kinds in series, as that many equal LEDs with the same law.

    Far above the saturation currents each LED follows V = n·Vt·ln(i/Is) + R·i. In series these add up to one more law
    of that form: idealities and resistances are averaged over the LEDs, and so are the forward voltages at one common
    current. What the saturation currents leave out is less than 0.1 % of the string's voltage from 1 % of the common
    current up; where it is more, the string is refused.

    Parameters
    ----------
    parts
        Each kind and how many of it. All carry the same current, so their order does not matter.
    which
        "typical", "least" or "greatest" forward voltage, of those that are an `LedKind`.

    Returns
    -------
    LedString
        Its one LED is stated at the common current, the least of those that the kinds are stated at.

    Raises
    ------
    ValueError
        For kinds that are to share a group in parallel, a count that is not whole, or no LED at all.

    Examples
    --------
    >>> from dropper.components import kinds
    >>> string = kinds.mixed([(kinds.led_kind("red, 5 mm"), 6), (kinds.led_kind("blue, 5 mm"), 9)])
    >>> string.in_series, round(string.voltage_at(0.020), 6)
    (15, 40.8)
    """
    leds = [_one(part, which) for part in _listed(parts)]
    count = sum(many for _, many in leds)
    if not 1 <= count <= 1000:
        raise ValueError(f"parts: {count} LEDs will not do for a string; allowed is 1 to 1000 in series")
    at_current = min(led.at_current for led, _ in leds)

    def mean(figure):
        return math.fsum(many * figure(led) for led, many in leds) / count

    volts = mean(lambda led: led.voltage_at(at_current))
    led = Led(volts, at_current, mean(lambda led: led.series_resistance), mean(lambda led: led.ideality))
    string = LedString(led, count)
    for current in (FROM * at_current, TO * at_current):
        many = math.fsum(number * led.voltage_at(current) for led, number in leds)
        off = abs(string.voltage_at(current) / many - 1)
        if off > NEAR:
            raise ValueError(
                f"parts: one law is {100 * off:.2g} % off these LEDs at {show(current, 'A')}, more than"
                f" {100 * NEAR:g} %; one of them is mostly series resistance, or hardly an LED"
            )
    return string


def _listed(parts):
    """The parts as a list of pairs."""
    try:
        pairs = [tuple(pair) for pair in parts]
    except TypeError:
        raise ValueError(f"parts: {excerpt(parts)} is not a list of (kind of LED, how many)") from None
    if not pairs:
        raise ValueError("parts: no LED at all; give at least one (kind of LED, how many)")
    for pair in pairs:
        if len(pair) != 2:
            raise ValueError(f"parts: {excerpt(pair)} is not (kind of LED, how many)")
    return pairs


def _one(pair, which):
    """The LED of a pair and how many of it."""
    kind, many = pair
    if isinstance(kind, LedString | list | tuple):
        raise ValueError(
            "parts: kinds are mixed in series only. In parallel they stand at one voltage, and the kind that needs the"
            " least takes nearly all of the current; give each kind with its count, (kind, 6)"
        )
    if isinstance(kind, LedKind):
        kind = kind.led(which)
    if not isinstance(kind, Led):
        raise ValueError(f"parts: {excerpt(kind)} is no kind of LED; give an LedKind, as led_kind finds one, or an Led")
    if isinstance(many, bool) or not isinstance(many, int) or many < 1:
        raise ValueError(f"parts: {excerpt(many)} LEDs will not do; give a whole number from 1 up")
    return kind, many
