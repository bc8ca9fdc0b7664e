"""What kinds of parts stand, against makers' data sheets, and the choice of a part for a stress."""

import math

import pytest
from dropper import steady_state, theory
from dropper.circuit.lamp import Lamp, LedString, Mains
from dropper.circuit.series import E_SERIES
from dropper.components import kinds
from dropper.components.kinds import COMMON_USE, FAMILIES, Stress, Use
from hypothesis import assume, given
from hypothesis import strategies as st

EVERY = [(family, part) for family, parts in FAMILIES.items() for part in parts]


# Makers' data sheets, read: carbon film 1/6 W 150 V, 1/4 W 250 V (small body 200), 1/2 W 350 V (small body 300); metal
# film 0.4 W 200 V, 0.6 W 350 V, 1 W 350 V, 2 W 500 V, 3 W 750 V; chips 0402 and 0603 50 V, 0805 150 V, others 200 V.
@pytest.mark.parametrize(
    ("name", "watts", "volts"),
    [
        ("carbon film 1/6 W", 1 / 6, 150),
        ("carbon film 1/4 W", 0.25, 250),
        ("carbon film 1/4 W, small body", 0.25, 200),
        ("carbon film 1/2 W", 0.5, 350),
        ("carbon film 1/2 W, small body", 0.5, 300),
        ("film 0.4 W, small body", 0.4, 200),
        ("film 0.6 W", 0.6, 350),
        ("film 1 W", 1, 350),
        ("film 2 W", 2, 500),
        ("film 3 W", 3, 750),
        ("film 1/4 W, small body", 0.25, 150),
        ("chip 0402", 0.0625, 50),
        ("chip 0603", 0.1, 50),
        ("chip 0805", 0.125, 150),
        ("chip 1206", 0.25, 200),
        ("chip 2512", 1, 200),
    ],
)
def test_resistors(name, watts, volts):
    found = kinds.part(name)
    assert found.ratings == {"power": watts, "voltage": volts}
    assert (found.full_power_to, found.no_power_from) == (70, 155)


# Makers' data sheets of 1N4001 to 1N4007, read: 50 to 1000 V, 1 A, surge 30 A for 8.3 ms, about 1.1 V at 1 A,
# current 20 % less into a capacitive load.
@pytest.mark.parametrize(("number", "volts"), [(1, 50), (2, 100), (3, 200), (4, 400), (5, 600), (6, 800), (7, 1000)])
def test_rectifiers(number, volts):
    found = kinds.part(f"1N400{number}")
    assert found.ratings == {"voltage": volts, "current": 1, "surge": 30}
    assert found.surge_time == 8.3e-3 and found.forward_voltage == 1.1
    assert found.withstands(Stress(voltage=volts, current=0.8), kinds.CAPACITIVE_LOAD)
    assert not found.withstands(Stress(current=0.81), kinds.CAPACITIVE_LOAD)
    # Rectron 1N4007 data sheet, 2017-04: I²t 3.74 A²s, 3.735 before rounding
    joules_an_ohm = theory.surge_fusing_integral(surge_current=found.surge, surge_time=found.surge_time)
    assert joules_an_ohm == pytest.approx(3.735, abs=5e-4)


def test_capacitors_for_the_mains_say_what_their_class_leaves_open():
    """275, 305 and 310 V are the common X2 ratings (makers' data sheets, read)."""
    assert [each.rated_ac_voltage for each in kinds.X2] == [275, 305, 310]
    for each in (*kinds.X1, *kinds.X2):
        assert "between line and neutral" in each.promises
        assert "in series" in each.does_not_promise and "data sheet names series use" in each.does_not_promise
        assert "safe" not in each.promises


def test_dc_film_is_allowed_less_on_ac():
    for each in kinds.DC_FILM:
        assert each.ac_voltage * math.sqrt(2) < each.rated_voltage
    assert not any(each.withstands(Stress(ac_voltage=253)) for each in kinds.DC_FILM), (
        "none of them for 230 V and 10 % more"
    )


