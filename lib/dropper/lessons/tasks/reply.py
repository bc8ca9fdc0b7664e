"""Reply: what a learner types as an answer, read as a number in the unit that was asked for.

Reading is `parsing.parse`, with room for what people write around a number: "I = 12 mA",
"≈ 1.2×10⁻² A", "54 per cent", "0.93 rad" where degrees are asked.
"""

import math
import re

from ...circuit.excerpt import label
from ...circuit.parsing import ValueTextError, parse, plainly
from ...circuit.units import UNITS

LONGEST = 60
EXAMPLES = {
    "A": "12 mA",
    "V": "150 V",
    "W": "1.3 W",
    "VA": "4.2 VA",
    "var": "3.9 var",
    "F": "330 nF",
    "Ω": "4.7 kΩ",
    "Hz": "50 Hz",
    "C": "120 µC",
    "°": "53.1°",
    "%": "54 %",
    "": "0.54",
    "s": "0.8 s",
    "J": "25 mJ",
    "K": "35 K",
    "°C": "68 °C",
    "h": "16000 h",
    "years": "7.5 years",
}
NAMES = {unit: UNITS[unit].name for unit in EXAMPLES}
# Those that are read here, because a reply may have a sign of its own behind the number; the rest `parse` reads.
_ENDINGS = {unit: UNITS[unit].read_as for unit in ("C", "var", "%", "s", "J", "K", "°C", "h", "years")}
_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+")
_POWER = re.compile(r"\s*[×x·*]\s*10\s*(?:\^|\*\*)?\s*([⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺]+|[+\-−]?\d+)(?![\d.,])")
_LEAD = re.compile(r"^(?:[A-Za-zΔφγθ]+(?:_\w+)?\s*)?[=≈~]\s*")
_TAIL = re.compile(r"\s+(?:rms|mean|peak|peak to peak|p-p|pp|each|about|approx\.?)$", re.I)
_GROUPS = re.compile(r"(?<=\d)[ '](?=\d{3}(?:\D|$))")
_MONEY = re.compile(r"^[€$£¥₹]\s*|\s*[€$£¥₹]$")


class ReplyError(ValueError):
    """An answer that cannot be read; the message is a friendly sentence."""


def read(text: str, unit: str) -> float:
    """Read one typed answer.

    Parameters
    ----------
    text
        As people write it; a number without a unit is taken in the unit itself, without prefix.
    unit
        The unit asked for, one of `NAMES`.

    Returns
    -------
    float
        Finite, in that unit (degrees for an angle, per cent for "%").

    Raises
    ------
    ReplyError
        With a sentence for the learner.

    Examples
    --------
    >>> read("12,5 mA", "A"), read("≈ 1.2×10⁻² A", "A"), read("140 µC", "C"), read("54 %", "%")
    (0.0125, 0.012, 0.00014, 54.0)
    """
    if not isinstance(text, str) or not text.strip():
        raise ReplyError(f"Nothing is typed yet. Write {_example(unit)}.")
    if len(text) > LONGEST:
        raise ReplyError(f"That is more than {LONGEST} characters. One number with its unit is enough.")
    plain, typed = _plain(text), label(text, LONGEST)
    try:
        number = _number(plain, unit)
    except ValueTextError:
        raise ReplyError(_why(plain, typed, unit)) from None
    if not math.isfinite(number):
        raise ReplyError(f"“{typed}” is no finite number. Write {_example(unit)}.")
    return number


def _plain(text):
    """The number and its unit without what people write around them."""
    plain = plainly(text)
    plain = _LEAD.sub("", plain)
    plain = _TAIL.sub("", plain).rstrip(".;!? ")
    plain = _POWER.sub(lambda match: "e" + match[1].translate(_SUPERSCRIPTS), plain, count=1)
    return _GROUPS.sub("", plain)


def _number(plain, unit):
    if unit in _ENDINGS:
        without_prefix = UNITS[unit].plain
        for ending in _ENDINGS[unit]:
            if plain.endswith(ending):
                number = plain.removesuffix(ending).strip()
                if without_prefix and number[-1:].isalpha():
                    raise ValueTextError(plain)
                return _bare(number, "" if without_prefix else "V")
        return _bare(plain, "" if without_prefix else "V")
    if unit == "°" and plain.lower().endswith(("rad", "radians")):
        return math.degrees(_bare(re.sub(r"\s*rad(ians)?$", "", plain, flags=re.I), ""))
    if unit == "°":
        plain = re.sub(r"\s*(degrees|degree)$", "°", plain, flags=re.I)
    if unit == "":
        plain = _MONEY.sub("", plain)
    return parse(plain, unit)


def _bare(plain, unit):
    """A number, with a prefix perhaps, but no unit of its own."""
    number = parse(plain, unit)
    if unit and plain.endswith(UNITS[unit].read_as):
        raise ValueTextError(plain)
    if plain.endswith("%"):
        raise ValueTextError(plain)
    return number


def _why(plain, typed, unit):
    """Why an answer could not be read, and what would do."""
    if re.search(r"\d,\d{3}(?!\d)", plain):
        return f"“{typed}” could mean thousands or a decimal comma. Write it without the comma."
    for other, name in NAMES.items():
        if other and other != unit and _reads_as(plain, other):
            return f"“{typed}” is in {name}; what is asked for is {_in(unit)}. Write it like {EXAMPLES[unit]}."
    return f"“{typed}” cannot be read. Write {_example(unit)}."


def _reads_as(plain, other):
    try:
        number = _number(plain, other)
    except ValueTextError:
        return False
    return math.isfinite(number) and plain.endswith(UNITS[other].read_as)


def _in(unit):
    return NAMES[unit] if unit in ("", "%", "var", "years") else f"in {NAMES[unit]} ({unit})"


def _example(unit):
    kind = "a plain number" if unit == "" else "a number with its unit"
    return f"{kind}, such as {EXAMPLES[unit]}"
