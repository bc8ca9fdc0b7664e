"""First-power view: a filament lamp in series, what the lamp lets through, and whether a glow tells of a fault."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ...bench.checklist import GLOWS, FilamentLamp, FirstPower, currents_behind, first_power
from ...bench.checklist.series_lamp import ROOM
from ...circuit.fields import about, check_part, documented
from ...circuit.lamp import Lamp
from ...results.light import Light, glow_of
from ...results.reading import Reading
from ...solver.transient import Fault, faults_of, with_fault

SEEN_FROM = GLOWS[0][0]  # K
_KELVINS = (ROOM, 450.0, 800.0, 1200.0, 1700.0, 2200.0, 2800.0)


@documented
@dataclass(frozen=True)
class LampInSeries:
    """A lamp behind a filament lamp, and one of its faults, None for the whole lamp."""

    lamp: Lamp
    filament: FilamentLamp
    fault: Fault | None = None

    def __post_init__(self):
        check_part(self, "lamp", Lamp)
        check_part(self, "filament", FilamentLamp)
        if self.fault is not None:
            with_fault(self.lamp, self.fault)  # says why where it does not apply

    @classmethod
    def of(cls, lamp: Lamp) -> LampInSeries:
        """The lamp behind a filament lamp that suits it."""
        return cls(lamp, FilamentLamp.for_lamp(lamp))


@documented
@dataclass(frozen=True, eq=False)
class View:
    """What meets where: the current let through and the current that keeps the filament warm."""

    setting: LampInSeries
    whole: FirstPower
    now: FirstPower
    kelvins: np.ndarray
    filament_current: np.ndarray = about("current that keeps the filament at each of `kelvins`", "A")
    temperatures: np.ndarray = about("filament temperatures at which the lamp's own current is computed", "K")
    lamp_current: np.ndarray = about("current that the lamp lets through a filament of these temperatures", "A")
    readings: tuple

    @property
    def glow(self) -> Light:
        """What is seen of the filament."""
        return glow_of(self.now.glow, 1 / self.setting.lamp.mains.frequency, self.now.sentence)


def choices(lamp: Lamp) -> tuple:
    """The faults that can happen to a lamp, as (words, fault) with the whole lamp first."""
    return (("none: the whole lamp", None), *((fault.words(lamp), fault) for fault in faults_of(lamp)))


def with_short(setting: LampInSeries) -> LampInSeries:
    """The setting with its lamp's output short: what the panel's question is about."""
    short = Fault("short", "smoothing") if setting.lamp.smoothing else Fault("short", "D1 and D3")
    return replace(setting, fault=short)


def view_of(setting: LampInSeries) -> View:
    """What a setting shows."""
    filament, lamp = setting.filament, setting.lamp
    subject = lamp if setting.fault is None else with_fault(lamp, setting.fault)
    whole, now = first_power(lamp, filament), first_power(subject, filament)
    kelvins = np.linspace(ROOM + 1e-3, _KELVINS[-1], 120)
    temperatures = np.array(_KELVINS)
    lamp_current = currents_behind(subject, filament, _KELVINS)
    return View(
        setting, whole, now, kelvins, filament.current(kelvins), temperatures, lamp_current, _readings(setting, now)
    )


def _readings(setting, now):
    filament, kelvins = setting.filament, max(now.temperature, ROOM + 1e-3)
    values = filament.values(kelvins)
    ohms = {
        key: values[key] for key in ("filament_voltage", "filament_rating", "hot_temperature", "filament_temperature")
    }
    given_off = {key: value for key, value in values.items() if key != "filament_voltage"}
    cold = ohms | {"filament_temperature": ROOM}
    note = "Where what the lamp lets through meets what keeps the filament so warm; sought by the solver."
    return (
        Reading(
            "current",
            "line current behind the filament, rms",
            now.state.line_current_rms,
            "A",
            "filament_current",
            values,
            from_readings=True,
        ),
        Reading(
            "resistance", "resistance of the filament", now.resistance, "Ω", "filament_resistance", ohms, exact=True
        ),
        Reading("power", "power in the filament", now.power, "W", "filament_loss", given_off, from_readings=True),
        Reading(
            "cold",
            "resistance of the filament, cold",
            filament.resistance(ROOM),
            "Ω",
            "filament_resistance",
            cold,
            exact=True,
        ),
        Reading(
            "hot",
            "resistance of the filament at its rating",
            filament.resistance(filament.hot_temperature),
            "Ω",
            "filament_hot_resistance",
            {key: ohms[key] for key in ("filament_voltage", "filament_rating")},
            exact=True,
        ),
        Reading("temperature", "temperature of the filament", now.temperature, "K", "", note=note),
        Reading(
            "string",
            "string current behind the filament, mean",
            now.state.string_current_mean,
            "A",
            "",
            note="By the solver, with the filament's ohms in the line.",
        ),
    )
