"""Codes printed on a part, read in every way it can be read: 474K, 105J 400V, 2A104K, 4R7, 01C, 1N4007, X2 275V~.

    codes.read("474K 250V")[0].text       # 470 nF ±10 %, 250 V dc
    [each.text for each in codes.read("474")]

A code alone does not say what part it stands on. All meanings are given, usual values first.
"""

import re
from dataclasses import replace

from ...circuit.excerpt import excerpt
from .code_meanings import all_of
from .letters import tolerance_of
from .meaning import MarkError, Meaning, by_likelihood

LONGEST = 60
_LOOKALIKES = {0x2126: "Ω", 0x03BC: "µ", 0x223C: "~", 0x2393: "=", 0x2212: "-"}
_END = r"(?=$|[\s/;,])"
# What may stand beside a code, each with a name for what it tells.
_BESIDE = (
    ("voltage", rf"~?\s*(\d+(?:\.\d+)?)\s*(?:V\s*(AC|DC|~|=|-)?|(~)|VAC|VDC){_END}"),
    ("mains", rf"(X[123]|Y[124])(?:/?(Y[124]|X[123]))?{_END}"),
    ("percent", rf"±?\s*(\d+(?:\.\d+)?)\s*%{_END}"),
    ("watts", r"(\d+(?:\.\d+)?)\s*W(?=$|[\s/;,]|\d*(?:R|[Kk]\d))"),
    ("warmth", rf"(\d{{2,3}})\s*°C{_END}"),
    ("film", rf"(MKP|MKT|MKS|MPX|MEX|FKP|CBB\d*|CL\d*|PP|PET){_END}"),
)
_UNITS = r"(?:[pnuµm]?F|MFD|[kM]?(?:Ω|ohm))\b[A-Z]?"
_CODE = re.compile(rf"(\d+(?:[.,]\d+)?|[.,]\d+)\s+{_UNITS}|\S+?(?=$|\s|/(?=[XY\d])|;|,(?!\d))", re.I)
_OF_CAPACITORS = {"voltage", "mains", "warmth", "film"}
_OFTEN_WET = 0.47e-6  # F, from which a capacitor marked in full with a dc voltage is often an electrolytic
_MAINS = {
    "X1": "X1: for across the mains, tested with pulses of 4 kV.",
    "X2": "X2: for across the mains, tested with pulses of 2.5 kV.",
    "X3": "X3: for across the mains where pulses stay below 1.2 kV (value from memory).",
    "Y1": "Y1: from a line to what can be touched, the stricter class.",
    "Y2": "Y2: from a line to earth.",
    "Y4": "Y4: from a line to earth, up to 150 V.",
}
_SERIES = "In SERIES with the mains the class vouches for nothing: the data sheet has to name that use (IEC 60384-14)."
_DC = "A voltage without ~, AC or VAC is a dc rating: of the mains it says nothing."


def read(text: str) -> tuple[Meaning, ...]:
    """All that a print can mean.

    Parameters
    ----------
    text
        As it stands on the part, its pieces with spaces between.

    Returns
    -------
    tuple of Meaning
        The likeliest first.

    Raises
    ------
    MarkError
        Naming the position and the character at which it cannot be read on.

    Examples
    --------
    >>> [(each.text, each.part) for each in read("474K")]
    [('470 nF ±10 %', 'film or ceramic capacitor'), ('474 kΩ', 'resistor')]
    >>> read("105J 400V")[0].text, read("2A104K")[0].text
    ('1 µF ±5 %, 400 V dc', '100 nF ±10 %, 100 V dc')
    """
    if not isinstance(text, str) or not text.strip():
        raise MarkError("marking: nothing is typed yet; write it like 474K 250V, 4R7, 01C or 1N4007")
    if len(text) > LONGEST:
        raise MarkError(f"marking: more than {LONGEST} characters; write what stands on one part")
    plain = text.translate(_LOOKALIKES)
    piece_read, beside, place = None, {}, 0
    while place < len(plain):
        if plain[place] in " \t/;,":
            place += 1
            continue
        kind, piece, place = _next(plain, place, text, piece_read is not None)
        if kind == "code":
            piece_read = piece
        elif kind in beside:
            raise MarkError(f"marking: {excerpt(text)} gives the {kind} twice, the second time at character {place}")
        else:
            beside[kind] = piece
    if piece_read is None:
        raise MarkError(f"marking: {excerpt(text)} has no value in it; add the code, such as 474K or 0.33 µF")
    meanings = [each for each in (_with(meaning, beside) for meaning in piece_read) if each]
    if not meanings:
        kinds = " and ".join(sorted({meaning.part for meaning in piece_read}))
        raise MarkError(f"marking: {excerpt(text)}: what stands beside the code is not found on a {kinds}")
    return by_likelihood(meanings)


