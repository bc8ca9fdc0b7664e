"""The page of the 24 V twin: its tables are those of the library and of the lamp file."""

import re
from pathlib import Path

import pytest
from dropper import Lamp, replace_at, steady_state, theory
from dropper.circuit.values import show
from dropper.standards.cautions import caution_texts
from dropper.teaching import pages

LAMPS = Path(__file__).resolve().parents[2] / "notebooks" / "lamps"
TWIN, STAIR = (Lamp.from_toml(LAMPS / f"{name}.toml") for name in ("classroom_twin", "stair_marker"))
TEXT = pages.source("classroom_twin")


def tables():
    """The page's tables: rows of cells, by the first cell of each row."""
    found = []
    for block in re.findall(r"(?:^\|.*\n)+", TEXT, flags=re.M):
        rows = [[cell.strip() for cell in line.strip("|\n").split("|")] for line in block.splitlines()]
        found.append({row[0]: row[1:] for row in rows if not set(row[0]) <= set("-")})
    return found


PARTS, READINGS = tables()


@pytest.mark.parametrize(
    ("row", "field", "unit"),
    [
        ("dropper C1", "dropper", "F"),
        ("bleeder R2", "bleeder", "Ω"),
        ("inrush resistor R1", "inrush_resistor", "Ω"),
        ("smoothing C2", "smoothing", "F"),
        ("smoothing bleeder R3", "smoothing_bleeder", "Ω"),
        ("series resistor R4", "series_resistor", "Ω"),
    ],
)
def test_every_part_of_the_lamp_files_is_in_the_table_with_its_value(row, field, unit):
    for lamp, cell in zip((STAIR, TWIN), PARTS[row], strict=False):
        value = getattr(lamp, field)
        assert cell.startswith(show(value, unit) if value else "none"), f"{lamp.name}, {field}: {cell}"


def test_strings_and_sources_are_those_of_the_lamp_files():
    for column, lamp in enumerate((STAIR, TWIN)):
        assert PARTS["string"][column].startswith(f"{lamp.string.in_series} ")
        assert show(lamp.mains.voltage, "V") in PARTS["part"][column]
    assert "safety isolating transformer, 24 V ac" in PARTS["source"][1] and "fused" in PARTS["source"][1]


VOLTS = [float(head.removesuffix(" V")) for head in READINGS["behind the transformer"]]
STATES = {volts: steady_state(replace_at(TWIN, "mains.voltage", volts)) for volts in VOLTS}
SHOWN = {
    "line current, rms": lambda state: f"{1e3 * state.line_current_rms:.1f} mA",
    "string current, mean": lambda state: f"{1e3 * state.string_current_mean:.1f} mA",
    "… against 24 V": lambda state: (
        f"{100 * (state.string_current_mean / STATES[24.0].string_current_mean - 1):+.0f} %"
    ),
    "power": lambda state: f"{1e3 * state.real_power:.0f} mW",
    "apparent power": lambda state: f"{1e3 * state.apparent_power:.0f} mVA",
    "power factor": lambda state: f"{state.power_factor:.3f}",
    "dc volts on the string": lambda state: f"{state.bus_voltage_mean:.2f} V",
    "ripple on it, peak to peak": lambda state: f"{state.bus_ripple:.2f} V",
    "peak across R1": lambda state: f"{TWIN.inrush_resistor * abs(state.line_current).max():.2f} V",
    "conduction in each half cycle": lambda state: f"{180 * state.conduction_fraction:.0f}°",
    "percent flicker": lambda state: f"{state.percent_flicker:.0f} %",
}


@pytest.mark.parametrize("row", SHOWN)
def test_readings_of_the_twin_are_the_solvers(row):
    expected = [SHOWN[row](STATES[volts]) for volts in VOLTS]
    if row == "… against 24 V":
        expected[0] = "–"
    assert READINGS[row] == expected
    assert set(READINGS) == {*SHOWN, "behind the transformer"}


def test_the_ideal_lamp_rises_as_much_with_the_transformers_volts():
    """4fC(Vp − D), D kept at 0.207 of the 24 V peak: (31·√2 − D)/(24·√2 − D) − 1 = 37 %, worked by hand."""
    peak = TWIN.mains.peak
    drop = STATES[24.0].bus_voltage_mean + 2 * TWIN.diode.forward_voltage
    assert f"{drop / peak:.3f} against" in TEXT
    other = STAIR.mains.peak
    mains_drop = steady_state(STAIR).bus_voltage_mean + 2 * STAIR.diode.forward_voltage
    assert f"against {mains_drop / other:.3f}" in TEXT
    for volts, state in STATES.items():
        ideal = (volts * 2**0.5 - drop) / (peak - drop)
        assert state.string_current_mean / STATES[24.0].string_current_mean == pytest.approx(ideal, abs=0.015)


def test_figures_of_the_stair_marker_beside_the_table_are_the_solvers():
    state = steady_state(STAIR)
    words = (
        f"power factor of {state.power_factor:.3f}, conducts for {180 * state.conduction_fraction:.0f}° and flickers by"
        f" {state.percent_flicker:.0f} %"
    )
    assert words in TEXT


def test_what_the_twins_capacitors_keep_is_the_figure_by_hand():
    """½·103.3 µF·(33.9 V)² = 59.5 mJ; 5·4.7 kΩ·100 µF = 2.35 s."""
    values = {"inrush_resistor": 4.7e3, "step_voltage": TWIN.mains.peak}
    joules = sum(theory.inrush_energy(dropper=farads, **values) for farads in (TWIN.dropper, TWIN.smoothing))
    assert joules == pytest.approx(59.5e-3, rel=0.01) and "60 mJ" in TEXT
    assert "2.4 s" in TEXT


def test_two_clips_are_one_named_node_and_volts_are_measured_first():
    assert "Its two clips are one node" in TEXT and "the transformer's end of R1" in TEXT
    assert TEXT.index("Measure the transformer first") < TEXT.index("What the class can do")
    assert "licensed practice" not in TEXT + " ".join(caution_texts(TWIN))
    assert "IEC 61558-2-6, from memory" in TEXT and "fuse" in TEXT
