"""Entries: one part of a board as it is typed, as printed or as measured, read as a value and said back in words."""

import re
from dataclasses import dataclass
from pathlib import Path

from ...circuit.excerpt import excerpt
from ...circuit.fields import check_value, spec_of
from ...circuit.lamp import Diode, Lamp, Led, LedString, Mains
from ...circuit.parsing import ValueTextError, parse, plainly
from ...circuit.values import show
from ...components.kinds import LEDS, RECTIFIERS
from ...components.marks.any_mark import read as read_mark
from ...components.marks.meaning import MarkError
from .. import led_fit

NONE = ("none", "no", "-", "0", "not fitted")
_MEASURED = re.compile(r"\s*,?\s*\b(as )?(measured|meas\.?|metered)$", re.I)
_BARE = re.compile(r"\d+(?:[.,]\d+)?")
_AMBIGUOUS = re.compile(r"[1-9]\d[0-7]")
_COUNT = re.compile(r"(\d+)\s*(?:[x×*]\s*(\d+)\s*)?(?:leds?)?", re.I)
_POINT = re.compile(r"(.+?)\s*(?:\bat\b|@)\s*(.+)", re.I)
_VOLTS = re.compile(r"\s*(\d[\d.,]*)\s*(?:V\b)?\s*[,;/]?\s*(?:(\d[\d.,]*)\s*(?:Hz)?)?\s*", re.I)
_WIDE = 20.0  # a bare number of a film capacitor below it is in microfarads, from it on in nanofarads


@dataclass(frozen=True)
class Entry:
    """One part as it was read: its value as a lamp takes it, and what is said back."""

    value: object
    words: str


def read_mains(text: str) -> Entry:
    """Volts and hertz: "230 V 50 Hz", "120/60", "230".

    >>> read_mains("120 V").words
    '120 V, 60 Hz (usual with these volts)'
    """
    match = _VOLTS.fullmatch(plainly(text))
    if not match:
        raise ValueTextError(f"mains: {excerpt(text)} cannot be read; write it like 230 V 50 Hz or 120 V 60 Hz")
    volts = parse(match[1], "V", "mains")
    usual = 60.0 if volts < 160 else 50.0
    mains = Mains(volts, parse(match[2], "Hz", "mains") if match[2] else usual)
    note = "" if match[2] else " (usual with these volts)"
    return Entry(mains, f"{show(mains.voltage, 'V')}, {show(mains.frequency, 'Hz')}{note}")


def read_capacitor(key: str, text: str) -> Entry:
    """A capacitor: "684J 400V", "330 nF", "0.47 measured"; a bare number on an electrolytic is in microfarads.

    >>> read_capacitor("dropper", "684J 400V").words
    '680 nF ±5 %, 400 V dc, as printed on a film or ceramic capacitor'
    >>> read_capacitor("dropper", "0.47 measured").words
    '470 nF, measured'
    """
    plain, measured = _measured(text)
    if _BARE.fullmatch(plain) and (measured or key == "smoothing"):
        micro = key == "smoothing" or parse(plain, "", key) < _WIDE
        value = _within(key, f"{plain} {'µF' if micro else 'nF'}", "F")
        return Entry(value, f"{show(value, 'F')}, {'measured' if measured else 'a bare number is taken in µF'}")
    return _value(key, plain, "F", measured)


def read_resistor(key: str, text: str) -> Entry:
    """A resistor: "1M", "4R7", "220 Ω", "105" is asked about, colour bands by name.

    >>> read_resistor("bleeder", "brown black green gold").words
    '1 MΩ ±5 %, as printed on a resistor'
    """
    plain, measured = _measured(text)
    if not measured and _AMBIGUOUS.fullmatch(plain):
        spec = spec_of(Lamp.__dataclass_fields__[key])
        ways = [ohms for ohms in (float(plain), float(int(plain[:2]) * 10 ** int(plain[2]))) if spec.holds(ohms)]
        if len(ways) == 2:
            first, printed = (show(ohms, "Ω") for ohms in ways)
            raise ValueTextError(
                f"{_name(key)}: {plain} can be {first}, or the print {plain} of {printed}; write {first} or {printed}"
            )
    return _value(key, plain, "Ω", measured)