def _next(plain, place, text, have):
    """The piece that begins at a place: its kind, what it tells, and where it ends."""
    for kind, pattern in _BESIDE:
        read = re.compile(pattern, re.I).match(plain, place)
        if read:
            return kind, read, read.end()
    if have and (read := re.compile(rf"([BCDFGJKMZ]){_END}").match(plain, place)):
        return "letter", read[1], read.end()
    read = _CODE.match(plain, place)
    piece = re.sub(r"\s", "", read[0]) if read else ""
    meanings = all_of(piece) if piece and not have else []
    if not meanings:
        raise MarkError(_where(plain, place, read[0] if read else plain[place], text, have))
    return "code", meanings, read.end()


def _where(plain, place, piece, text, have):
    """The position and the character at which reading stops."""
    good = 0
    if not have:
        good = max((size for size in range(1, len(piece)) if all_of(piece[:size])), default=0)
    at = place + good
    if have:
        return f"marking: {excerpt(text)}: character {at + 1}, {plain[at]!r}, begins what cannot stand beside a code"
    if good:
        return f"marking: {excerpt(text)}: character {at + 1}, {plain[at]!r}, cannot follow {excerpt(piece[:good])}"
    return (
        f"marking: {excerpt(text)}: character {at + 1}, {plain[at]!r}, begins no known code; write it like 474K, 4R7,"
        " 01C, 0.33 µF or 1N4007"
    )


def _with(meaning, beside):
    """A meaning with what stands beside the code, or None where that cannot be."""
    if not beside:
        return meaning
    resistor = meaning.unit == "Ω"
    if meaning.unit == "V" or set(beside) & (_OF_CAPACITORS if resistor else {"watts"}):
        return None
    if "letter" in beside and meaning.minus is None and meaning.absolute is None:
        meaning = _letter(meaning, beside["letter"])
    if "percent" in beside:
        percent = float(beside["percent"][1])
        meaning = replace(meaning, minus=percent, plus=percent, absolute=None)
    if "voltage" in beside:
        piece_read = beside["voltage"]
        text = piece_read[0].upper()
        ac = "~" in text or "AC" in text or "mains" in beside
        meaning = replace(meaning, voltage=float(piece_read[1]), supply="ac" if ac else "dc")
        meaning = meaning if ac else meaning.with_notes(_DC)
        if not ac and meaning.part == "capacitor" and meaning.value >= _OFTEN_WET:
            meaning = meaning.with_notes("If it is an electrolytic, the stripe down its side marks the MINUS lead.")
    if "mains" in beside:
        if "voltage" in beside and "~" not in text and "AC" not in text:
            meaning = meaning.with_notes(f"{meaning.voltage:g} V are ac here: the class says what the mains may be.")
        classes = [name.upper() for name in beside["mains"].groups() if name]
        meaning = meaning.with_notes(*(_MAINS[name] for name in classes), _SERIES)
    if "watts" in beside:
        meaning = meaning.with_notes(f"{beside['watts'][1]} W: what it stands in free air, up to 70 °C as a rule.")
    if "warmth" in beside:
        meaning = meaning.with_notes(
            f"{beside['warmth'][1]} °C: up to this temperature, the part's own warmth counted."
        )
    return meaning


def _letter(meaning, letter):
    """A meaning with the tolerance that a letter standing apart gives it."""
    minus, plus, absolute = tolerance_of(letter, meaning.value if meaning.unit == "F" else None)
    meaning = replace(meaning, minus=minus, plus=plus, absolute=absolute)
    return replace(meaning, how=f"{meaning.how} {letter}: {meaning.tolerance}.")
