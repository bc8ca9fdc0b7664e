"""While a design, a table of causes or a sheet is computed, a line on the panel shows a share that grows."""

import re
from pathlib import Path

import pytest
from dropper import Lamp
from dropper.bench.diagnosis.cause_table import table_of
from dropper.circuit import progress
from dropper.circuit.lamp import replace_at
from dropper.design import Brief, design
from dropper.design.ratings.stresses import stresses
from dropper.lessons import FaultFinding
from dropper.lessons.kit import progress_line
from dropper.lessons.kit.sheet_box import SheetBox

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
STAIR = LAMPS / "stair_marker.toml"


@pytest.fixture
def without_delay(monkeypatch):
    """A line that does not wait: how fast this machine is does not matter."""
    monkeypatch.setattr(progress_line, "_BLINK", 0.0)
    monkeypatch.setattr(progress_line, "_PACE", 0.0)
    for cached in (table_of, stresses, design):
        cached.cache_clear()


def shown(line, action):
    """The per cent that the line shows while something is done."""
    texts = []
    line.observe(lambda change: texts.append(str(change.new)), "value")
    action()
    assert line.value == "", "the line stays when all is done"
    return [int(found[1]) for text in texts if (found := re.search(r"(\d+) %", text))]


def check(shares):
    assert len(set(shares)) >= 5, shares
    assert shares == sorted(shares), "the share goes back"
    assert 0 <= shares[0] < 50 < shares[-1] <= 100, shares


def test_finding_a_fault_shows_how_much_of_the_table_is_done(without_delay):
    panel = FaultFinding(STAIR)
    panel.fields["current"].value = "20 mA"
    other = replace_at(Lamp.from_toml(STAIR), "dropper", 3.1e-7)
    check(shown(panel.progress, lambda: panel.set_lamp(other)))


def test_a_sheet_shows_how_much_of_it_is_done(without_delay, tmp_path):
    box = SheetBox(replace_at(Lamp.from_toml(STAIR), "mains.harmonics", {2: (0.1, 40.0)}), folder=tmp_path)
    check(shown(box.progress, box.write))
    assert list(tmp_path.glob("*.html"))


def test_a_design_reports_how_much_of_it_is_done(without_delay):
    brief, shares = Brief("warm white, 5 mm", in_series=21, current=0.011, place="Europe"), []
    with progress.listening(lambda share: shares.append(round(100 * share))):
        design(brief)
    assert len(set(shares)) >= 5, shares


def test_nobody_is_told_once_nobody_listens():
    shares = []
    with progress.listening(shares.append), progress.stage(0.5, 1.0):
        progress.report(0.5)
    progress.report(0.9)
    assert shares == [0.75, 1.0]
