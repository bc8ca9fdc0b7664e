"""What a learner types as an answer, read as a number in the unit that was asked for.

Reading is `values.parse`, with room for what people write around a number: "I = 12 mA",
"≈ 1.2×10⁻² A", "54 per cent", "0.93 rad" where degrees are asked.
"""

import math
import re

from ...circuit.values import UNIT_NAMES, ValueTextError, parse, plainly

LONGEST = 60
NAMES = {
    "A": "amperes",
    "V": "volts",
    "W": "watts",
    "VA": "volt-amperes",
    "var": "var",
    "F": "farads",
    "Ω": "ohms",
    "Hz": "hertz",
    "C": "coulombs",
    "°": "degrees",
    "%": "per cent",
    "": "a plain number",
    "s": "seconds",
    "J": "joules",
    "K": "kelvins",
    "°C": "degrees Celsius",
    "h": "hours",
    "years": "years",
}
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
# Units that `values.parse` does not know, and how people write them.
_MORE = {
    "C": ("coulombs", "coulomb", "C"),
    "var": ("vars", "var", "VAr", "VAR"),
    "%": ("per cent", "percent", "%"),
    "s": ("seconds", "second", "sec", "s"),
    "J": ("joules", "joule", "J"),
    "K": ("kelvins", "kelvin", "K"),
    "°C": ("degrees Celsius", "degrees C", "degrees", "°C", "°", "C"),
    "h": ("hours", "hour", "h"),
    "years": ("years", "year", "a"),
}
_WITHOUT_PREFIX = {"%", "K", "°C", "h", "years"}
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
    plain = _plain(text)
    try:
        number = _number(plain, unit)
    except ValueTextError:
        raise ReplyError(_why(plain, text.strip(), unit)) from None
    if not math.isfinite(number):
        raise ReplyError(f"“{text.strip()}” is no finite number. Write {_example(unit)}.")
    return number


def _plain(text):
    """The number and its unit without what people write around them."""
    plain = plainly(text)
    plain = _LEAD.sub("", plain)
    plain = _TAIL.sub("", plain).rstrip(".;!? ")
    plain = _POWER.sub(lambda match: "e" + match[1].translate(_SUPERSCRIPTS), plain, count=1)
    return _GROUPS.sub("", plain)


def _number(plain, unit):
    if unit in _MORE:
        for name in _MORE[unit]:
            if plain.endswith(name):
                number = plain.removesuffix(name).strip()
                if unit in _WITHOUT_PREFIX and number[-1:].isalpha():
                    raise ValueTextError(plain)
                return _bare(number, "" if unit in _WITHOUT_PREFIX else "V")
        return _bare(plain, "" if unit in _WITHOUT_PREFIX else "V")
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
    if unit and plain.endswith(tuple(UNIT_NAMES[unit])):
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
    endings = (*UNIT_NAMES.get(other, ()), *_MORE.get(other, ()))
    return math.isfinite(number) and plain.endswith(endings)


def _in(unit):
    return NAMES[unit] if unit in ("", "%", "var", "years") else f"in {NAMES[unit]} ({unit})"


def _example(unit):
    kind = "a plain number" if unit == "" else "a number with its unit"
    return f"{kind}, such as {EXAMPLES[unit]}"
