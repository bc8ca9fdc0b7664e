"""Meanings of one code, kind of part by kind of part; each function gives the meanings it has or none."""

import re
from dataclasses import replace

from ...circuit.parsing import parse
from ...circuit.values import show
from .letters import DECADES, MULTIPLIERS, TOLERANCES, VOLTS, eia_96, power_of, rated_volts, tolerance_of
from .meaning import Meaning

_TOL = "".join(TOLERANCES)
CAPACITOR = "film or ceramic capacitor"
_MOST_OHMS, _MOST_FARADS = 1e9, 1e-2
_OFTEN_POLAR = 1e-6  # F, from which a capacitor is as often an electrolytic as a film type


def all_of(code: str) -> list[Meaning]:
    """Every meaning that is known of one code, in the order in which the kinds are looked at.

    Parameters
    ----------
    code
        Without spaces.

    Returns
    -------
    list of Meaning
        Empty where it has none.
    """
    kinds = (_plain, _ohms, _capacitor, _letter_code, _chip, _eia, _varistor, _diode)
    return [meaning for kind in kinds for meaning in kind(code)]


def _farads(value, letter, how, part=CAPACITOR, **more):
    minus, plus, absolute = tolerance_of(letter.upper(), value) if letter else (None, None, None)
    meaning = Meaning(value, "F", part, how, minus, plus, absolute, **more)
    return replace(meaning, how=f"{how} {letter.upper()}: {meaning.tolerance}.") if letter else meaning


def _resistor(value, letter, how, part="resistor"):
    minus, plus, _ = tolerance_of(letter.upper()) if letter else (None, None, None)
    meaning = Meaning(value, "Ω", part, how, minus, plus)
    return replace(meaning, how=f"{how} {letter.upper()}: {meaning.tolerance}.") if letter else meaning


def _capacitor(code):
    """Numerals in picofarads, a tolerance letter behind, a voltage code before: 474K, 2A104J, 47, 479."""
    before = f"(?:([{''.join(map(str, DECADES))}])([{''.join(VOLTS)}])(?=\\d\\d\\d))?"
    read = re.fullmatch(rf"{before}(\d{{1,4}})([{_TOL}])?", code, re.I)
    if not read or (read[3][0] == "0" and len(read[3]) > 1):
        return
    decade, volt_letter, numerals, letter = read.groups()
    voltage, before = None, ""
    if decade:
        voltage = rated_volts(int(decade), volt_letter.upper())
        before = f"{decade}{volt_letter.upper()}: {VOLTS[volt_letter.upper()]:g} × 10^{decade} V = {voltage:g} V dc. "
    more = {"voltage": voltage, "supply": "dc" if voltage else ""}
    if len(numerals) < 3:
        value = float(f"{numerals}e-12")
        if value:
            how = f"{before}{numerals} pF: without a third numeral it is the number itself."
            yield _farads(value, letter, how, **more)
        return
    number, power = numerals[:-1], power_of(numerals[-1])
    value = float(f"{number}e{power - 12}")
    zeros = f"{number} × {10**power:,} pF".replace(",", " ") if power >= 0 else f"{number} × {10.0**power:g} pF"
    if value <= _MOST_FARADS:
        how = f"{before}{number}, and {numerals[-1]} for the multiplier: {zeros} = {show(value, 'F')}."
        yield _farads(value, letter, how, **more)
    if len(numerals) == 4 and numerals[-1] == "0":
        value = float(f"{numerals}e-12")
        yield _farads(value, letter, f"{before}{numerals} pF as a plain number, as older film types have it.", **more)


def _chip(code):
    """Numerals in ohms: 474, 4992; and 0, 00, 000 for a link."""
    if re.fullmatch(r"0{1,4}|0R0{0,2}", code):
        yield Meaning(0.0, "Ω", "chip link", "Nothing but 0: a link, 0 Ω.")
    elif re.fullmatch(r"[1-9]\d{2,3}", code):
        number, power = code[:-1], int(code[-1])
        value = float(f"{number}e{power}")
        if value <= _MOST_OHMS:
            times = f"{number} × {10**power:,} Ω".replace(",", " ")
            yield Meaning(
                value, "Ω", "chip resistor", f"{number}, and {power} for the multiplier: {times} = {show(value, 'Ω')}."
            )


def _letter_code(code):
    """The letter in place of the point: 4R7, 4K7J, 4n7, µ47K, R47 (IEC 60062)."""
    read = re.fullmatch(rf"(\d*[RrΩkKMG]\d*|\d*[pnuµ]\d*)([{_TOL}])?", code)
    if not read or not any(char.isdigit() for char in read[1]):
        return
    letter = next(char for char in read[1] if not char.isdigit())
    unit = "F" if letter in "pnuµ" else "Ω"
    value = parse(read[1], unit)
    if value and not (unit == "F" and read[2] == "F"):  # 47pF is written in full
        how = f"{letter} stands where the point would: {show(value, unit)}."
        part = CAPACITOR if value < _OFTEN_POLAR else "capacitor"
        yield _farads(value, read[2], how, part) if unit == "F" else _resistor(value, read[2], how)
    if re.fullmatch(r"\d*R\d+", read[1]):
        value = float(read[1].replace("R", ".") + "e-12")
        if 0 < value < 1e-10:
            how = f"R stands where the point would: {value * 1e12:g} pF, on a small ceramic type."
            yield _farads(value, read[2], how, "ceramic capacitor")


