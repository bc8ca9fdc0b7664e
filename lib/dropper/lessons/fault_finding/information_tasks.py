"""Tasks of lesson 13, second part: how much a reading changes the odds, what a test is worth, what may be claimed."""

import math

from ..tasks.question import Choice, Question, Slip, Tolerance
from ..tasks.random_values import step_value
from ..tasks.solution import SumStep, TextStep

LESSON = 13


def _causes(chance):
    return {
        "first_weight": float(chance.choice((1, 2, 3, 5))),
        "second_weight": float(chance.choice((8, 12, 20, 30))),
        "first_chance": step_value(chance, 30, 90, 5),
        "second_chance": step_value(chance, 2, 16, 2),
    }


def _first(q):
    return q.first_weight * q.first_chance


def _second(q):
    return q.second_weight * q.second_chance


def _test(chance):
    whole = chance.randint(6, 20)
    return {"whole": float(whole), "more": float(chance.randint(1, whole // 2))}


def _bits(q):
    import numpy as np

    from ...bench.diagnosis.information import bits_of_words

    count, some = int(q.whole), int(q.more)
    says = np.array([[1.0, 0.0]] * some + [[0.0, 1.0]] * (count - some))
    return bits_of_words(np.full(count, 1 / count), np.arange(count), says)


def _two_acts(chance):
    if chance.random() < 0.15:
        return {"bits": step_value(chance, 0.002, 0.009, 0.001), "other_bits": step_value(chance, 0.001, 0.009, 0.001)}
    return {"bits": step_value(chance, 0.3, 1.8, 0.1), "other_bits": step_value(chance, 0.05, 1.2, 0.05)}


def _next(q):
    from ...bench.diagnosis.information import recommendation

    gain = recommendation(sorted(_worths(q), key=lambda item: -item.bits_per_cost))
    return "none" if gain is None else gain.measurement.key


def _worths(q):
    from ...bench.diagnosis import MEASUREMENTS, InformationGain

    return InformationGain(MEASUREMENTS["bus"], q.bits), InformationGain(MEASUREMENTS["bridge"], q.other_bits)


def _for_cost(q):
    bus, bridge = (gain.bits_per_cost for gain in _worths(q))
    return f"Bits for their cost: {bus:.3g} live, {bridge:.3g} unplugged."


def _three(chance):
    """Three chances that stand well away from where the words change."""
    return dict(
        zip(
            ("first_chance", "second_chance", "third_chance"),
            chance.choice(
                (
                    (97, 2, 1),
                    (98, 1, 1),
                    (96, 3, 1),
                    (93, 4, 3),
                    (80, 15, 3),
                    (62, 30, 6),
                    (55, 25, 18),
                    (45, 40, 12),
                    (40, 33, 25),
                    (46, 30, 21),
                    (34, 20, 15),
                    (60, 15, 10),
                    (25, 20, 18),
                    (70, 9, 6),
                )
            ),
            strict=True,
        )
    )


def _claim(q):
    from ...bench.diagnosis.diagnose import FOUND_FROM, LIKELY_FROM, is_conclusive

    chances = [item / 100 for item in (q.first_chance, q.second_chance, q.third_chance)]
    if not is_conclusive(chances, 0.0):
        return "cannot tell"
    return "found" if chances[0] >= FOUND_FROM else "likely" if chances[0] >= LIKELY_FROM else "among three"


TASKS = (
    Question(
        "two_causes",
        LESSON,
        "Two causes, one reading",
        "Before any reading two causes are left. Among lamps of this kind, for {first_weight} with the first there"
        " are {second_weight} with the second. What the meter shows would come of the first in {first_chance} of all"
        " cases, of the second in {second_chance}. How probable is the first cause now?",
        _causes,
        "%",
        lambda q: 100 * _first(q) / (_first(q) + _second(q)),
        solution=(
            TextStep(
                lambda q: (
                    f"Lamps with the first cause and this reading: {q.first_weight:g} × {q.first_chance:g} %"
                    f" = {_first(q) / 100:.4g}"
                )
            ),
            TextStep(
                lambda q: f"With the second: {q.second_weight:g} × {q.second_chance:g} % = {_second(q) / 100:.4g}"
            ),
            SumStep(
                lambda q: f"100 × {_first(q) / 100:.4g} / ({_first(q) / 100:.4g} + {_second(q) / 100:.4g}) %",
                "The first's share of all lamps that show it:",
            ),
        ),
        hints=(
            "Think of so many lamps. How many of each kind show this reading?",
            "Of all lamps that show it, which share has the first cause?",
        ),
        slips=(
            Slip(
                "before the reading",
                lambda q: 100 * q.first_weight / (q.first_weight + q.second_weight),
                "That was so before the reading; it has told something since.",
            ),
            Slip(
                "the reading alone",
                lambda q: 100 * q.first_chance / (q.first_chance + q.second_chance),
                "You left out how often each cause is met.",
            ),
            Slip(
                "turned round",
                lambda q: q.first_chance,
                "That is how often the cause gives the reading; asked is how often the reading comes of the cause.",
            ),
            Slip(
                "odds for a share",
                lambda q: 100 * _first(q) / _second(q),
                "You compared the first with the second; a share is of both together.",
            ),
        ),
    ),
    Question(
        "bits_of_a_test",
        LESSON,
        "What a test is worth",
        "{whole} causes are left, one as likely as the other. A test says “yes” for {more} of them and “no” for the"
        " rest, and never errs. How many bits is it expected to tell?",
        _test,
        "",
        lambda q: _bits(q),
        solution=(
            SumStep(
                lambda q: (
                    f"{q.more:g}/{q.whole:g} × log₂({q.whole:g}/{q.more:g}) + {q.whole - q.more:g}/{q.whole:g} ×"
                    f" log₂({q.whole:g}/{q.whole - q.more:g})"
                ),
                "Each answer by how often it comes:",
            ),
        ),
        hints=(
            "An answer that leaves a share p of the causes tells log₂(1/p) bits.",
            "“Yes” comes with its share, “no” with the rest: weigh both.",
        ),
        slips=(
            Slip(
                "only the yes",
                lambda q: math.log2(q.whole / q.more),
                "So much would a “yes” tell; but it does not come every time.",
            ),
            Slip(
                "all there is",
                lambda q: math.log2(q.whole),
                "That would name the one cause. A test of two answers tells one bit at most.",
            ),
            Slip(
                "the no forgotten",
                lambda q: q.more / q.whole * math.log2(q.whole / q.more),
                "A “no” tells something too: it strikes out the others.",
            ),
        ),
        tolerance=Tolerance("2 % or 0.01 bit is allowed.", 0.02, 0.01),
    ),
    Choice(
        "safer_first",
        LESSON,
        "Which one next?",
        "The dc volts across the string (live, cost 4) are expected to tell {bits} bits; a test of the four diodes"
        " (unplugged and proved empty, cost 3) {other_bits} bits. This workbook takes the safer one where it tells at"
        " least half as much for its cost, and nothing below a hundredth of a bit. What does it propose?",
        _two_acts,
        {
            "bus": "the dc volts, by someone licensed for live work",
            "bridge": "the test of the diodes",
            "none": "neither: nothing is left that tells, so say which causes cannot be told apart",
        },
        lambda q: _next(q),
        {
            "bus": "Divide each by its cost. The live one is proposed only where the safer one tells less than half.",
            "bridge": "Divide each by its cost, and see whether the safer one tells enough, or half of the other.",
            "none": "One of them tells more than a hundredth of a bit; that is worth doing before giving up.",
        },
        lambda q: _for_cost(q),
        ("Divide bits by cost.", "Is the safer one's quotient half of the other's, or more?"),
    ),
    Choice(
        "may_be_claimed",
        LESSON,
        "What may be claimed?",
        "After all readings the three most probable causes have {first_chance}, {second_chance} and {third_chance};"
        " what is left of 100 % is spread over others. From 95 % on this workbook says “found”; if three hold 95 %"
        " together it says “likely” from 50 % on, or “one of three”; else it says that it cannot tell. What does it"
        " say?",
        _three,
        {
            "found": "found: the first",
            "likely": "most likely the first",
            "among three": "one of these three",
            "cannot tell": "these readings cannot tell",
        },
        lambda q: _claim(q),
        {
            "found": "The first must reach 95 % alone before the search may stop.",
            "likely": "Two things are asked: the three together reach 95 %, and the first has half, but not 95 %.",
            "among three": "That asks the three to reach 95 % together with none of them at half.",
            "cannot tell": "The three do hold 95 % together; so something may be claimed.",
        },
        lambda q: f"Together the three hold {q.first_chance + q.second_chance + q.third_chance:g} %.",
        ("Add the three first.", "Then look at the first alone: 95 %, 50 %, or less?"),
    ),
)
