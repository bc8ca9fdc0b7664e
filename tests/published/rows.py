"""Published figures, one row each, as data.

printed: the figure as its source prints it, in SI units (or hours and degrees Celsius); its tolerance is half a unit
of the last printed digit unless a row says another, with the reason.
how: S, inputs and figure read in the source; I, inputs and formula read there, the figure worked out from them;
M, from memory; C, worked out for this project, not published: such rows guard against change, and what proves them
is a witness in test_published or in tests/theory.
differs: the source errs, or answers another question; the figure must NOT be met, and `reason` says why.
"""

from dataclasses import dataclass, field
from decimal import Decimal


@dataclass(frozen=True)
class Row:
    id: str
    source: str
    place: str
    how: str
    formula: str  # a derivation, or one of the calculations in test_published
    inputs: dict = field(hash=False)
    printed: str
    tolerance: float | None = None
    reason: str = "half a unit of the last printed digit"
    differs: bool = False

    @property
    def value(self) -> float:
        return float(self.printed)

    @property
    def digits(self) -> int:
        """How many digits are printed."""
        return len(Decimal(self.printed).as_tuple().digits)

    @property
    def allowed(self) -> float:
        """The tolerance, in the unit of the printed figure."""
        if self.tolerance is not None:
            return self.tolerance
        return float(Decimal((0, (5,), Decimal(self.printed).as_tuple().exponent - 1)))


ATMEL = "Atmel user guide 7597B-AVR-10/07"
TEXAS = "Texas Instruments SBVS343A (2019)"
TEXAS_NOTE = "support note to Texas Instruments SBVS343A (2019)"
ENCYCLOPEDIA = "Wikipedia, Capacitive power supply (text at tickerdossier.com/wiki/capacitive-power-supply)"
# authors and title from memory, equation read at the address
RECTIFIERS = (
    "Li, Roy and Calhoun, A piezoelectric energy-harvesting system with parallel-SSHI rectifier, IEEE Solid-State"
    " Circuits Letters, 2019, ieeexplore.ieee.org/document/8891681"
)
MALVINO = "Malvino and Bates, Electronic Principles, 7th edition"
# the edition by its chapters, from memory: 15, single-phase series a.c. circuits; 45, transients and Laplace transforms
BIRD = "J. Bird, Electrical Circuit Theory and Technology, editions with d.c. transients in chapter 17"
RASHID = "Rashid, Power Electronics, 4th edition"
COSEL = "Cosel FAQ a0057"
# restated at eletricatotal.com, problem 61-4, where the book, the edition and the page are read; figures from memory
JUNCTIONS = "D. A. Neamen, Microelectronics: Circuit Analysis and Design, 4th edition (2010)"
BRAGA = "N. C. Braga, article MA089E"
ANNEX = "IEEE 1459-2010, inputs after its annex B"
INDEX = "flicker index by its definition in IEEE 1789-2015"
OWN = "no source outside: worked out for this project, and witnessed in test_published by quadrature"
OWN_PHASOR = "no source outside: worked out for this project, and witnessed in test_published by complex numbers"
OWN_DECAY = "no source outside: worked out for this project from the exponential"

A1 = {"voltage": 220.0, "frequency": 50.0, "output_voltage": 20.0, "diode_voltage": 0.7}
A2 = {"voltage": 85.0, "frequency": 47.0, "clamped_voltage": 4 * (3.3 + 0.6), "string_current_mean": 0.012 / 4}
A5 = {"voltage": 230.0, "frequency": 50.0, "dropper": 330e-9, "load_resistance": 400.0}
A10 = {"voltage": 230.0, "frequency": 50.0, "dropper": 330e-9}
A12 = A10 | {"clamped_voltage": 48 * 3.1}
A13 = {"voltage": 230.0, "frequency": 50.0, "dropper": 1.2e-6, "clamped_voltage": 40.0}
E5 = {"voltage": 0.7, "saturation_current": 1e-14, "thermal_voltage": 0.026, "ideality": 1.0, "series_resistance": 0.0}
A16 = {"impedance": 5850.0, "load_resistance": 600.0, "frequency": 60.0}
E2 = {"voltage": 100.0, "frequency": 60.0, "real_power": 100.0, "power_factor": 0.5}
D7 = {"dropper": 0.47e-6, "bleeder": 1e6, "initial_voltage": 325.3}
F1 = {"step_voltage": 220.0, "inrush_resistor": 44.0, "dropper": 0.1e-6}
H7 = {"rated_life": 1000.0, "rated_temperature": 105.0}
TABLE = {"voltage": 230.0, "frequency": 50.0, "dropper": 1e-6}