def read_diode(text: str) -> Entry:
    """The bridge's diodes: a type kept in `components.kinds`, or "0.7 V at 10 mA".

    >>> read_diode("1n4007").words
    '1N4007, up to 1000 V; its drop taken as usual, 800 mV at 10 mA'
    """
    plain, usual = plainly(text), Diode()
    for kind in RECTIFIERS:
        if kind.name.casefold() == plain.casefold():
            drop = f"{show(usual.forward_voltage, 'V')} at {show(usual.at_current, 'A')}"
            return Entry(usual, f"{kind.name}, up to {kind.reverse_voltage:g} V; its drop taken as usual, {drop}")
    point = _POINT.fullmatch(plain)
    if not point:
        names = ", ".join(kind.name for kind in RECTIFIERS)
        raise ValueTextError(f"diodes: {excerpt(text)} is not known here; write 0.8 V at 10 mA, or one of {names}")
    diode = Diode(parse(point[1], "V", "diodes"), parse(point[2], "A", "diodes"))
    return Entry(diode, f"4 × {show(diode.forward_voltage, 'V')} at {show(diode.at_current, 'A')}")


def read_count(text: str) -> Entry:
    """How many LEDs: "22", or "19 × 2": groups in series, each of some in parallel.

    >>> read_count("19 × 2 LEDs").words
    '19 groups in series, each of 2 in parallel: 38 LEDs'
    """
    match = _COUNT.fullmatch(plainly(text))
    if not match:
        raise ValueTextError(f"LEDs: {excerpt(text)} cannot be read; write 22, or 19 × 2 for groups of two in parallel")
    pair = []
    for name, number in (("in_series", match[1]), ("in_parallel", match[2] or "1")):
        spec = spec_of(LedString.__dataclass_fields__[name])
        pair.append(int(check_value(f"LEDs {name.replace('_', ' ')}", parse(number, "", "LEDs"), spec)))
    series, parallel = pair
    if parallel == 1:
        return Entry((series, 1), f"{series} LEDs in series")
    return Entry(
        (series, parallel), f"{series} groups in series, each of {parallel} in parallel: {series * parallel} LEDs"
    )


def read_led(text: str, folder: Path | str = "lamps") -> Entry:
    """One LED: its kind or colour, its volts at a current, or a CSV of points measured on it.

    >>> read_led("red").words, read_led("3.1 V at 20 mA").value.forward_voltage
    ('red, 5 mm: 2 V at 20 mA', 3.1)
    """
    plain = plainly(text)
    if plain.casefold().endswith(".csv"):
        found = led_fit.from_csv(Path(folder) / plain if "/" not in plain else Path(plain)).led
        return Entry(found, f"fitted to {plain}: {_point(found)}")
    if point := _POINT.fullmatch(plain):
        led = Led(parse(point[1], "V", "LED"), parse(point[2], "A", "LED"))
        return Entry(led, _point(led))
    if not re.search("[^\\W\\d]{3}", plain):
        raise ValueTextError(f"LED: {excerpt(text)} is no kind, and no volts at a current; write 3.1 V at 20 mA")
    same = [kind for kind in LEDS if kind.name.casefold() == plain.casefold()]
    words = re.findall(r"[\w.]+", plain.casefold())
    fit = same or [kind for kind in LEDS if kind.name.casefold().startswith(plain.casefold())]
    fit = fit or [kind for kind in LEDS if words and all(word in kind.name.casefold() for word in words)]
    if len(fit) != 1:
        names = "; ".join(kind.name for kind in fit or LEDS)
        raise ValueTextError(
            f"LED: {excerpt(text)} is {'several' if fit else 'none'} of the kinds here: {names}. Or"
            " write 3.1 V at 20 mA"
        )
    return Entry(fit[0].led(), f"{fit[0].name}: {_point(fit[0].led())}")


def _point(led):
    return f"{show(led.forward_voltage, 'V')} at {show(led.at_current, 'A')}"


def _measured(text):
    plain = plainly(text)
    return _MEASURED.sub("", plain), bool(_MEASURED.search(plain))


def _value(key, plain, unit, measured):
    """A value as printed, else as people write it."""
    try:
        meanings = [each for each in read_mark(plain) if each.unit == unit]
    except MarkError as error:
        meanings, trouble = [], error
    else:
        trouble = None
    if meanings and not measured:
        spec = spec_of(Lamp.__dataclass_fields__[key])
        best = next((each for each in meanings if spec.holds(each.value)), meanings[0])
        value = check_value(_name(key), best.value, spec)
        how = "" if best.text == plainly(plain) else f", as printed on a {best.part}"
        return Entry(value, f"{best.text}{how}")
    try:
        value = _within(key, plain, unit)
    except ValueTextError as error:
        raise ValueTextError(
            f"{error}; or as it is printed, {'684J 400V' if unit == 'F' else '4R7 or colours by name'}"
        ) from trouble
    return Entry(value, f"{show(value, unit)}{', measured' if measured else ''}")


def _within(key, text, unit):
    value = parse(text, unit, _name(key))
    return check_value(_name(key), value, spec_of(Lamp.__dataclass_fields__[key]))


def _name(key):
    return key.replace("_", " ")
