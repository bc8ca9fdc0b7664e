"""More published figures for the derivations, in families: one source, one formula, a line of inputs and figures each."""

from rows import Row

DISCHARGE = "Monolithic Power Systems, HF81 product page, Table 1: Component Selection"
LIFE_FORUM = "forum text on the rule of 10 degrees, egg.5ch.net/test/read.cgi/dtm/1630432580/255"
LIFE_ANSWER = "Electrical Engineering at codidact.com, question 276293 and its answer"
LIFE_LIST = "R. McMahon, PICLIST of 2008-12-09, on the life of electrolytics"
TOOLEY = "worked example reprinted at holooly.com, ?p=1233606 (as in M. Tooley, Electronic Circuits, from memory)"
SADIKU = "Alexander and Sadiku, Fundamentals of Electric Circuits"
GUM = "JCGM 100:2008 (GUM)"
SI = "SI, exact constants of 2019 (CODATA 2018)"
MOHAN = "Mohan, Undeland and Robbins, Power Electronics, 2nd edition, chapter 5: line-frequency diode rectifiers"
SEDRA = "Sedra and Smith, Microelectronic Circuits, 5th edition, example 3.9"
RECTRON = "Rectron, data sheet of the 1N4007, 2017-04"
SERIES_TOOLEY = "worked example reprinted at holooly.com, ?p=1233634 (as in M. Tooley, from memory)"
SERIES_ANSWER = "askanewquestion.com, question 1380727 and its answer"
NCERT = "NCERT, Physics for class XII, exercise 7.4 (text at neetprep.com/ncert-question/226855)"
FILTERS = "How to calculate capacitor value for 12V power supply, janachladkova.cz"


def family(prefix, source, place, how, formula, cases, **options):
    """Rows that share all but inputs and figure: (name, inputs, printed) each."""
    return [
        Row(f"{prefix} {name}", source, place, how, formula, inputs, printed, **options)
        for name, inputs, printed in cases
    ]


# The voltage is not printed; 264 V (a 240 V mains 10 % high) is inferred and fits all seven lines.
_SAVED = {
    "1 MΩ": (1e6, "66e-3"),
    "780 kΩ": (780e3, "86e-3"),
    "480 kΩ": (480e3, "142e-3"),
    "360 kΩ": (360e3, "191e-3"),
    "300 kΩ": (300e3, "230e-3"),
    "200 kΩ": (200e3, "347e-3"),
    "150 kΩ": (150e3, "464e-3"),
}
_PAIRS = {
    "0.75 µF": (0.75e-6, 1e6),
    "1 µF": (1e-6, 780e3),
    "1.5 µF": (1.5e-6, 480e3),
    "2 µF": (2e-6, 360e3),
    "2.5 µF": (2.5e-6, 300e3),
    "3.5 µF": (3.5e-6, 200e3),
    "5 µF": (5e-6, 150e3),
}
_SERIES = {"load_resistance": 5.0, "reactance": 1 / (4 * 0.1)}
_AIRCRAFT = {"voltage": 115.0, "frequency": 400.0, "dropper": 2e-6, "load_resistance": 100.0}
_ANSWERED = {"voltage": 100.0, "frequency": 50.0, "dropper": 20e-6, "load_resistance": 30.0}
_SADIKU_11 = {"load_resistance": 30 * 0.8660254, "reactance": 15.0}

