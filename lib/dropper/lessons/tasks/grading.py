"""Grading: whether a number is right, a slip with a name, or neither."""

import math
from dataclasses import dataclass

from ...circuit.fields import about, documented
from .random_values import answer_text, value_text

DEGREES = math.degrees(1)
_LAST_BITS = 1e-9  # what is just at the end of what is allowed is allowed
PREFIXED = {"A", "V", "W", "VA", "var", "F", "Ω", "C", "Hz", "s", "J"}


@documented
@dataclass(frozen=True)
class Tolerance:
    """How far a number may be from the answer, and a sentence that says why."""

    why: str
    relative: float = about("as a fraction of the answer", default=0.02)
    absolute: float = about("in the answer's unit; the larger of the two counts", default=0.0)
    exact: bool = about("whether the answer is a count or a code, with no rounding in it", default=False)

    def allowed(self, answer: float) -> float:
        """How far a number may be from this answer."""
        return max(self.relative * abs(answer), self.absolute)

    def words(self, answer: float, unit: str) -> str:
        """How far a number may be from this answer, for reading."""
        if self.absolute > self.relative * abs(answer):
            return value_text(self.absolute, unit)
        return f"{100 * self.relative:g} %"

    def holds(self, number: float, answer: float) -> bool:
        """Whether the number is close enough."""
        return abs(number - answer) <= self.allowed(answer) * (1 + _LAST_BITS)


PARTS = Tolerance("2 % is allowed: the parts themselves are sold to 5 or 10 %, and √2 ≈ 1.41 costs half a per cent.")


@documented
@dataclass(frozen=True)
class Verdict:
    """What a reply is worth."""

    right: bool
    sentence: str = about("for the learner")
    slips: tuple = about("the names of the slips that give this number", default=())
    counts: bool = about("whether it was a try: a reply that cannot be read is none", default=True)


def judge(
    number: float, answer: float, unit: str, tolerance: Tolerance, slips: list[tuple[str, float, str]]
) -> Verdict:
    """Compare a number with the answer, and with what each known slip gives.

    The answer goes first: a right number is never called a slip. Where several slips give
    the number, all of them are named.

    Parameters
    ----------
    number, answer
        In `unit`.
    slips
        (name, value, sentence) of each.
    """
    if tolerance.holds(number, answer):
        right = f"Right: {answer_text(answer, unit, tolerance.exact)}."
        if abs(number - answer) > tolerance.allowed(answer) / 2:
            right += f" Yours is within {tolerance.words(answer, unit)}, which is near enough."
        same = [sentence for _, value, sentence in slips if tolerance.holds(value, answer)]
        if same:
            right += f" But with these values a slip gives the same number; look at how you came to it. {same[0]}"
        return Verdict(True, right)
    fitting = [(name, sentence) for name, value, sentence in slips if tolerance.holds(number, value)]
    fitting = fitting or list(_writing_slips(number, answer, unit, tolerance, slips))
    if fitting:
        names, sentences = zip(*fitting, strict=True)
        if len(sentences) == 1:
            return Verdict(False, f"Not yet. {sentences[0]}", names)
        listed = " ".join(f"({place}) {sentence}" for place, sentence in enumerate(sentences, start=1))
        return Verdict(False, f"Not yet. More than one slip gives this number: {listed}", names)
    if abs(number - answer) <= 5 * tolerance.allowed(answer):
        return Verdict(False, f"Close, but not within {tolerance.words(answer, unit)}. {tolerance.why}")
    if number < 0 < answer:
        return Verdict(False, "Not yet: your number is below zero, and what is asked for is not.")
    way = "small" if number < answer else "large"
    if unit in PREFIXED and number and answer and not 0.01 < abs(number / answer) < 100:
        bare = f"A number without a prefix is taken in {unit}."
        return Verdict(False, f"Not yet: {value_text(number, unit)} is far too {way}. Look at the prefix. {bare}")
    return Verdict(False, f"Not yet: your number is too {way}, and it is none of the slips known here.")


def _writing_slips(number, answer, unit, tolerance, slips):
    """Slips of the pen: prefixes, per cent, radians, a sign; alone or on top of another slip."""
    for name, value, sentence in [("", answer, ""), *slips]:
        for (prefix, words), factor in _factors(unit):
            if value and abs(number / factor - value) <= (tolerance.relative or 0.02) * abs(value):
                yield (f"{prefix}, {name}", f"{words} Apart from that: {sentence}") if name else (prefix, words)
        if name:
            continue
        if unit == "°" and abs(number) < 7 and tolerance.holds(number * DEGREES, answer):
            yield "radians for degrees", "That is the angle in radians; what is asked for is degrees."
        if answer and tolerance.holds(-number, answer):
            yield "sign", "The size is right; the sign is not."


def _factors(unit):
    """What slips of prefix multiply a number with, and the words for each."""
    if unit in PREFIXED:
        bare = f"A number without a prefix is taken in {unit}."
        for power in (1, 2, 3, 4):
            times = f"{10 ** (3 * power):,}".replace(",", " ")
            yield ("prefix", f"The number is {times} times too large: a slip of the prefix. {bare}"), 1000.0**power
            yield ("prefix", f"The number is {times} times too small: a slip of the prefix. {bare}"), 1000.0**-power
    elif unit == "":
        yield ("per cent", "That is the number in per cent; type 54 % or 0.54 for it, not 54."), 100.0
    elif unit == "%":
        yield ("share", "That is a share, not per cent: 0.54 is 54 %."), 0.01
