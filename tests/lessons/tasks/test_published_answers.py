"""Tasks put at published values: their answers have to be the printed ones. At least one a lesson."""

import pytest
from dropper import lessons

# A lamp for the slips of a task whose printed example states its current alone.
_LINE = {"voltage": 230.0, "frequency": 50.0, "dropper": 1e-6, "clamped_voltage": 50.0}
# task, values, printed figure in the task's unit, half a unit of its last digit (or more, with a reason), source
PUBLISHED = [
    # lesson 1
    (
        "short_circuit",
        {"voltage": 240.0, "frequency": 50.0, "dropper": 23e-6},
        1.73,
        0.005,
        "J. Bird, Electrical Circuit Theory and Technology, chapter 15, problem 5 (place from memory)",
    ),
    (
        "series_current",
        {"voltage": 400.0, "frequency": 50.0, "load_resistance": 100.0, "dropper": 40e-6},
        3.13,
        0.01,
        "the same, worked example 2.34: 100 Ω and 40 µF on 400 V; the last digit is one off, for a rounded reactance",
    ),
    (
        "current_lead",
        {"voltage": 100.0, "frequency": 60.0, "load_resistance": 25.0, "dropper": 61.3e-6},
        60.0,
        0.5,
        "the same, chapter 15, problem 29: power factor 0.5, 25 Ω and 61.3 µF at 60 Hz",
    ),
    ("reactance", {"frequency": 50.0, "dropper": 330e-9}, 9.646e3, 0.5, "Wikipedia, Capacitive power supply"),
    ("reactance", {"frequency": 50.0, "dropper": 1.2e-6}, 2.653e3, 0.5, "the same"),
    # lesson 2
    (
        "greatest_power",
        {"voltage": 230.0, "frequency": 50.0, "dropper": 1e-6},
        5.29,
        0.005,
        "figure of merit of rectifiers, IEEE Xplore document 8891681, eq. (1), at 1 µF, 50 Hz and 325.27 V",
    ),
    (
        "dropper_for_string",
        {"voltage": 85.0, "frequency": 47.0, "clamped_voltage": 15.6, "string_current_mean": 3e-3},
        152.5e-9,
        0.05e-9,
        "Texas Instruments SBVS343A (2019), Table 2: a 4:1 charge pump behind the bridge",
    ),
    (
        "half_wave",
        {"voltage": 220.0, "frequency": 50.0, "dropper": 0.5e-6, "output_voltage": 20.0, "diode_voltage": 0.7},
        15e-3,
        0.05e-3,
        "Atmel user guide 7597B-AVR-10/07, appendix 2, 7.2: 0.5 µF for 15 mA",
    ),
    (
        "rule_excess",
        {"voltage": 230.0, "frequency": 50.0, "dropper": 330e-9, "clamped_voltage": 148.8},
        2.05,
        0.005,
        "Wikipedia, Capacitive power supply, 48 LEDs of 3.1 V: its 24 mA over the exact 11.65 mA (worked out for this project)",
    ),
    # lesson 3: the charge that a half-wave note prints moves between the same two crests
    (
        "dropper_peak",
        {"voltage": 230.0, "frequency": 50.0, "clamped_voltage": 162.635},
        162.6,
        0.1,
        "figure of merit of rectifiers, as above: at its maximum half of the peak is left for the dropper",
    ),
    (
        "conduction_angle",
        {"voltage": 230.0, "frequency": 50.0, "clamped_voltage": 0.3 * 325.269},
        113.6,
        0.05,
        "no source outside: table of the ideal lamp, witnessed by quadrature in tests/published",
    ),
    (
        "conduction_share",
        {"voltage": 230.0, "frequency": 50.0, "clamped_voltage": 0.5 * 325.269},
        50.0,
        0.05,
        "the same table: a quarter of a period at half of the peak",
    ),
    # lesson 4
    (
        "ripple_bound",
        {"string_current_mean": 17 / 5e3, "frequency": 60.0, "smoothing": 100e-6},
        0.28,
        0.005,
        "Malvino and Bates, Electronic Principles, 7th edition, example 4-7",
    ),
    (
        "ripple_bound",
        {"string_current_mean": 34 / 5e3, "frequency": 60.0, "smoothing": 100e-6},
        0.57,
        0.005,
        "the same, example 4-8",
    ),
    ("low_risk", {"frequency": 50.0}, 8.0, 0.05, "IEEE 1789-2015, 8.1.1, as restated: 8 % at 100 Hz"),
    ("low_risk", {"frequency": 60.0}, 9.6, 0.05, "IEEE 1789-2015, 8.1.1, as restated: 9.6 % at 120 Hz"),
    (
        "flicker_index",
        {"current_modulation": 1.0},
        0.318,
        0.0005,
        "index of a full-depth sine, 1/π: handbooks of lighting (value from memory)",
    ),
    # lesson 5
    (
        "factor_from_string",
        {"voltage": 230.0, "clamped_voltage": 148.8},
        0.425,
        0.0005,
        "Wikipedia, Capacitive power supply, 48 LEDs of 3.1 V on 230 V; the factor worked out for this project, witnessed by quadrature",
    ),
    (
        "volt_amperes",
        {"voltage": 120.0, "line_current_rms": 16e-3, "real_power": 0.5},
        1.92,
        0.005,
        "Microchip AN954 (DS00954A, 2004), p. 10, which prints it as watts",
    ),
    (
        "factor_from_readings",
        {"voltage": 100.0, "line_current_rms": 2.0, "real_power": 100.0},
        0.5,
        0.0005,
        "J. Bird, Electrical Circuit Theory and Technology, chapter 15, problem 29 (place from memory)",
    ),
    # lesson 6
    (
        "surge_resistor",
        {"voltage": 230.0, "frequency": 50.0, "greatest_current": 2.5},
        130.0,
        0.5,
        "Texas Instruments, support note on SBVS343A: 130 Ω for 2.5 A on 230 V",
    ),
    (
        "inrush_peak",
        {"voltage": 155.563, "frequency": 50.0, "dropper": 0.1e-6, "inrush_resistor": 44.0},
        5.0,
        0.005,
        "Rashid, Power Electronics, 4th edition, example 2.4: 220 V through 44 Ω into 0.1 µF (the peak is 220 V here)",
    ),
    (
        "inrush_energy",
        {"voltage": 155.563, "dropper": 0.1e-6, "inrush_resistor": 22.0, "larger_resistor": 44.0},
        2.42e-3,
        0.005e-3,
        "the same: 2.42 mJ",
    ),
    (
        "left_on_pins",
        {"voltage": 141.4214, "frequency": 50.0, "dropper": 5e-6, "bleeder": 2e6, "time": 20.0},
        27.07,
        0.005,
        "J. Bird, Electrical Circuit Theory and Technology, chapter 45, problem 2 (from memory): 5 µF, 2 MΩ, from 200 V, 20 s",
    ),
    (
        "time_to_limit",
        {"voltage": 141.4214, "frequency": 50.0, "dropper": 0.1e-6, "bleeder": 4e3, "limit_voltage": 2.0},
        1.84e-3,
        0.005e-3,
        "the same, chapter 17, problem 6: 0.1 µF, 4 kΩ, from 200 V to 2 V",
    ),
    # lesson 7
    (
        "inrush_resistor_heat",
        _LINE | {"inrush_resistor": 280.0, "line_current_rms": 55e-3},
        0.847,
        0.0005,
        "Texas Instruments, support note on SBVS343A: 55 mA through 280 Ω",
    ),
    (
        "inrush_resistor_heat",
        _LINE | {"inrush_resistor": 470.0, "line_current_rms": 0.1},
        4.7,
        0.005,
        "the same: 100 mA through 470 Ω",
    ),
    (
        "working_voltage",
        {"resistance": 1e6, "rated_power": 0.25, "limiting_voltage": 250.0},
        250.0,
        0.5,
        "makers' data sheets of carbon film resistors: 1/4 W, limiting element voltage 250 V",
    ),
    # lesson 8
    (
        "electrolytic_life",
        {"rated_life": 1000.0, "rated_temperature": 105.0, "temperature": 45.0},
        64000.0,
        0.5,
        "Cosel FAQ a0057, its table: 64 000 h at 45 °C",
    ),
    (
        "electrolytic_life",
        {"rated_life": 1000.0, "rated_temperature": 105.0, "temperature": 65.0},
        16000.0,
        0.5,
        "the same: 16 000 h at 65 °C",
    ),
    (
        "derated",
        {"rated_power": 0.25, "full_power_temperature": 70.0, "no_power_temperature": 155.0, "temperature": 155.0},
        0.0,
        1e-9,
        "makers' data sheets of film resistors: full power to 70 °C, none at 155 °C",
    ),
    (
        "deviation_of_a_mark",
        {"dropper_off": 0.40},
        0.23,
        0.005,
        "JCGM 100:2008 (GUM), 4.3.7, copper's expansion: bounds of 0.40 give a standard uncertainty of 0.23; from memory",
    ),
    # lesson 9
    (
        "leds_for_power",
        {"voltage": 230.0, "forward_voltage": 1.0, "diode_voltage": 0.0},
        162.6,
        0.05,
        "figure of merit of rectifiers, as above: greatest at half of 325.27 V, here counted in volts",
    ),
    # lesson 11
    ("film_code", {"code": 474}, 0.47e-6, 0.005e-6, "IEC 60062:2016, three digits in picofarads; value from memory"),
    (
        "four_bands",
        {"first": 4, "second": 7, "third": 3},
        47e3,
        0.5e3,
        "IEC 60062:2016, table 1: yellow 4, violet 7, orange 10³",
    ),
    # lesson 12
    (
        "dropper_from_readings",
        {"voltage": 85.0, "frequency": 47.0, "clamped_voltage": 15.6, "string_current_mean": 3e-3},
        152.5e-9,
        0.05e-9,
        "Texas Instruments SBVS343A (2019), Table 2, as above",
    ),
    # lesson 13
    (
        "two_causes",
        {"first_weight": 1.0, "second_weight": 99.0, "first_chance": 80.0, "second_chance": 9.6},
        7.8,
        0.05,
        "Gigerenzer and Hoffrage (1995), Psychol. Rev. 102:684, after Eddy (1982): 1 %, 80 %, 9.6 %; from memory",
    ),
    (
        "bits_of_a_test",
        {"whole": 100.0, "more": 11.0},
        0.5,
        0.0005,
        "Cover and Thomas, Elements of Information Theory, chapter 2: entropy of 0.11 and 0.89 is half a bit; value from memory",
    ),
    (
        "bits_of_a_test",
        {"whole": 2.0, "more": 1.0},
        1.0,
        1e-9,
        "Shannon (1948), Bell Syst. Tech. J. 27:379, section 6: two outcomes alike in probability, one bit",
    ),
    # lesson 14
    (
        "cut_volts",
        {"voltage": 230.0, "cut_off": 90.0},
        162.6,
        0.05,
        "Half of the power of a heater at 90°: V/√2, any textbook of power electronics, phase control; from memory",
    ),
    (
        "stepped_top",
        {"voltage": 120.0, "dwell": 0.5},
        169.7,
        0.05,
        "A three-level wave that stands at its top for half of the time has a sine's peak and rms value; from memory",
    ),
]


