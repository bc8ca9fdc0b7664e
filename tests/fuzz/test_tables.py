"""An oscilloscope's tables as accidents leave them: measured in numbers, or refused with a sentence."""

import random

import draws
import numpy as np
import pytest
from dropper import Lamp, steady_state
from dropper.bench import waveform
from garbling import PIECES, as_bytes, garbled
from trials import check

pytestmark = pytest.mark.timeout(0)
LAMP = Lamp.from_toml("notebooks/lamps/stair_marker.toml")
NAMES = (
    ("time (s)", "CH1 (V)", "CH2 (A)", "CH3 (V)"),
    ("Zeit in ms", "Netz", "Strom mA", "DC"),
    ("Source,CH1", "mains", "current", "string"),
    ("x-axis", "1", "2", "3"),
    ("", "", "", ""),
)
ODD = (
    "",
    "nan",
    "-",
    "inf",
    "-1e308",
    "1e400",
    "0",
    "999999",
    "OVL",
    "1,5",
    "1.5.5",
    "1e-320",
    " ",
    '"3"',
    "#",
    "12:30",
)


class Recordings:
    """Files of recordings, each with its own oscilloscope's habits."""

    def __init__(self, seed):
        self.draw, self.chance = random.Random(seed), np.random.default_rng(seed)
        state = steady_state(LAMP, 512)
        self.waves = [state.mains_voltage, state.line_current, state.bus_voltage]

    def columns(self):
        """Time and waves: some too short, too coarse, flat, clipped, backwards, or of nothing but noise."""
        draw = self.draw
        count = draw.choice((300,) * 8 + (600, 600, 0, 1, 2, 3, 10, 40, 100))
        span = draw.choice((0.06,) * 8 + (0.04, 0.1, 0.1, 0.02, 0.005, 1e-9, 10.0))
        time = draw.choice((0.0, 0.0, 0.0, -0.03, -0.03, 1e6)) + np.arange(count) * span / max(count, 1)
        grid = np.arange(512) / 512
        columns = []
        for wave in self.waves[: draw.choice((1, 2, 3, 3, 3))]:
            values = np.interp(np.mod(50.03 * time + 0.3, 1), grid, wave, period=1)
            values = values + self.chance.normal(0, draw.choice((0, 0, 0.02, 1)) * np.ptp(wave), count)
            accident = draw.randrange(25)
            if accident == 0:
                values = values * 0 + draw.choice((0, 1, -1e300, 1e-310))
            elif accident == 1:
                values = np.clip(values, *sorted(draw.uniform(-300, 300) for _ in range(2)))
            elif accident == 2:
                values = values * draw.choice((1e-12, -1, 1e12, 1e160, 1e300))
            elif accident == 3 and count:
                values = values.copy()
                values[draw.randrange(count) :: draw.choice((1, 2, 7, 50))] = draw.choice((np.nan, 1e6))
            columns.append(values)
        order = draw.randrange(40)
        if order == 0:
            time = time[::-1]
        elif order == 1:
            time = np.round(time, 2)
        elif order == 2:
            time = time + self.chance.normal(0, span / 100, count)
        return [time, *columns] if draw.random() < 0.97 else columns

    def file(self):
        draw, columns = self.draw, self.columns()
        mark, point = draw.choice(
            ((",", "."), (",", "."), (";", ","), (";", "."), ("\t", "."), (" ", "."), ("\t", ","))
        )
        form = draw.choice(("%.6g", "%.6g", "%.9f", "%.9f", "%.9f", "%.3e"))
        rows = [[(form % value).replace(".", point) for value in row] for row in zip(*columns, strict=True)]
        for _ in range(draw.choice((0,) * 9 + (1, 2, 20))):
            if rows:
                row = draw.choice(rows)
                row[draw.randrange(len(row))] = draw.choice(ODD)
        names = draw.choice(NAMES)[: len(columns)]
        rows = [list(names), *rows] if draw.random() < 0.8 else rows
        text = draw.choice(("\n", "\n", "\r\n", "\r")).join(mark.join(row) for row in rows)
        if draw.random() < 0.3:
            text = draw.choice(("# scope\n", "Model,X1\nPoints,300\n\n", "sep=;\n", "\n\n", "%\n")) + text
        if draw.random() < 0.3:
            text = garbled(draw, text, (*PIECES, *ODD))
        return as_bytes(draw, text)


def test_recordings(record_property):
    """What is measured is a number or nan, with its error; the comparison with a lamp and its words come too."""
    recordings, draw = Recordings(draws.seed(81)), random.Random(draws.seed(81))

    def attempt(data):
        measurement = waveform.measure(waveform.load(data, name="scope.csv"))
        assert len(measurement.estimates) > 0
        for key, estimate in measurement.estimates.items():
            assert not estimate.uncertainty < 0, f"{key} ± {estimate.uncertainty}"
        assert repr(measurement)
        if draw.random() < 0.05:
            assert repr(waveform.compare(measurement, LAMP))

    files = (recordings.file() for _ in range(draws.fuzz(200)))
    with np.errstate(all="ignore"):
        check(files, attempt, record_property)
