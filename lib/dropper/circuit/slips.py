"""Slips: what was probably meant by a value that cannot be, where a person's slip is plain."""

import re
from collections.abc import Callable

from .units import PREFIXES

_CODE = re.compile(r"([1-9]\d)([0-6])")  # two digits and the number of zeros, in picofarads (IEC 60062)
_WITH_PREFIX = re.compile(r"([\d.,]+) ?([kKmMuµnp]?)(?=[FΩVAWs]|$)")
# What each is taken for by mistake: capital and small letters, and one step of a thousand.
_MEANT = {"m": "Mµn", "M": "mµk", "k": "m", "K": "m", "": "mµnkM", "µ": "nm", "u": "nm", "n": "µp", "p": "nµ"}
_PEAK = re.compile(r"([\d.,]+) ?([km]?)([VA]) ?(pp|p-p|p|pk|peak)", re.IGNORECASE)
_SMALL_M = re.compile(r"[\d.,]+ ?m")


def meant(text: str, unit: str, allowed: Callable[[float], bool], write: Callable[[float, str], str]) -> str:
    """What a typed value out of range was probably to be, as the end of a sentence; "" where nothing is near.

    Parameters
    ----------
    text
        As `parsing.plainly` gives it.
    allowed
        Whether a value in SI units may stand there.
    write
        Writes a value with its unit.

    Examples
    --------
    >>> from dropper.circuit.values import show
    >>> meant("474", "F", lambda farad: farad < 1e-4, show)
    '; the code 474 on a capacitor means 470 nF'
    >>> meant("10 mF", "F", lambda farad: farad < 1e-4, show), meant("26", "A", lambda ampere: ampere < 10, show)
    ('; did you mean 10 µF or 10 nF?', '; did you mean 26 mA?')
    """
    code = _CODE.fullmatch(text)
    if code and unit == "F":
        farad = int(code[1]) * 10 ** int(code[2]) * 1e-12
        if allowed(farad):
            return f"; the code {text} on a capacitor means {write(farad, unit)}"
    read = _WITH_PREFIX.match(text)
    if not read or unit not in ("F", "Ω", "V", "A", "W"):
        return ""
    try:
        number = float(read[1].replace(",", "."))
    except ValueError:
        return ""
    others = [number * PREFIXES[sign] for sign in _MEANT[read[2]] if _usual(sign, unit)]
    words = " or ".join(write(value, unit) for value in others if allowed(value))
    return f"; did you mean {words}?" if words else ""


def ambiguous(text: str, unit: str) -> str:
    """Why a value that could be read must be written in another way; "" where it need not.

    Examples
    --------
    >>> ambiguous("1m", "Ω"), ambiguous("1 M", "Ω")
    ('could be 1 mΩ or 1 MΩ', '')
    """
    if unit == "Ω" and _SMALL_M.fullmatch(text):
        number = text.rstrip("m ")
        return f"could be {number} mΩ or {number} MΩ"
    return ""


def peak(text: str, unit: str) -> str:
    """Why a peak cannot stand where an rms value is asked; "" for what is none.

    Examples
    --------
    >>> peak("325 Vp", "V")
    'is a peak; asked is the rms value, for a sine 230 V'
    >>> peak("650 Vpp", "V"), peak("325 V", "V")
    ('is from peak to peak; asked is the rms value, for a sine 230 V', '')
    """
    read = _PEAK.fullmatch(text)
    if not read or read[3].upper() != unit:
        return ""
    try:
        number = float(read[1].replace(",", "."))
    except ValueError:
        return ""
    whole = read[4].lower() in ("pp", "p-p")
    rms = number / 2**0.5 / (2 if whole else 1)
    name = "from peak to peak" if whole else "a peak"
    return f"is {name}; asked is the rms value, for a sine {rms:.3g} {read[2]}{unit}"


def _usual(sign, unit):
    """Whether the trade writes that prefix before that unit."""
    usual = {"F": "pnµ", "Ω": "kM", "V": "mk", "A": "m", "W": "mk"}[unit]
    return sign in usual