PUBLISHED = [
    # capacitor-fed supplies
    Row("A1", ATMEL, "appendix 2, 7.2", "S", "dropper_for_half_wave", A1 | {"string_current_mean": 0.015}, "0.5e-6"),
    Row(
        "A1 exact",
        ATMEL,
        "appendix 2, 7.2, with the exact root of two",
        "C",
        "dropper_for_half_wave",
        A1 | {"string_current_mean": 0.015},
        "0.4993e-6",
    ),
    Row(
        "A1 charge",
        ATMEL,
        "appendix 2, 7.2 (its mJ read as mC)",
        "S",
        "charge_a_cycle",
        A1 | {"dropper": 0.4993e-6},
        "0.3e-3",
    ),
    # its 4:1 charge pump draws a quarter of the output current at four times the output and diode voltage
    Row("A2 full", TEXAS, "Table 2", "I", "dropper_for_current", A2, "152.5e-9"),
    Row("A2 half", TEXAS, "Table 2", "I", "twice_the_dropper", A2, "305.1e-9"),
    Row(
        "A2 half, as a pump",
        TEXAS,
        "Table 2",
        "I",
        "dropper_for_half_wave",
        {"voltage": 85.0, "frequency": 47.0, "output_voltage": 15.6, "diode_voltage": 0.7, "string_current_mean": 3e-3},
        "305.1e-9",
        differs=True,
        reason="twice the bridge's counts the output voltage twice; a pump needs 6 % less",
    ),
    Row("A3", TEXAS_NOTE, "surge resistor", "S", "surge_resistor", {"voltage": 230.0, "greatest_current": 2.5}, "130"),
    Row(
        "A4",
        TEXAS_NOTE,
        "surge resistor at the varistor's clamp",
        "S",
        "surge_resistor",
        {"peak_voltage": 1000.0, "greatest_current": 2.5},
        "400",
    ),
    Row(
        "A5 current",
        TEXAS_NOTE,
        "rms current, load neglected",
        "S",
        "series_current",
        A5,
        "23e-3",
        tolerance=2.3e-3,
        reason="the note calls it rough: 10 %; the load is neglected",
    ),
    Row(
        "A5 heat",
        TEXAS_NOTE,
        "loss of the surge resistor, load neglected",
        "S",
        "series_power",
        A5,
        "210e-3",
        tolerance=21e-3,
        reason="the note calls it rough: 10 %; the load is neglected",
    ),
    Row(
        "A6",
        TEXAS_NOTE,
        "loss of the surge resistor",
        "S",
        "inrush_resistor_heat",
        {"line_current_rms": 55e-3, "inrush_resistor": 280.0},
        "0.847",
    ),
    Row(
        "A7",
        TEXAS_NOTE,
        "loss of the surge resistor",
        "S",
        "inrush_resistor_heat",
        {"line_current_rms": 100e-3, "inrush_resistor": 470.0},
        "4.7",
    ),
    Row("A10 reactance", ENCYCLOPEDIA, "worked example", "S", "dropper_reactance", A10, "9.646e3"),
    Row("A10 current", ENCYCLOPEDIA, "worked example", "S", "short_circuit_current", A10, "24e-3"),
    Row(
        "A11",
        ENCYCLOPEDIA,
        "worked example",
        "S",
        "dropper_reactance",
        {"frequency": 50.0, "dropper": 1.2e-6},
        "2.653e3",
    ),
    Row(
        "A12 20 mA",
        ENCYCLOPEDIA,
        "48 LEDs of 3.1 V",
        "S",
        "mean_string_current",
        A12,
        "20e-3",
        differs=True,
        reason="the article takes mains voltage over reactance, which forgets the LEDs' own 149 V",
    ),
    Row("A12 V/Xc", ENCYCLOPEDIA, "48 LEDs of 3.1 V", "C", "short_circuit_over_mean", A12, "2.05"),
    Row("A12 excess", ENCYCLOPEDIA, "48 LEDs of 3.1 V: V/Xc over the mean", "C", "reactance_rule_excess", A12, "2.05"),
    Row("A12 mean", OWN, "-", "C", "mean_string_current", A12, "11.65e-3"),
    Row("A12 rms", OWN, "-", "C", "line_current_rms", A12, "17.75e-3"),
    Row("A12 power", OWN, "-", "C", "real_power", A12, "1.733"),
    Row("A12 factor", OWN, "-", "C", "power_factor", A12, "0.425"),
    Row(
        "A13 80 mA",
        ENCYCLOPEDIA,
        "4 strings, 40 V",
        "S",
        "mean_string_current",
        A13,
        "80e-3",
        differs=True,
        reason="80 is near the rms line current, not the mean that the LEDs get",
    ),
    Row(
        "A13 80 mA as rms",
        ENCYCLOPEDIA,
        "4 strings, 40 V",
        "S",
        "line_current_rms",
        A13,
        "80e-3",
        tolerance=5e-3,
        reason="a round figure without a working: within one unit of its one significant digit, halved",
    ),
    Row("A13 excess", ENCYCLOPEDIA, "4 strings, 40 V: V/Xc over the mean", "C", "reactance_rule_excess", A13, "1.27"),
    Row("A13 mean", OWN, "-", "C", "mean_string_current", A13, "68.5e-3"),
    Row("A13 rms", OWN, "-", "C", "line_current_rms", A13, "83.6e-3"),
    Row("A13 power", OWN, "-", "C", "real_power", A13, "2.74"),
    Row("A13 factor", OWN, "-", "C", "power_factor", A13, "0.142"),
    Row(
        "A16 slip",
        BRAGA,
        "reactance from impedance",
        "S",
        "reactance_beside_resistance",
        A16,
        "5618",
        differs=True,
        reason="a slip of the source: squared ohms subtracted give 5819",
    ),
    Row(
        "A16 dropper of the slip",
        BRAGA,
        "capacitance from reactance",
        "S",
        "dropper_beside_resistance",
        A16,
        "0.47e-6",
        differs=True,
        reason="follows from the slip in the reactance; 0.456 µF is right",
    ),
    Row("A16 right", OWN_PHASOR, "-", "C", "reactance_beside_resistance", A16, "5819"),
    Row("A16 right dropper", OWN_PHASOR, "-", "C", "dropper_beside_resistance", A16, "0.456e-6"),
    Row("B1", RECTIFIERS, "eq. (1)", "S", "greatest_power", TABLE, "5.29"),
    # ripple
    Row(
        "C1",
        MALVINO,
        "example 4-7",
        "S",
        "ripple_bound",
        {"string_current_mean": 17 / 5e3, "frequency": 60.0, "smoothing": 100e-6},
        "0.28",
    ),
    Row(
        "C2",
        MALVINO,
        "example 4-8",
        "S",
        "ripple_bound",
        {"string_current_mean": 34 / 5e3, "frequency": 60.0, "smoothing": 100e-6},
        "0.57",
    ),
    Row(
        "C3",
        MALVINO,
        "example 4-9",
        "S",
        "ripple_bound",
        {"string_current_mean": 9.9 / 500, "frequency": 60.0, "smoothing": 4700e-6},
        "35e-3",
    ),
    # discharge and inrush
    Row(
        "D1 current",
        BIRD,
        "chapter 17, problem 6",
        "I",
        "inrush_peak",
        {"step_voltage": 200.0, "inrush_resistor": 4e3},
        "0.05",
    ),
    Row(
        "D1 time",
        BIRD,
        "chapter 17, problem 6",
        "I",
        "discharge_time",
        {"dropper": 0.1e-6, "bleeder": 4e3, "initial_voltage": 200.0, "limit_voltage": 2.0},
        "1.84e-3",
    ),
    Row(
        "D2",
        BIRD,
        "chapter 45, problem 2",
        "I",
        "residual_voltage",
        {"dropper": 5e-6, "bleeder": 2e6, "initial_voltage": 200.0, "time": 20.0},
        "27.07",
    ),
    Row(
        "D3",
        "IEC/UL 60950-1, superseded",
        "37 % in 1 s",
        "S",
        "largest_bleeder",
        {"dropper": 200e-9, "initial_voltage": 100.0, "limit_voltage": 37.0, "time": 1.0},
        "5e6",
        tolerance=0.05e6,
        reason="the rule rounds 1/e = 36.8 % to 37 %, which is worth half a per cent of R",
    ),
    Row("D7 after 1 s", OWN_DECAY, "-", "C", "residual_voltage", D7 | {"time": 1.0}, "38.7"),
    Row("D7 to 34 V", OWN_DECAY, "-", "C", "discharge_time", D7 | {"limit_voltage": 34.0}, "1.061"),
    Row("D7 to 60 V", OWN_DECAY, "-", "C", "discharge_time", D7 | {"limit_voltage": 60.0}, "0.794"),
    Row("F1 peak", RASHID, "example 2.4", "I", "inrush_peak", F1, "5"),
    Row("F1 energy", RASHID, "example 2.4", "I", "inrush_energy", F1, "2.42e-3"),
    # this one is met by a capacitor charged to 220 V that is emptied through the resistor; peak and energy are the same
    Row(
        "F1 voltage",
        RASHID,
        "example 2.4",
        "I",
        "residual_voltage",
        {"initial_voltage": 220.0, "bleeder": 44.0, "dropper": 0.1e-6, "time": 2e-6},
        "139.64",
    ),
    # reactance, junctions, life
    Row(
        "E1",
        BIRD,
        "chapter 15, problem 5",
        "I",
        "short_circuit_current",
        {"voltage": 240.0, "frequency": 50.0, "dropper": 23e-6},
        "1.73",
    ),
    Row("E2 current", BIRD, "chapter 15, problem 29", "I", "current_for_power", E2, "2"),
    Row("E2 lead", BIRD, "chapter 15, problem 29", "I", "lead_degrees", E2, "60"),
    Row("E2 resistance", BIRD, "chapter 15, problem 29", "I", "resistance_for_power", E2, "25"),
    Row("E2 impedance", BIRD, "chapter 15, problem 29", "I", "impedance_for_power", E2, "50"),
    Row("E2 dropper", BIRD, "chapter 15, problem 29", "I", "dropper_for_power", E2, "61.3e-6"),
    Row(
        "Annex B apparent",
        ANNEX,
        "voltage a sine, currents of order 1 to 7 (from memory)",
        "M",
        "apparent_power_from_parts",
        {"real_power": 8660.254, "reactive_power": 5000.0, "current_distortion_power": 2692.582},
        "10356.16",
    ),
    # light
    Row(
        "full swing, one over pi",
        INDEX,
        "a sine from nothing to twice its mean",
        "C",
        "flicker_index_of_swing",
        {"current_modulation": 1.0},
        "0.318",
    ),
    Row(
        "full swing, half of that",
        INDEX,
        "a figure that goes about for the same sine, 1/(2 pi)",
        "C",
        "flicker_index_of_swing",
        {"current_modulation": 1.0},
        "0.159",
        differs=True,
        reason="the area above the mean is 2, the whole area 2 pi: the index is twice that figure",
    ),
    Row("rectified sine", INDEX, "a sine, rectified", "C", "flicker_index_of_rectified_sine", {}, "0.21051"),
    Row("E5", JUNCTIONS, "example 1.7, page 29", "M", "diode_current", E5, "4.93e-3"),
    Row("H7 45", COSEL, "table of lives", "S", "electrolytic_life", H7 | {"temperature": 45.0}, "64000"),
    Row("H7 55", COSEL, "table of lives", "S", "electrolytic_life", H7 | {"temperature": 55.0}, "32000"),
    Row("H7 65", COSEL, "table of lives", "S", "electrolytic_life", H7 | {"temperature": 65.0}, "16000"),
    Row(
        "H7 mix",
        COSEL,
        "8 h at each temperature",
        "S",
        "mixed_temperature",
        {"temperatures": (45.0, 55.0, 65.0), "hours": (8.0, 8.0, 8.0)},
        "57.2",
    ),
]

_COLUMNS = ("conduction_degrees", "mean_string_current", "line_current_rms", "real_power", "power_factor")
_LINES = {
    0.1: ("143.1", "58.55e-3", "70.35e-3", "1.904", "0.118"),
    0.2: ("126.9", "52.04e-3", "66.92e-3", "3.386", "0.220"),
    0.3: ("113.6", "45.54e-3", "62.48e-3", "4.444", "0.309"),
    0.5: ("90", "32.53e-3", "51.09e-3", "5.290", "0.450"),
    0.7: ("66.4", "19.52e-3", "36.30e-3", "4.444", "0.532"),
    0.9: ("36.9", "6.51e-3", "16.48e-3", "1.904", "0.502"),
}
CLOSED_FORM = [
    Row(
        f"{fraction} {column}",
        OWN,
        "table of the ideal lamp, 230 V 50 Hz 1 µF",
        "C",
        column,
        TABLE | {"clamped_fraction": fraction},
        printed,
    )
    for fraction, line in _LINES.items()
    for column, printed in zip(_COLUMNS, line, strict=True)
]
