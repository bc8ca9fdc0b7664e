"""Ageing view: how warm the parts of a lamp get, and what years do to its dropper and its smoothing capacitor."""

from dataclasses import dataclass, replace

import numpy as np

from ... import theory
from ...circuit.fields import about, check, check_part, documented, quantity
from ...circuit.lamp import Lamp, replace_at
from ...circuit.values import show, show_reading
from ...components import kinds
from ...results.excess import marked
from ...results.explain import clamped_voltage
from ...results.light import Light, light_of
from ...results.reading import Reading
from ...solver import heat
from ...solver.heat.years import LifeSpan
from ...solver.steady import SteadyState, steady_state
from ...solver.transient import Fault, with_fault

LEFT = 2 / 3  # of the capacitance, of the questions
_SAME_FACTOR = 0.06  # share up to which a meter of 0.01 shows about the same power factor
_DAYS_A_YEAR = 365.25
_COEFFICIENT = -3e-3  # V/K, of one LED junction: typical practice, no source
_GRADE = kinds.LIVES[3]
_REFERENCE = 25.0  # °C, at which data sheets state the forward voltage
_YEARS = np.linspace(0.0, 20.0, 21)
_WARM = np.linspace(20, 120, 26)  # °C


@documented
@dataclass(frozen=True)
class Ageing:
    """A lamp in its surroundings, and how long it is used."""

    lamp: Lamp
    room: float = quantity("°C", -20, 60, 25.0, meaning="temperature of the room")
    enclosure: float = quantity("K/W", 0, 60, 15.0, zero=True, meaning="from the air inside to the room")
    hours: float = quantity("h", 1, 24, 8.0, meaning="hours in use a day")
    loss: float = quantity("%", 0, 30, 5.0, zero=True, meaning="per cent of the dropper's capacitance lost each year")
    years: float = quantity("", 0, 20, 5.0, zero=True, meaning="years in use")

    def __post_init__(self):
        check(self)
        check_part(self, "lamp", Lamp)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """Temperatures by part, the current over the years, and the life of the smoothing capacitor."""

    setting: Ageing
    warm_lamp: heat.WarmLamp
    film_years: heat.FilmYears
    current: float = about("mean string current after the years asked for", "A")
    aged: SteadyState = about("the warm lamp's cycle with what is left of its dropper")
    life: heat.LifeSpan
    grade: kinds.Life
    life_curve: tuple = about("temperatures in °C and the hours that it lives at each, two arrays")
    readings: tuple

    @property
    def glow(self) -> Light:
        """The light through a period."""
        return light_of(self.setting.lamp, self.aged)


def view_of(setting: Ageing) -> View:
    """What a setting shows.

    Raises
    ------
    ValueError
        If a part would be hotter than the formulas hold for, or no steady temperature is found.
    """
    lamp = setting.lamp
    around = heat.Surroundings.typical("open", room_temperature=setting.room, enclosure_resistance=setting.enclosure)
    warm_lamp = heat.warm_up(lamp, around, _COEFFICIENT, reference_temperature=_REFERENCE, points=512)
    scenario = heat.Scenario(f"{setting.loss:.3g} % a year", setting.loss / 100, "scenario, no source")
    film_years = heat.film_years(warm_lamp.lamp, _YEARS, scenario)
    current = float(np.interp(setting.years, film_years.years, film_years.string_current))
    left = theory.remaining_capacitance(dropper=lamp.dropper, loss_each_year=setting.loss / 100, years=setting.years)
    aged = steady_state(replace_at(warm_lamp.lamp, "dropper", left))
    life = heat.smoothing_life(_GRADE, warm_lamp.temperatures.air)
    life_curve = theory.electrolytic_life(
        rated_life=_GRADE.hours, rated_temperature=_GRADE.temperature, temperature=_WARM
    )
    return View(
        setting=setting,
        warm_lamp=warm_lamp,
        film_years=film_years,
        current=current,
        aged=aged,
        life=life,
        grade=_GRADE,
        life_curve=(_WARM, life_curve),
        readings=marked(_readings(setting, around, warm_lamp, aged, current, life), lamp),
    )


