"""Board: a lamp from what was typed, part by part in the order of the board; what stays open is taken as usual."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from ...circuit.fields import about, documented
from ...circuit.lamp import Lamp, LedString, value_at
from ...circuit.parts import BY_KEY
from ...circuit.values import show_exactly
from .entries import NONE, read_capacitor, read_count, read_diode, read_led, read_mains, read_resistor


@dataclass(frozen=True)
class Row:
    """One field of the form: what it is of, an example, what is usual, and what a part left out is worth."""

    key: str
    name: str
    example: str
    usual: str  # "" where it has to be typed
    read: Callable
    absent: object = ...  # in the lamp where there is none; ... where there has to be one


def _resistor(key, name, example, usual, absent):
    return Row(key, name, example, usual, partial(read_resistor, key), absent)


ROWS = (
    Row("mains", "mains V1", "230 V 50 Hz", "230 V 50 Hz", read_mains),
    Row("dropper", "dropper C1", "684J 400V, or 0.47 measured", "330 nF", partial(read_capacitor, "dropper")),
    _resistor("bleeder", "its bleeder R2", "1M, or brown black green gold", "1 MΩ", None),
    _resistor("inrush_resistor", "inrush resistor R1", "220 Ω", "220 Ω", 0.0),
    Row("diodes", "diodes D1–D4", "1N4007, or 0.8 V at 10 mA", "0.8 V at 10 mA", read_diode),
    Row("smoothing", "smoothing C2", "10 µF 100V", "10 µF", partial(read_capacitor, "smoothing"), 0.0),
    _resistor("smoothing_bleeder", "its bleeder R3", "330k", "330 kΩ", None),
    _resistor("series_resistor", "series resistor R4", "10R", "10 Ω", 0.0),
    Row("leds", "LEDs", "22, or 19 × 2 LEDs", "", read_count),
    Row("led", "one LED", "warm white, or 3.1 V at 20 mA", "", read_led),
)
_STORES = ("bleeder", "smoothing_bleeder")
_OPEN = "Not known: {} is taken, as is usual (common practice, no source)."


@documented
@dataclass(frozen=True)
class Board:
    """What was typed, read."""

    lamp: Lamp | None = about("the lamp; None while something is wrong or missing that has to be known")
    words: Mapping[str, str] = about("what is said back, by the row's key")
    wrong: Mapping[str, str] = about("what is wrong, by the row's key")
    missing: tuple = about("names of the rows that have to be typed and are not")
    sketch: Lamp = about("what is drawn: the usual in place of what is wrong or missing")
    captions: Mapping[str, str] = about("captions of the drawing where a value is not known, by the part's key")


def read_board(
    texts: Mapping[str, str], name: str = "my lamp", base: Lamp | None = None, folder: Path | str = "lamps"
) -> Board:
    """Read a board.

    Parameters
    ----------
    texts
        What was typed, by the keys of `ROWS`; empty where it is not known, "none" where there is no such part.
    name
        Of the lamp.
    base
        A lamp that is changed: what no row is about (readings, the shape of its mains) stays.
    folder
        Where a table of points measured on an LED is looked for.

    Examples
    --------
    >>> board = read_board({"dropper": "684J 400V", "leds": "19 × 2", "led": "warm white", "bleeder": "none"})
    >>> board.lamp
    <Lamp 'my lamp': 230 V 50 Hz, dropper 680 nF, 19 × 2 LEDs of 3 V at 20 mA, smoothing 10 µF>
    >>> read_board({"dropper": "680 nH"}).missing
    ('LEDs', 'one LED')
    """
    values, words, wrong, missing, captions = {}, {}, {}, [], {}
    for row in ROWS:
        text = texts.get(row.key, "").strip()
        try:
            values[row.key], words[row.key] = _read(row, text, folder)
        except (ValueError, OSError, ArithmeticError) as error:
            wrong[row.key] = str(error)
        part = "leds" if row.key == "led" else row.key
        if row.key in wrong or text in ("", "?"):
            captions[part] = "?"
        if not row.usual and text in ("", "?"):
            missing.append(row.name)
    sketch = _lamp({**_usual(), **{key: value for key, value in values.items() if value is not ...}}, name, base)
    whole = not wrong and not missing
    return Board(sketch if whole else None, words, wrong, tuple(missing), sketch, captions)


def texts_of(lamp: Lamp) -> dict[str, str]:
    """What would be typed for a lamp, by the keys of `ROWS`."""
    led, diode, string = lamp.string.led, lamp.diode, lamp.string
    texts = {}
    for row in ROWS:
        if row.key in ("dropper", "smoothing") or row.absent is not ...:
            value = value_at(lamp, row.key)
            texts[row.key] = (
                show_exactly(value, "F" if row.key in ("dropper", "smoothing") else "Ω") if value else "none"
            )
    texts["mains"] = f"{show_exactly(lamp.mains.voltage, 'V')} {show_exactly(lamp.mains.frequency, 'Hz')}"
    texts["diodes"] = f"{show_exactly(diode.forward_voltage, 'V')} at {show_exactly(diode.at_current, 'A')}"
    texts["leds"] = f"{string.in_series} × {string.in_parallel}" if string.in_parallel > 1 else str(string.in_series)
    texts["led"] = f"{show_exactly(led.forward_voltage, 'V')} at {show_exactly(led.at_current, 'A')}"
    return texts


def _read(row, text, folder):
    """The value of a row and what is said back; ... as value where it is not known and nothing is usual."""
    if text in ("", "?"):
        if not row.usual:
            return ..., "Has to be known." if row.key == "leds" else "Has to be known: its kind, its volts, or a fit."
        care = " Nothing says that it is there: look." if row.key in _STORES else ""
        return row.read(row.usual).value, f"{_OPEN.format(row.usual)}{care}"
    if text.casefold() in NONE:
        if row.absent is ...:
            raise ValueError(f"{row.name}: every lamp of this kind has one; leave it empty if it is not known")
        care = " The capacitor then keeps its charge after unplugging." if row.key in _STORES else ""
        return row.absent, f"None is fitted.{care}"
    entry = row.read(text, folder) if row.key == "led" else row.read(text)
    return entry.value, f"{entry.words}."


def _usual():
    usual = {row.key: row.read(row.usual).value for row in ROWS if row.usual}
    return usual | {"leds": (20, 1), "led": read_led("warm white").value}


def _lamp(values, name, base):
    (series, parallel), led, mains = values["leds"], values["led"], values["mains"]
    diode, fields = values["diodes"], {row.key: values[row.key] for row in ROWS if row.key in BY_KEY}
    for key in ("mains", "diodes", "leds"):
        fields.pop(key)
    if base:
        mains = base.mains.replace(voltage=mains.voltage, frequency=mains.frequency)
        diode, led = _kept(base.diode, diode), _kept(base.string.led, led)
        fields["readings"] = base.readings
    return Lamp(mains, LedString(led, series, parallel), diode=diode, name=name, **fields)


def _kept(before, now):
    """The part of the lamp that is changed, with its whole curve, where its point is still the one that was typed."""
    same = (before.forward_voltage, before.at_current) == (now.forward_voltage, now.at_current)
    return before if same else now