@pytest.mark.parametrize(("key", "values", "printed", "digit", "source"), PUBLISHED, ids=lambda item: str(item)[:24])
def test_a_task_at_published_values_gives_the_printed_figure(key, values, printed, digit, source):
    instance = lessons.question(key).with_values(values)
    assert instance.answer == pytest.approx(printed, abs=digit), source
    assert instance.judge(f"{printed:.6g}").right or key == "low_risk"


def test_three_temperatures_in_turn_wear_as_printed():
    """Cosel FAQ a0057: 8 hours each at 45 °C, 55 °C and 65 °C wear as 57.2 °C all the time."""
    ask = lessons.question("mixed_temperature").with_values
    first = ask({"first_hours": 12.0, "first_temperature": 45.0, "second_temperature": 55.0})
    whole = ask({"first_hours": 16.0, "first_temperature": first.answer, "second_temperature": 65.0})
    assert whole.answer == pytest.approx(57.2, abs=0.05)
    assert whole.judge("57.2 °C").right


def test_every_lesson_is_checked():
    assert {lessons.question(key).lesson for key, *_ in PUBLISHED} == set(lessons.LESSONS)


def test_a_published_slip_is_told_by_its_name():
    """48 LEDs of 3.1 V "at 20 mA": the article takes mains over reactance, 24 mA; the LEDs get 11.65 mA."""
    instance = lessons.question("string_current").with_values(
        {"voltage": 230.0, "frequency": 50.0, "dropper": 330e-9, "clamped_voltage": 148.8}
    )
    assert instance.judge("11.65 mA").right
    assert instance.judge("24 mA").slips == ("V over Xc",)
    assert instance.judge("17.75 mA").slips == ("rms for mean",)


