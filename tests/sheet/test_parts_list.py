"""The parts list as CSV: RFC 4180 by Python's csv module, and no cell that a spreadsheet takes for a formula."""

import csv
import io
from dataclasses import replace

import pytest
from dropper.circuit.parsing import parse
from dropper.components import kinds
from dropper.components.kinds import RectifierDiode
from dropper.components.kinds.rating import PRACTICE
from dropper.design.ratings import ratings
from dropper.sheet.parts_list import COLUMNS, as_csv, part_lines
from pages import LAMPS, NASTY, POOR, lamp, made, poor_lamp

FORMULA = ("=", "+", "-", "@", "\t", "\r")


def read(text):
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


@pytest.mark.parametrize("name", [*LAMPS, "poor"])
def test_it_reads_back_with_the_csv_module_row_for_row(name):
    text = made(name).csv
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", ""), "lines end in CR LF (RFC 4180, 2.1)"
    table = ratings(poor_lamp(), fitted=POOR) if name == "poor" else ratings(lamp(name))
    fuse, *found = read(text)
    assert (fuse["symbol"], fuse["kind is"]) == ("F1", "by data sheet") and "A²s" in fuse["in words"]
    assert len(found) == len(table.parts) and all(tuple(row) == COLUMNS for row in found)
    for row, rating in zip(found, table.parts, strict=True):
        check = rating.tightest
        unit = row["unit of worst"]
        found_value = (
            float(row["worst found"]) * {"J": 1, "mJ": 1e-3, "µJ": 1e-6}[unit]
            if unit.endswith("J")
            else parse(f"{row['worst found']} {unit}", check.worst.unit)
        )
        assert found_value == pytest.approx(check.worst.value, rel=5e-3)
        assert row["verdict"] == f"{rating.sign} {rating.verdict}" and row["in words"] == rating.sentence
        if check.limit is not None:
            assert parse(f"{row['kind stands']} {row['unit of stands']}", check.worst.unit) == pytest.approx(
                check.limit, rel=5e-3
            )
            assert float(row["stands over worst"]) == pytest.approx(check.margin, rel=5e-3)
        float(row["value of each"])


def test_pieces_are_counted():
    found = {row["part"]: row for row in read(made("display_case").csv)}
    assert found["bridge"]["pieces"] == "4" and found["string"]["pieces"] == "108"
    assert (found["bleeder"]["pieces"], found["bleeder"]["value of each"], found["bleeder"]["unit"]) == (
        "2",
        "470",
        "kΩ",
    )
    assert (found["dropper"]["pieces"], found["dropper"]["value of each"], found["dropper"]["unit"]) == (
        "1",
        "680",
        "nF",
    )


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", ["=1+1", "+SUM(A1)", "-2", "@x", " =1", NASTY, 'a "quoted", name', "=cmd|' /C calc'!A0"]
)
def test_no_cell_is_a_formula_and_the_name_is_kept(name):
    own = replace(lamp("stair_marker"), name=name)
    text = as_csv(own, part_lines(ratings(own)))
    for row in read(text):
        assert all(not cell.lstrip(" ").startswith(FORMULA) for cell in row.values())
        assert row["lamp"].removeprefix("'") == name


def test_a_kind_of_ones_own_cannot_bring_a_formula_in():
    own = RectifierDiode("=1+1", "own measurement", PRACTICE, 1000.0)
    found = read(as_csv(lamp("stair_marker"), part_lines(ratings(lamp("stair_marker"), fitted={"diodes": own}))))
    assert [row["kind"] for row in found if row["part"] == "bridge"] == ["'=1+1"]
    assert kinds.part("1N4007").reverse_voltage == 1000.0


def test_on_the_disk_it_begins_with_the_mark_that_spreadsheets_look_for(tmp_path):
    path = made("stair_marker").write(tmp_path / "parts.csv")
    assert path.read_bytes().startswith(b"\xef\xbb\xbflamp,symbol")
    assert "µF" in path.read_text(encoding="utf-8-sig") and path.read_bytes().count(b"\r\r") == 0