def test_electrolytics_by_the_life_on_the_can():
    """Cosel FAQ a0057, read: 1000 h at 105 °C is 16 000 h at 65 °C."""
    life = next(each for each in kinds.LIVES if each.name == "1000 h at 105 °C")
    assert life.provenance == "read in makers' data sheets" and "a0057" in life.source
    found = theory.electrolytic_life(rated_life=life.hours, rated_temperature=life.temperature, temperature=65.0)
    assert found == pytest.approx(16000, rel=1e-12)
    assert [each.rated_voltage for each in kinds.ELECTROLYTICS][::14] == [6.3, 450]


# Makers' data sheets, read: near-UV 375 nm 3.5 V at 20 mA; blue 3.2 V; warm white 3.0 V (2.6 to 3.4); yellow 1.85 V at
# 2 mA, −2 mV/K; packages of 0.5 W 3.2 V at 150 mA (2.6 to 3.6), of 0.2 W 2.8 V at 60 mA; two and three junctions 6, 9 V.
@pytest.mark.parametrize(
    ("name", "volts", "amperes"),
    [
        ("near-UV 375 nm, 5 mm", 3.5, 0.020),
        ("blue, 5 mm", 3.2, 0.020),
        ("warm white, 5 mm", 3.0, 0.020),
        ("yellow, 5 mm", 1.85, 0.002),
        ("mid-power 0.5 W, one junction", 3.2, 0.150),
        ("mid-power 0.2 W, one junction", 2.8, 0.060),
        ("mid-power, two junctions", 6.0, 0.060),
        ("mid-power, three junctions", 9.0, 0.060),
    ],
)
def test_leds(name, volts, amperes):
    kind = kinds.led_kind(name)
    assert (kind.typical, kind.at_current) == (volts, amperes)
    assert kind.provenance == "read in makers' data sheets" and kind.reverse_limit == 5
    assert kind.led().voltage_at(amperes) == pytest.approx(volts, rel=1e-9)


def test_spread_and_coefficient_that_were_read():
    white, bright = kinds.led_kind("warm white, 5 mm"), kinds.led_kind("mid-power 0.5 W, one junction")
    assert (white.least, white.greatest) == (2.6, 3.4) and (bright.least, bright.greatest) == (2.6, 3.6)
    assert kinds.led_kind("yellow, 5 mm").coefficient == -2e-3


@pytest.mark.parametrize("kind", kinds.LEDS, ids=lambda kind: kind.name)
def test_every_led_lights_a_lamp_and_its_spread_shows(kind):
    """The lower the forward voltage, the less the string takes of the mains, and the more current flows."""
    currents = []
    for which in ("least", "typical", "greatest"):
        lamp = Lamp(Mains(230, 50), LedString(kind.led(which), 12), dropper=100e-9, smoothing=22e-6)
        result = steady_state(lamp, points=128)
        assert result.settled
        currents.append(result.string_current_mean)
    assert currents == sorted(currents, reverse=True) and currents[0] > currents[-1]
    assert "typical practice" in kind.source or kind.provenance == "typical practice, no source"


def test_every_part_says_where_its_figures_come_from():
    for _, part in EVERY:
        assert part.source and part.provenance in kinds.PROVENANCES
    names = [part.name for _, part in EVERY]
    assert len(set(names)) == len(names)
    for each in (*kinds.LIVES, *kinds.RIPPLES):
        assert each.source and each.provenance in kinds.PROVENANCES


# --- choosing ---------------------------------------------------------------------------------------------------


def test_a_bridge_diode_for_230_volts():
    """The mains' peak at 253 V is 357.8 V: of the published steps 400 V is the next one up."""
    peak = theory.peak_voltage(voltage=253.0)
    assert kinds.next_up("rectifier diode", Stress(voltage=peak)).name == "1N4004"
    assert kinds.next_up("rectifier diode", Stress(voltage=peak), COMMON_USE).name == "1N4005"