def _eia(code):
    """Two numerals and a letter: 01C, 68X (EIA-96, ±1 %)."""
    read = re.fullmatch(rf"(\d\d)([{''.join(MULTIPLIERS)}])", code)
    if read and 1 <= int(read[1]) <= 96:
        place, letter = int(read[1]), read[2]
        value = eia_96(place, letter)
        digits, times = eia_96(place, "A"), 10.0 ** MULTIPLIERS[letter]
        how = f"Value {place} of E96 is {digits:.0f}, and {letter} multiplies by {times:g}: {show(value, 'Ω')}."
        how += " EIA-96: ±1 %."
        yield Meaning(value, "Ω", "chip resistor", how, 1.0, 1.0)


def _plain(code):
    """A capacitance with its unit, or a number with a point alone, which is in microfarads: 0.47µF, 10uFM, .47K."""
    read = re.fullmatch(rf"(\d+(?:[.,]\d+)?|[.,]\d+)(?:([pnuUµm]?)F|(MFD|mfd))([{_TOL}])?", code)
    if read:
        number, prefix, trade, letter = read.groups()
        power = {"p": -12, "n": -9, "m": -3, "": 0}.get(prefix, -6)
        value = float(f"{number.replace(',', '.')}e{power}")
        if 0 < value <= 1:
            how = f"{'MFD is an old sign for µF' if trade else 'Written in full'}: {show(value, 'F')}."
            yield _farads(value, letter, how, "capacitor")
        return
    read = re.fullmatch(rf"(\d{{0,3}}[.,]\d+)([{_TOL}])?", code)
    if read and (value := float(read[1].replace(",", ".") + "e-6")):
        how = f"A number with a point and no unit is in microfarads on a film type: {show(value, 'F')}"
        yield _farads(value, read[2], how + " (common practice, no source).")


def _ohms(code):
    """A resistance with its unit, or with its prefix alone behind a point: 220Ω, 4.7kΩJ, 4.7k."""
    read = re.fullmatch(rf"(\d+(?:[.,]\d+)?)([kKM]?)(?:Ω|ohm)([{_TOL}])?|(\d+[.,]\d+)([kKM])([{_TOL}])?", code)
    if read:
        number, prefix, letter = (read[1], read[2], read[3]) if read[1] else (read[4], read[5], read[6])
        value = float(f"{number.replace(',', '.')}e{ {'': 0, 'M': 6}.get(prefix, 3) }")
        if value:
            yield _resistor(value, letter, f"Written in full: {show(value, 'Ω')}.")


_NO_RATING = "The mains that it is rated for is much lower, and stands on its data sheet alone."


def _varistor(code):
    """Discs: 10D471K, 471KD10, or 471K alone: volts at 1 mA, the disc's millimetres (common practice, no source)."""
    read = re.fullmatch(r"(?:(\d\d)D)?([1-9]\d[0-2])([JKM])(?:D(\d\d))?", code)
    if not read or (read[1] and read[4]):
        return
    size, numerals, letter = read[1] or read[4], read[2], read[3]
    volts = float(f"{numerals[:2]}e{numerals[2]}")
    if not (18 <= volts <= 1800) or not (size or letter == "K"):
        return
    disc = f"A disc of {int(size)} mm" if size else "A disc that looks like a ceramic capacitor"
    how = f"{disc}: {numerals[:2]} × 10^{numerals[2]} V = {volts:g} V at 1 mA dc (common practice, no source)."
    minus, plus, _ = tolerance_of(letter)
    yield Meaning(volts, "V", "varistor", f"{how} {letter}: ±{minus:g} %.", minus, plus, notes=(_NO_RATING,))


_REVERSE = (50.0, 100.0, 200.0, 400.0, 600.0, 800.0, 1000.0)


def _diode(code):
    """1N4001 to 1N4007 (makers' data sheets)."""
    read = re.fullmatch(r"([1I])N400([1-7])", code, re.I)
    if read:
        volts = _REVERSE[int(read[2]) - 1]
        how = f"1N400{read[2]}: blocks {volts:g} V again and again, carries 1 A on average (makers' data sheets)."
        notes = ("The band round the body is at the cathode, the end to which the arrow of the symbol points.",)
        if read[1] in "Ii":
            notes += ("Printed with an I for the 1: make sure that it is what it says.",)
        yield Meaning(volts, "V", "rectifier diode", how, notes=notes)