FURTHER = [
    *family(
        "J1",
        DISCHARGE,
        "power saving, 264 V inferred",
        "I",
        "bleeder_heat",
        [(name, {"bleeder": ohms, "dropper_voltage_rms": 264.0}, text) for name, (ohms, text) in _SAVED.items()],
        tolerance=5e-3,
        reason="the printed watts are those saved: less the few milliwatts that the part itself takes",
    ),
    *family(
        "J2",
        DISCHARGE,
        "X capacitance against total series resistance",
        "S",
        "within_a_second",
        [(name, {"dropper": farads, "bleeder": ohms}, "1") for name, (farads, ohms) in _PAIRS.items()],
        tolerance=0.5,
        reason="a yes: the pair falls to 37 % within one second, the rule that the table serves",
    ),
    *family(
        "J3",
        LIFE_FORUM,
        "2000 h at 105 °C",
        "S",
        "electrolytic_life",
        [
            (f"{degrees} °C", {"rated_life": 2000.0, "rated_temperature": 105.0, "temperature": degrees}, hours)
            for degrees, hours in ((95.0, "4000"), (85.0, "8000"), (65.0, "32000"))
        ],
    ),
    Row(
        "J3 years",
        LIFE_FORUM,
        "32 000 h, day and night",
        "S",
        "life_in_years",
        {"rated_life": 2000.0, "rated_temperature": 105.0, "temperature": 65.0},
        "3.5",
        tolerance=0.2,
        reason="printed as three and a half years and a little more",
    ),
    *family(
        "J4",
        LIFE_ANSWER,
        "5000 h at 105 °C",
        "S",
        "electrolytic_life",
        [
            (f"{degrees} °C", {"rated_life": 5000.0, "rated_temperature": 105.0, "temperature": degrees}, hours)
            for degrees, hours in ((95.0, "10000"), (85.0, "20000"))
        ],
    ),
    Row(
        "J4 years",
        LIFE_ANSWER,
        "10 000 h at 105 °C",
        "S",
        "life_in_years",
        {"rated_life": 10000.0, "rated_temperature": 105.0, "temperature": 105.0},
        "1.14",
    ),
    *family(
        "J5",
        LIFE_LIST,
        "1000 h, run at 45 °C",
        "S",
        "electrolytic_life",
        [
            ("85 °C", {"rated_life": 1000.0, "rated_temperature": 85.0, "temperature": 45.0}, "16000"),
            ("105 °C", {"rated_life": 1000.0, "rated_temperature": 105.0, "temperature": 45.0}, "64000"),
        ],
    ),
    Row("J6 reactance", TOOLEY, "100 nF", "S", "dropper_reactance", {"frequency": 50.0, "dropper": 100e-9}, "31.8e3"),
    Row(
        "J6 current",
        TOOLEY,
        "100 nF on 240 V",
        "S",
        "short_circuit_current",
        {"frequency": 50.0, "dropper": 100e-9, "voltage": 240.0},
        "7.5e-3",
    ),
    Row(
        "J7 current",
        SADIKU,
        "example 9.9, from memory",
        "M",
        "series_current_of_reactance",
        _SERIES | {"voltage": 10.0},
        "1.789",
    ),
    Row("J14 reactance", SERIES_TOOLEY, "2 µF at 400 Hz", "S", "dropper_reactance", _AIRCRAFT, "199"),
    Row("J14 impedance", SERIES_TOOLEY, "2 µF and 100 Ω", "S", "series_impedance", _AIRCRAFT, "223"),
    Row("J14 current", SERIES_TOOLEY, "2 µF and 100 Ω on 115 V", "S", "series_current", _AIRCRAFT, "0.52"),
    Row("J15 reactance", SERIES_ANSWER, "20 µF at 50 Hz", "S", "dropper_reactance", _ANSWERED, "159.2"),
    Row("J15 impedance", SERIES_ANSWER, "20 µF and 30 Ω", "S", "series_impedance", _ANSWERED, "162"),
    Row("J15 current", SERIES_ANSWER, "20 µF and 30 Ω on 100 V", "S", "series_current", _ANSWERED, "0.617"),
    Row("J15 lead", SERIES_ANSWER, "20 µF and 30 Ω", "S", "lead_of", _ANSWERED, "79.3"),
    Row(
        "J16",
        NCERT,
        "60 µF on 110 V, 60 Hz",
        "S",
        "short_circuit_current",
        {"voltage": 110.0, "frequency": 60.0, "dropper": 60e-6},
        "2.49",
    ),
    Row(
        "J17",
        FILTERS,
        "2 A, 50 Hz, 1 V peak to peak",
        "S",
        "smoothing_of_bridge",
        {"frequency": 50.0, "bus_ripple": 1.0, "string_current_mean": 2.0},
        "10000e-6",
        differs=True,
        reason="it divides by 4 f C: a bridge recharges twice in a period, so the bound has 2 f C and asks for 20 000 µF",
    ),
    Row("J7 lead", SADIKU, "example 9.9, from memory", "M", "lead_of", _SERIES, "26.57"),
    Row(
        "J7 capacitor",
        SADIKU,
        "example 9.9, from memory",
        "M",
        "volts_on_reactance",
        _SERIES | {"voltage": 10.0},
        "4.472",
        tolerance=1e-3,
        reason="the source multiplies the rounded 1.789 A",
    ),
    Row("J8 factor", SADIKU, "example 11.9, from memory", "M", "series_power_factor", _SADIKU_11, "0.866"),
    Row("J8 lead", SADIKU, "example 11.9, from memory", "M", "lead_of", _SADIKU_11, "30"),
    Row(
        "J8 capacitor",
        SADIKU,
        "example 11.9, from memory",
        "M",
        "dropper_of_reactance",
        {"reactance": 15.0, "frequency": 50.0},
        "212.2e-6",
    ),
    Row("J9 flat", GUM, "4.4.5, from memory", "M", "deviation_in_kelvins", {"formula": "flat_deviation"}, "2.3"),
    Row(
        "J9 triangle", GUM, "4.4.6, from memory", "M", "deviation_in_kelvins", {"formula": "triangle_deviation"}, "1.6"
    ),
    *family(
        "J10",
        SI,
        "k T over e, from memory",
        "M",
        "thermal_voltage_at",
        [
            ("300 K", {"absolute_temperature": 300.0}, "25.852e-3"),
            ("25 °C", {"absolute_temperature": 298.15}, "25.69e-3"),
        ],
    ),
    Row(
        "J11",
        RECTRON,
        "30 A, half a sine of 8.3 ms",
        "S",
        "surge_fusing_integral",
        {"surge_current": 30.0, "surge_time": 8.3e-3},
        "3.74",
    ),
    Row("J12 second", MOHAN, "full wave; from memory", "M", "charging_harmonic", {"clamped_fraction": 0.0}, "0.667"),
    Row("J12 form", MOHAN, "full wave; from memory", "M", "form_factor_of_sine", {}, "1.11"),
    Row("J12 ripple", MOHAN, "full wave; from memory", "M", "ripple_factor", {}, "0.48"),
    Row(
        "J13",
        SEDRA,
        "100 V, 60 Hz, 10 kΩ, 2 V, half wave; from memory",
        "M",
        "smoothing_of_half_wave",
        {"frequency": 60.0, "bus_ripple": 2.0, "string_current_mean": 0.010},
        "83.3e-6",
    ),
    Row(
        "J13 as a bridge",
        SEDRA,
        "100 V, 60 Hz, 10 kΩ, 2 V; from memory",
        "M",
        "smoothing_of_bridge",
        {"frequency": 60.0, "bus_ripple": 2.0, "string_current_mean": 0.010},
        "83.3e-6",
        differs=True,
        reason="the example is a half-wave rectifier; a bridge recharges twice as often and needs half",
    ),
]