def stresses(part_family):
    ratings = FAMILIES[part_family][0].ratings
    top = {name: 1.3 * max(part.ratings[name] for part in FAMILIES[part_family]) for name in ratings}
    return st.fixed_dictionaries({}, optional={name: st.floats(0, most) for name, most in top.items()}).filter(bool)


@given(
    data=st.data(),
    family=st.sampled_from(list(FAMILIES)),
    use=st.builds(Use, st.floats(0.3, 1), st.floats(0.3, 1), st.floats(0.3, 1)),
)
def test_the_next_part_up_stands_it_and_none_below_does(data, family, use):
    stress = Stress(**data.draw(stresses(family)))
    parts = FAMILIES[family]

    def covers(part):
        shares = {"power": use.power, "current": use.current, "surge": 1}
        return all(
            part.ratings[name] * shares.get(name, use.voltage) >= demands for name, demands in stress.demands.items()
        )

    try:
        found = kinds.next_up(family, stress, use)
    except ValueError as error:
        assert not any(map(covers, parts))
        assert "none kept here stands this" in str(error) and "is asked" in str(error)
    else:
        place = parts.index(found)
        assert covers(found) and not any(covers(part) for part in parts[:place])


@given(family=st.sampled_from(list(FAMILIES)), data=st.data(), more=st.floats(1, 2))
def test_more_stress_never_asks_for_a_smaller_part(family, data, more):
    demands = data.draw(stresses(family))
    parts = FAMILIES[family]
    heavier = Stress(**{name: value * more for name, value in demands.items()})
    assume(any(part.withstands(heavier) for part in parts))
    light = kinds.next_up(family, Stress(**demands))
    assert parts.index(light) <= parts.index(kinds.next_up(family, heavier))


def test_a_warm_resistor_needs_a_bigger_one():
    """0.2 W at 120 °C, where the line from 70 to 155 °C allows 41 %: it takes 0.486 W of rating."""
    share = theory.derated_share(temperature=120.0, full_power_temperature=70.0, no_power_temperature=155.0)
    assert share == pytest.approx(35 / 85, rel=1e-12)
    cool = kinds.next_up("film resistor", Stress(power=0.2))
    warm = kinds.next_up("film resistor", Stress(power=0.2), Use(power=share))
    assert cool.rated_power == 0.25 and warm.rated_power == 0.5


# --- in series --------------------------------------------------------------------------------------------------


def test_two_bleeders_where_one_does_not_do():
    """At 230 V (325 to 358 V of peak) two small bleeders go in series: one 1/4 W film stands 250 V (makers' sheets)."""
    quarter, peak = kinds.part("carbon film 1/4 W"), theory.peak_voltage(voltage=253.0)
    watts = theory.bleeder_heat(dropper_voltage_rms=253.0, bleeder=1e6)
    stress = Stress(voltage=peak, power=watts)
    assert not quarter.withstands(stress)
    working = theory.resistor_working_voltage(
        resistance=1e6, rated_power=quarter.rated_power, limiting_voltage=quarter.limiting_voltage
    )
    assert working < peak
    found = kinds.chain(quarter, 1e6, stress)
    assert (found.count, found.resistance_each) == (2, 470e3) and "2 of carbon film 1/4 W, each 470 kΩ" in found.words
    each = theory.resistor_working_voltage(
        resistance=found.resistance_each, rated_power=quarter.rated_power, limiting_voltage=quarter.limiting_voltage
    )
    assert each >= peak / 2
    assert kinds.chain(kinds.part("film 2 W"), 1e6, stress).words == "One film 2 W of 1 MΩ does."


