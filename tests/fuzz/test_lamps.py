"""Lamps from anywhere, and lamp files as accidents leave them: an answer, or an error that says what is allowed."""

import math
import random
from pathlib import Path

import draws
import pytest
from dropper import Lamp, steady_state
from dropper.circuit import lampfile
from dropper.design.ratings import ratings
from garbling import PIECES, as_bytes, garbled
from lamps_at_random import lamps_from_anywhere
from trials import check

pytestmark = pytest.mark.timeout(0)  # every item has its own guard
FILES = [path.read_text(encoding="utf-8") for path in sorted(Path("notebooks/lamps").glob("*.toml"))]
WORDS = (
    *PIECES,
    *("[string]", "[string.led]", "[mains.harmonics]", "[diode]", "[[mains]]", "dropper", "in_series", "a.b.c.d = 1\n"),
    *(
        '"none"',
        "1979-05-27",
        "[1, 2]",
        "{a = 1}",
        "'''",
        '"""',
        "3 = [0.05, 180]\n",
        "0b101",
        "-1",
        "0",
        "1e30",
        "false",
    ),
)


def test_lamps_from_anywhere(record_property):
    def attempt(lamp):
        state = steady_state(lamp)
        assert state.settled, "it does not settle"
        assert math.isfinite(state.line_current_rms) and math.isfinite(state.real_power)
        assert repr(state) and state._repr_html_()
        assert Lamp.from_toml_text(lamp.to_toml_text()) == lamp, "its file gives another lamp"

    count = draws.fuzz(100)
    check(lamps_from_anywhere(count, draws.seed(61)), attempt, record_property)


@pytest.mark.wide
@pytest.mark.slow
def test_ratings_of_lamps_from_anywhere(record_property):
    lamps = lamps_from_anywhere(draws.fuzz(5), draws.seed(62))
    check(lamps, lambda lamp: repr(ratings(lamp)), record_property)


def test_garbled_lamp_files(record_property):
    draw = random.Random(draws.seed(63))

    def attempt(data):
        lamp = Lamp.from_toml_text(lampfile.decode(data, "lamp.toml"), "lamp.toml")
        assert Lamp.from_toml_text(lamp.to_toml_text()) == lamp, "its file gives another lamp"

    files = (as_bytes(draw, garbled(draw, draw.choice(FILES), WORDS)) for _ in range(draws.fuzz(1000)))
    check(files, attempt, record_property)
