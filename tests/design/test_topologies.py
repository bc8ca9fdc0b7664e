"""Topologies beside the designed lamp, sizes and the order list: figures against formulas printed elsewhere."""

import csv
import io
from pathlib import Path

import pytest
from dropper import theory
from dropper.design import Brief, design, fit_words, order_list, topologies

NOOK = Brief.from_toml(Path(__file__).parents[2] / "notebooks" / "lamps" / "briefs" / "reading_nook.toml")


@pytest.fixture(scope="module")
def lamp():
    return design(NOOK.but(enclosure="100 × 60 × 30 mm plastic"))


def test_each_topology_does_what_its_formula_says(lamp):
    """Half wave: Atmel user guide 7597B-AVR-10/07, appendix 2. Resistor: I²R of the whole mains less the string."""
    rows = {row.words: row for row in topologies(lamp)}
    assert next(iter(rows)) == "as designed" and len(rows) == 5
    nominal, result = lamp.lamp, lamp.result
    half = theory.half_wave_current(
        frequency=50.0,
        dropper=nominal.dropper,
        peak_voltage=nominal.mains.peak,
        output_voltage=result.bus_voltage_mean,
        diode_voltage=0.8,
    )
    assert rows["half wave, two diodes"].current == pytest.approx(half, rel=0.05)
    plain = rows["plain resistor dropper"]
    assert plain.current == pytest.approx(lamp.sizing.current, rel=0.01)
    assert plain.heat > 20 * rows["as designed"].heat and plain.power_factor > 0.95
    assert rows["not smoothed"].flicker > 90 > rows["as designed"].flicker
    twin = rows["two strings, a resistor in each"]
    assert twin.heat > rows["as designed"].heat and twin.parts > rows["as designed"].parts


def test_parts_fit_a_large_case_and_not_a_small_one(lamp):
    assert "They fit" in fit_words(lamp)
    assert "does not go into" in fit_words(design(NOOK.but(enclosure="60 × 25 × 20 mm plastic", warmest=120.0)))


def test_the_order_list_has_every_part_and_no_formula(lamp):
    rows = list(csv.DictReader(io.StringIO(order_list(lamp))))
    assert [row["symbol"] for row in rows] == [part.symbol for part in lamp.parts]
    assert next(row for row in rows if row["part"] == "dropper")["value"] == "330 nF"
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row.values())