@given(
    part=st.sampled_from([part for _, part in EVERY if isinstance(part, kinds.Resistor)]),
    resistance=st.floats(1e4, 1e7),
    voltage=st.floats(1, 1500),
)
def test_a_chain_stands_what_is_asked_and_one_fewer_would_not(part, resistance, voltage):
    watts = voltage**2 / resistance
    assume(watts < 5)
    found = kinds.chain(part, resistance, Stress(voltage=voltage, power=watts))
    assert found.resistance <= resistance * (1 + 1e-9)
    digits = found.resistance_each / 10 ** math.floor(math.log10(found.resistance_each * (1 + 1e-9))) * 10
    assert round(digits) in E_SERIES[24]
    volts = voltage / found.count
    assert volts <= part.limiting_voltage and volts**2 / found.resistance_each <= part.rated_power * (1 + 1e-9)
    if found.count > 1:
        fewer = found.count - 1
        largest = (
            resistance / fewer
        )  # even of the full ohms, not rounded down, one fewer falls short, or its next value does
        preferred = [r for r in (e * 10.0**d for d in range(-2, 8) for e in E_SERIES[24]) if r <= largest * (1 + 1e-9)]
        short = voltage / fewer > part.limiting_voltage or (voltage / fewer) ** 2 / max(
            preferred
        ) > part.rated_power * (1 - 1e-9)
        assert short, f"{fewer} would have done"


# --- complaints -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Stress(), "nothing is asked; give at least one of voltage, ac_voltage, power, current, surge"),
        (lambda: Stress(voltage=-1), r"Stress.voltage: -1 V is out of range; allowed is none, or 0 V to 100 kV"),
        (lambda: Stress(power=math.nan), "Stress.power: nan is not a finite number in W"),
        (lambda: Use(voltage=1.2), "Use.voltage: 1.2 is out of range; allowed is 0.001 to 1"),
        (
            lambda: kinds.next_up("valve", Stress(voltage=1)),
            "kind: 'valve' is not kept here; there are carbon film resistor;",
        ),
        (
            lambda: kinds.next_up("rectifier diode", Stress(power=1)),
            "no such rating is kept for 1N4001; there is voltage, current",
        ),
        (
            lambda: kinds.next_up("X2 capacitor", Stress(ac_voltage=400)),
            "400 V is asked, X2 film, 310 V ac is allowed 310 V",
        ),
        (lambda: kinds.next_up("carbon film resistor", Stress(voltage=800)), "Several in series share volts and watts"),
        (lambda: kinds.part("1N4008"), "name: '1N4008' is no part kept here; there are carbon film 1/6 W;"),
        (lambda: kinds.chain(kinds.part("1N4007"), 1e6, Stress(voltage=325)), "'1N4007' is no resistor"),
        (
            lambda: kinds.chain(kinds.part("film 1 W"), 0, Stress(voltage=325)),
            "resistance: 0 Ω will not do; allowed is 1 Ω",
        ),
        (lambda: kinds.chain(kinds.part("film 1 W"), 1e6, Stress(current=1)), "Stress.current: no such rating"),
        (
            lambda: kinds.chain(kinds.part("chip 0402"), 1e3, Stress(power=100)),
            "100 of chip 0402 in series do not stand this",
        ),
        (lambda: kinds.led_kind("pink"), "name: 'pink' is no LED kept here; there are red, 5 mm;"),
        (
            lambda: kinds.led_kind("blue, 5 mm").led("mean"),
            "which: 'mean' will not do; choose typical, least or greatest",
        ),
        (lambda: kinds.AcrossTheMains("Y", "none", kinds.PROVENANCES[0], "Y2", 250), "'Y2' is neither X1 nor X2"),
        (
            lambda: kinds.RectifierDiode("D", "none", "guessed", 50),
            "provenance: 'guessed' is none of read in makers' data sheets",
        ),
    ],
)
def test_errors_speak_to_a_person(make, words):
    with pytest.raises(ValueError) as caught:
        make()
    assert words in str(caught.value)


def test_what_falls_short_is_told_with_both_figures():
    told = kinds.part("film 1/4 W").shortfalls(Stress(voltage=325, power=0.2), COMMON_USE)
    assert told == (
        "Greatest voltage, dc or peak: 325 V is asked, film 1/4 W is allowed 200 V, 80 % of the 250 V rated.",
        "Mean power: 200 mW is asked, film 1/4 W is allowed 125 mW, 50 % of the 250 mW rated.",
    )