def _readings(setting, around, warm_lamp, aged, current, life):
    temperatures, lamp = warm_lamp.temperatures, setting.lamp
    shared = {
        "room_temperature": setting.room,
        "enclosure_resistance": setting.enclosure,
        "enclosure_heat": sum(temperatures.heat.values()),
    }
    led_values = shared | {
        "heat_flow": temperatures.heat["leds"] / temperatures.pieces["leds"],
        "thermal_resistance": around.to_air["leds"],
    }
    volts = {
        "forward_voltage": lamp.string.led.forward_voltage,
        "voltage_coefficient": _COEFFICIENT,
        "junctions": 1,
        "junction_temperature": temperatures.parts["leds"],
        "reference_temperature": _REFERENCE,
    }
    loss = {"dropper": lamp.dropper, "loss_each_year": setting.loss / 100, "years": setting.years}
    left = theory.remaining_capacitance(**loss)
    warm_clamped = clamped_voltage(warm_lamp.lamp, warm_lamp.result)
    drop = 2 * lamp.diode.voltage_at(max(current, 1e-6))
    clamped = min(warm_lamp.result.bus_voltage_mean + drop, lamp.mains.peak * (1 - 1e-9))
    source = {
        "frequency": lamp.mains.frequency,
        "dropper": left,
        "peak_voltage": lamp.mains.peak,
        "clamped_voltage": clamped,
    }
    life_values = {"rated_life": _GRADE.hours, "rated_temperature": _GRADE.temperature, "temperature": temperatures.air}
    rows = [
        Reading("air", "air inside the lamp", temperatures.air, "°C", "enclosure_temperature", shared, True),
        Reading("leds", "LEDs", temperatures.parts["leds"], "°C", "part_temperature", led_values, True),
        Reading(
            "forward",
            "forward voltage of an LED, warm",
            warm_lamp.lamp.string.led.forward_voltage,
            "V",
            "warm_forward_voltage",
            volts,
            True,
        ),
    ]
    rows += [
        _inrush_resistor(temperatures, shared, around),
        Reading("left", "dropper after the years", left, "F", "remaining_capacitance", loss, True),
        Reading("current", "string current then, mean", current, "A", "mean_string_current", source),
        Reading("life", f"life of C2 ({_GRADE.name})", life.hours, "h", "electrolytic_life", life_values, True),
        Reading(
            "life_years",
            "the same in years of this use",
            years_of_use(setting, life),
            "years",
            "",
            note="The hours over those in use in a year. Beyond some 15 years nobody trusts the rule.",
        ),
        Reading(
            "power_factor",
            "power factor, new and warm",
            warm_lamp.result.power_factor,
            "",
            "power_factor",
            {"clamped_fraction": min(warm_clamped / lamp.mains.peak, 1 - 1e-9)},
        ),
        Reading("line_then", "line current then, rms", aged.line_current_rms, "A", "line_current_rms", source),
        Reading(
            "power_factor_then",
            "power factor then",
            aged.power_factor,
            "",
            "power_factor",
            {"clamped_fraction": min(clamped_voltage(lamp, aged) / lamp.mains.peak, 1 - 1e-9)},
        ),
    ]
    return tuple(rows)


def _inrush_resistor(temperatures, shared, around):
    key, name = "inrush_resistor", "inrush resistor"
    if key not in temperatures.parts:
        return Reading(key, name, float("nan"), "°C", "", note="None is fitted.")
    values = shared | {"heat_flow": temperatures.heat[key], "thermal_resistance": around.to_air[key]}
    return Reading(key, name, temperatures.parts[key], "°C", "part_temperature", values, True)


def years_of_use(setting: Ageing, life: LifeSpan) -> float:
    """The life of the smoothing capacitor in years at the hours a day asked for."""
    return life.years(_DAYS_A_YEAR * setting.hours)


def looks_verdict(setting: Ageing) -> tuple[str, str]:
    """Whether a dropper may lose a third of its capacitance unseen: an answer's key, and a sentence."""
    warm_lamp = view_of(replace(setting, loss=0.0)).warm_lamp
    before, after = (string_current_with(warm_lamp.lamp, share) for share in (1.0, LEFT))
    return "yes" if after < 0.95 * before else "little", (
        f"It can: its metal is burnt away in specks, or eaten by damp, and the insulation stays perfect. With"
        f" two thirds of its farads the string gets {show_reading(after, 'A')} instead of {show_reading(before, 'A')}."
        " A capacitance meter proves it."
    )


def meter_verdict(lamp: Lamp) -> tuple[str, str]:
    """What a plug-in meter's power factor does as the dropper fades: "falls", "same" or "rises", and a sentence."""
    warm = view_of(Ageing(lamp, loss=0.0)).warm_lamp.lamp
    new, old = (steady_state(replace_at(warm, "dropper", share * warm.dropper)) for share in (1.0, LEFT))
    change = old.power_factor / new.power_factor - 1
    right = "same" if abs(change) < _SAME_FACTOR else "rises" if change > 0 else "falls"
    amperes, watts, factors = (
        " to ".join(texts)
        for texts in (
            [show(one.line_current_rms, "A", 2) for one in (new, old)],
            [show(one.real_power, "W", 2) for one in (new, old)],
            [f"{one.power_factor:.2f}" for one in (new, old)],
        )
    )
    broken = steady_state(with_fault(warm, Fault("short", "D1")))
    return right, (
        f"From {amperes} and from {watts}; the power factor from {factors}. Current and watts fall together: the string"
        f" is as it was, and less passes the dropper. With one diode short it would be {broken.power_factor:.2f}."
    )


def string_current_with(lamp: Lamp, share: float) -> float:
    """Mean string current of a lamp whose dropper has kept a share of its capacitance, A.

    Parameters
    ----------
    share
        Above 0, up to 1.
    """
    return steady_state(replace_at(lamp, "dropper", share * lamp.dropper)).string_current_mean
