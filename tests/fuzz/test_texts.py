"""Texts at random wherever a person types one: a value, bands, a code, the answer to a task."""

import math
import random

import draws
import pytest
from dropper import lessons
from dropper.circuit.excerpt import unprintable
from dropper.circuit.parsing import parse
from dropper.circuit.units import UNITS
from dropper.components.marks import any_mark, bands, codes, colours
from dropper.components.marks.tolerance_check import last_digit
from garbling import PIECES, texts
from trials import check

pytestmark = pytest.mark.timeout(0)
VALUES = ["330 nF", "4k7", "2,2 µF", "1.4 W", "230 V", "22 mA", "53.1°", "54 %", "-0.5", "1 M", "7.5 years", "12e-3 A"]
CODES = ["474K 250V", "4R7", "01C", "1N4007", "0.33 µF K 275V~ X2", "10D471K", "2A104J", "R47F", "105J 400V", "1M0"]
REPLIES = [*VALUES, "I = 12 mA", "≈ 1.2×10⁻² A", "54 per cent", "0.93 rad", "1 000 Ω", "12'000", "€ 3.20", "150 V rms"]
COLOURS = list(colours.COLOURS)


def test_values(record_property):
    draw = random.Random(draws.seed(71))

    def attempt(text):
        assert math.isfinite(parse(text, draw.choice(list(UNITS)), "dropper"))

    check(texts(draws.seed(71), draws.fuzz(250), VALUES), attempt, record_property)


def test_codes_and_marks(record_property):
    def attempt(text):
        assert all(meaning.text for meaning in (codes.read if len(text) % 2 else any_mark.read)(text))

    check(texts(draws.seed(72), draws.fuzz(250), CODES), attempt, record_property)


def test_bands(record_property):
    draw = random.Random(draws.seed(73))

    def row():
        names = COLOURS if draw.random() < 0.7 else [*COLOURS * 4, *PIECES]
        return [draw.choice(names) for _ in range(draw.randint(0, 7))]

    def attempt(row):
        assert all(meaning.text for meaning in bands.read(row))

    check((row() for _ in range(draws.fuzz(200))), attempt, record_property)


def test_digits_of_a_meter(record_property):
    def attempt(text):
        assert last_digit(text, "V") > 0

    check(texts(draws.seed(74), draws.fuzz(50), VALUES), attempt, record_property)


def test_answers_to_tasks(record_property):
    """Whatever is typed is judged in words; it never raises."""
    draw = random.Random(draws.seed(75))
    tasks = [question.ask(draw.randrange(2**31)) for question in lessons.QUESTIONS.values()]

    def attempt(text):
        task = draw.choice(tasks)
        try:
            verdict = task.judge(text)
        except ValueError as error:
            raise AssertionError(f"{task.question.key}: {error}") from error
        assert len(verdict.sentence.split()) > 1 and len(verdict.sentence) < 1000
        assert not any(map(unprintable, verdict.sentence)), verdict.sentence

    check(texts(draws.seed(75), draws.fuzz(250), REPLIES), attempt, record_property)
