"""Tasks of lesson 11, first part: codes and bands to values and back, and bands that are not sure."""

from ...circuit.series import E_SERIES
from ...circuit.values import show
from ...components.marks import bands, codes, colour_pairs
from ...components.marks.colours import COLOURS, DIGITS
from ...components.marks.letters import eia_96
from ...components.marks.preferred_series import series_of
from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import part
from ..tasks.solution import SumStep, TextStep

LESSON = 11
_EXACT = Tolerance(
    "A code has no rounding in it: half a per cent is allowed for your pocket calculator.", 0.005, exact=True
)


def _code(chance, digits, low, high):
    """Numerals of a part: steps of E24 or E96, and a last one between two bounds."""
    step = chance.choice(E_SERIES[24] if digits == 2 else E_SERIES[96])
    return {"code": int(f"{step}{chance.randint(low, high)}")}


def _split(q):
    """The digits and the multiplier of a code."""
    text = f"{q.code:.0f}"
    return int(text[:-1]), int(text[-1])


def _farads(q):
    number, power = _split(q)
    return float(f"{number}e{power - 12}")


def _ohms(q):
    number, power = _split(q)
    return float(f"{number}e{power}")


def _resistor(chance):
    """Digits of E24 and a multiplier, none of the three alike."""
    step = chance.choice([step for step in E_SERIES[24] if step % 11 and step % 10])
    third = chance.choice([power for power in (1, 2, 3, 4) if str(power) not in str(step)])
    return {"first": step // 10, "second": step % 10, "third": third}


def _banded(q, power=0):
    return bands.worth((q.first, q.second), int(q.third) + power)


def _five(chance):
    return {"resistance": part(chance, 96, 100.0, 976e3)}


def _multiplier(q):
    return bands.write(q.resistance, 1.0, 5)[3]


def _lettered(chance):
    step = chance.choice([step for step in E_SERIES[24] if step % 10])
    return {"whole": step // 10, "decimal": step % 10}


def _doubtful(chance):
    """A first band that is one of two, of which just one gives a step of E24; or neither of the two decides it."""
    while True:
        first, other = (COLOURS[name].digit for name in sorted(chance.choice(_PAIRS)))
        second = chance.randint(0, 9)
        if first and other and sum(_made(digit, second) for digit in (first, other)):
            if chance.random() < 0.5:
                first, other = other, first
            return {"first": first, "other_first": other, "second": second, "third": chance.choice((1, 2, 3))}


_PAIRS = [sorted(pair) for pair in sorted(map(sorted, colour_pairs.PAIRS["bench"])) if set(pair) <= set(DIGITS)]


def _made(first, second):
    return (series_of(10 * first + second) or 999) <= 24


def _which(q):
    one, other = _made(q.first, q.second), _made(q.other_first, q.second)
    return "both" if one and other else "first" if one else "other"


TASKS = (
    Question(
        "film_code",
        LESSON,
        "Numerals on a film capacitor",
        "A film capacitor is printed {code}K 275V~. What is its capacitance?",
        lambda chance: _code(chance, 2, 3, 4),
        "F",
        lambda q: codes.read(f"{q.code:.0f}K")[0].value,
        solution=(
            TextStep(
                lambda q: (
                    f"The numerals are {q.code:.0f}: two digits and a multiplier, in picofarads. K is the tolerance."
                )
            ),
            SumStep(lambda q: f"{q.code:.0f} is {_split(q)[0]} × 10^{_split(q)[1]} pF"),
        ),
        hints=(
            "The letter is the tolerance; the numerals alone make the value, in picofarads.",
            "The last numeral is no digit: it says how many zeros follow the first two.",
        ),
        slips=(
            Slip(
                "the number itself",
                lambda q: q.code * 1e-12,
                "That takes {code} for picofarads as it stands. The last numeral counts the zeros.",
            ),
            Slip(
                "one zero too many",
                lambda q: 10 * _farads(q),
                "One zero too many: {code} has as many as its last numeral says.",
            ),
            Slip(
                "one zero too few",
                lambda q: _farads(q) / 10,
                "One zero is missing: the last numeral says how many there are.",
            ),
            Slip("in nanofarads", lambda q: q.code * 1e-9, "That takes {code} for nanofarads as it stands."),
        ),
        tolerance=_EXACT,
    ),
    Question(
        "chip_code",
        LESSON,
        "Three numerals on a chip",
        "A chip resistor reads {code}. How many ohms?",
        lambda chance: _code(chance, 2, 1, 4),
        "Ω",
        lambda q: next(meaning.value for meaning in codes.read(f"{q.code:.0f}") if meaning.unit == "Ω"),
        solution=(
            TextStep(lambda q: f"The numerals are {q.code:.0f}: two digits and a multiplier, in ohms."),
            SumStep(lambda q: f"{q.code:.0f} is {_split(q)[0]} × 10^{_split(q)[1]} Ω"),
        ),
        hints=(
            "On a capacitor it would be picofarads; on a resistor it is ohms.",
            "The last numeral says how many zeros follow the first two.",
        ),
        slips=(
            Slip(
                "the number itself", lambda q: q.code, "That is the number as it stands; its last numeral counts zeros."
            ),
            Slip("one zero too many", lambda q: 10 * _ohms(q), "One zero too many."),
            Slip("one zero too few", lambda q: _ohms(q) / 10, "One zero is missing."),
        ),
        tolerance=_EXACT,
    ),
    Question(
        "chip_four",
        LESSON,
        "Four numerals on a chip",
        "A chip resistor of ±1 % reads {code}. How many ohms?",
        lambda chance: _code(chance, 3, 1, 3),
        "Ω",
        lambda q: next(meaning.value for meaning in codes.read(f"{q.code:.0f}") if meaning.unit == "Ω"),
        solution=(
            TextStep(lambda q: f"The numerals are {q.code:.0f}: three digits and a multiplier."),
            SumStep(lambda q: f"{q.code:.0f} is {_split(q)[0]} × 10^{_split(q)[1]} Ω"),
        ),
        hints=("A tolerance of 1 % needs three digits; the fourth numeral is the multiplier.",),
        slips=(
            Slip(
                "the number itself", lambda q: q.code, "That is the number as it stands; its last numeral counts zeros."
            ),
            Slip(
                "one zero too few",
                lambda q: _ohms(q) / 10,
                "That is a zero too few: all of the first three are digits.",
            ),
        ),
        tolerance=_EXACT,
    ),
    Question(
        "eia_96",
        LESSON,
        "Two numerals and a letter on a chip",
        "A chip resistor reads {place}C. The two numerals say which value of E96 it is, counted from 1; C multiplies"
        " by 100. How many ohms?",
        lambda chance: {"place": chance.randint(10, 95)},
        "Ω",
        lambda q: eia_96(int(q.place), "C"),
        solution=(
            TextStep(
                lambda q: f"Value n of E96 is 100·10^((n − 1)/96), rounded to three digits. Here n is {q.place:.0f}."
            ),
            SumStep(
                lambda q: (
                    f"value {q.place:.0f} is {eia_96(int(q.place), 'A'):.0f}: {eia_96(int(q.place), 'A'):.0f} × 100 Ω"
                )
            ),
        ),
        hints=(
            "The two numerals are a place in a row of 96 values from 100 to 976, no digits.",
            "Value n of E96 is 100·10^((n − 1)/96), rounded to three digits.",
        ),
        slips=(
            Slip("place as digits", lambda q: q.place * 100, "That takes the place for the digits."),
            Slip(
                "one place on",
                lambda q: eia_96(int(q.place) + 1, "C"),
                "That is the value one place further on: count from 1.",
            ),
            Slip("C for a thousand", lambda q: eia_96(int(q.place), "D"), "C multiplies by 100; a thousand is D."),
        ),
        tolerance=_EXACT,
    ),
    Question(
        "letter_code",
        LESSON,
        "A letter for the point",
        "A drawing gives a resistor as {whole}K{decimal}. How many ohms?",
        _lettered,
        "Ω",
        lambda q: codes.read(f"{q.whole:.0f}K{q.decimal:.0f}")[0].value,
        solution=(
            TextStep(
                lambda q: f"K stands where the point would, and for kilo: {q.whole} before it, {q.decimal} behind."
            ),
            SumStep(lambda q: f"{q.whole}.{q.decimal} × 1000 Ω"),
        ),
        hints=("The letter does two things at once.", "It is the decimal point, and it is the prefix."),
        slips=(
            Slip(
                "no point",
                lambda q: 1e3 * (10 * q.whole + q.decimal),
                "That leaves out the point: the letter stands in its place.",
            ),
            Slip("no prefix", lambda q: q.whole + q.decimal / 10, "That leaves out the prefix: K is kilo."),
            Slip("milli and up", lambda q: 1e6 * (q.whole + q.decimal / 10), "K is kilo, M would be mega."),
        ),
        tolerance=_EXACT,
    ),
    Question(
        "four_bands",
        LESSON,
        "Four bands",
        "A resistor's bands are {first}, {second}, {third}, and gold. How many ohms?",
        _resistor,
        "Ω",
        _banded,
        solution=(
            TextStep(
                lambda q: (
                    f"Digits {q.first} and {q.second}; the third band, {q.third}, is the multiplier; gold is ±5 %."
                )
            ),
            SumStep(lambda q: f"{q.first}{q.second} × 10^{q.third} Ω"),
        ),
        hints=(
            "Gold is the tolerance and comes last: begin at the other end.",
            "Two digits, then as many zeros as the third band says.",
        ),
        slips=(
            Slip(
                "three digits",
                lambda q: bands.worth((q.first, q.second, q.third), 0),
                "That reads the third band as a digit; with four bands it is the multiplier.",
            ),
            Slip("one zero too many", lambda q: _banded(q, 1), "One zero too many."),
            Slip("one zero too few", lambda q: _banded(q, -1), "One zero is missing."),
            Slip(
                "digits turned round",
                lambda q: bands.worth((q.second, q.first), int(q.third)),
                "The two digits are the other way round.",
            ),
        ),
        tolerance=_EXACT,
    ),
    Choice(
        "five_bands",
        LESSON,
        "The fourth of five bands",
        "A resistor of {resistance} ±1 % has five bands. What colour is the fourth?",
        _five,
        {name: name for name in DIGITS[:6]},
        _multiplier,
        {
            name: f"{COLOURS[name].called} as the multiplier is × 10^{COLOURS[name].power}. Write {{resistance}} as"
            " three digits and a power of ten."
            for name in DIGITS[:6]
        },
        lambda q: f"The bands of {show(q.resistance, 'Ω')} ±1 % are {', '.join(bands.write(q.resistance, 1.0, 5))}.",
        (
            "Five bands have three digits.",
            "Write {resistance} as three digits times a power of ten; the power is the fourth band.",
        ),
    ),
    Choice(
        "doubtful_band",
        LESSON,
        "One of two colours",
        "In this light the first band is {first} or {other_first}; then come {second}, {third} and gold. Which is it,"
        " by what is made in ±5 %?",
        _doubtful,
        {"first": "{first}", "other": "{other_first}", "both": "both are made: only a meter can tell"},
        _which,
        {
            "first": "Look the two digits up in E24, for both colours.",
            "other": "Look the two digits up in E24, for both colours.",
            "both": "One of the two is no step of E24, and ±5 % parts of it are hardly made.",
        },
        lambda q: " ".join(
            f"{digit}{q.second} is {'a' if _made(digit, q.second) else 'no'} step of E24."
            for digit in (q.first, q.other_first)
        ),
        (
            "Gold is ±5 %: such parts are made in E24.",
            "E24: 10 11 12 13 15 16 18 20 22 24 27 30 33 36 39 43 47 51 56 62 68 75 82 91.",
        ),
    ),
)