def test_volt_amperes_printed_as_watts_are_told():
    """Microchip AN954, p. 10, takes 1.92 VA for watts."""
    instance = lessons.question("cost").with_values(
        {"voltage": 120.0, "line_current_rms": 16e-3, "real_power": 0.5, "hours_a_year": 1000.0, "price_of_energy": 0.2}
    )
    assert instance.judge(f"{1.92 * 1000 * 0.2 / 1000:.4g}").slips == ("VA for W",)


def test_two_published_rules_disagree_on_one_lamp():
    """0.47 µF and 1 MΩ on 230 V: IEC 60950-1 (superseded) is kept, IEC 60335-1 is not; 38.7 V, worked out here."""
    instance = lessons.question("rules_disagree").with_values(
        {"voltage": 230.0, "frequency": 50.0, "dropper": 0.47e-6, "bleeder": 1e6}
    )
    assert instance.answer == "share"
    assert "38.7" in instance.solution()


def test_rules_named_in_tasks_are_those_that_are_kept():
    """Volts and seconds of the discharge tasks stand in the published rules."""
    from dropper.lessons.plugging.unplugging_tasks import HOUSEHOLD, OTHERS
    from dropper.standards import TOUCH_RULES, touch_rule

    rule = touch_rule("household")
    assert (rule.limit, rule.seconds) == HOUSEHOLD
    assert set(OTHERS) <= {(rule.limit, rule.seconds) for rule in TOUCH_RULES}