IEC_CLASS_C = "IEC 61000-3-2, Table 2, class C above 25 W, as printed in an accredited test report (an older edition)"
IEC_PER_WATT = "IEC 61000-3-2, Table 3, limits per watt, as printed in an accredited test report"
IEEE_LIGHT = "IEEE 1789-2015, 8.1.1, as restated on a lamp maker's knowledge page"
EU_LIGHT = "Regulation (EU) 2019/2020, Annex II, Table 4; from memory"
IEC_X = "IEC 60384-14, pulse voltage of large capacitors; from memory"

# id, source, how, what of `standards` is asked, inputs, printed
LIMITS = [
    *(
        Row(f"K1 {order}", IEC_CLASS_C, f"harmonic {order}", "S", "share_above_25_w", {"order": order}, text)
        for order, text in ((2, "2"), (3, "27"), (5, "10"), (7, "7"), (9, "5"), (11, "3"))
    ),
    *(
        Row(f"K2 {order}", IEC_PER_WATT, f"harmonic {order}", "S", "milliamperes_per_watt", {"order": order}, text)
        for order, text in ((3, "3.4"), (5, "1.9"), (7, "1.0"), (9, "0.5"), (11, "0.35"), (13, "0.296"), (39, "0.0987"))
    ),
    Row("K3 low risk", IEEE_LIGHT, "100 Hz", "S", "low_risk", {"frequency": 100.0}, "8"),
    Row("K3 no effect", IEEE_LIGHT, "100 Hz", "S", "no_effect", {"frequency": 100.0}, "3"),
    *(
        Row(f"K4 {watts:g} W", EU_LIGHT, "displacement factor", "M", "least_displacement", {"power": watts}, text)
        for watts, text in ((5.0, "0"), (10.0, "0.5"), (25.0, "0.7"), (30.0, "0.9"))
    ),
    Row("K5 X2", IEC_X, "4.7 µF", "M", "pulse", {"mains_class": "X2", "capacitance": 4.7e-6}, "1.15e3"),
    Row("K5 X1", IEC_X, "2.2 µF", "M", "pulse", {"mains_class": "X1", "capacitance": 2.2e-6}, "2.70e3"),
]
