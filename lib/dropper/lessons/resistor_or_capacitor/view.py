"""Two-ways view: one load behind a resistor or a capacitor, the voltage across each, and the heat in each."""

from dataclasses import dataclass

import numpy as np

from ... import theory
from ...circuit.fields import about, check, documented, quantity
from ...results.reading import Reading

_ANGLES = np.radians(np.arange(0.0, 361.0, 2.0))


@documented
@dataclass(frozen=True)
class TwoWays:
    """A load that keeps a voltage and takes a current, as a plain resistance would."""

    voltage: float = quantity("V", 50, 1000, 230.0, meaning="rms mains voltage")
    frequency: float = quantity("Hz", 10, 1000, 50.0, meaning="mains frequency")
    load_voltage: float = quantity("V", 1, 990, 60.0, meaning="rms voltage that the load keeps")
    current: float = quantity("A", 1e-4, 10, 0.020, meaning="rms current of the load")
    dissipation_factor: float = quantity("", 0, 0.1, 0.001, zero=True, meaning="dissipation factor of the capacitor")
    phase: float = quantity("°", 0, 360, 60.0, meaning="the moment, from the current's rise through zero")

    def __post_init__(self):
        check(self)
        if self.load_voltage >= self.voltage:
            raise ValueError(
                f"TwoWays.load_voltage: {self.load_voltage:g} V is not less than the mains' {self.voltage:g} V;"
                " nothing would be left to drop"
            )


@documented
@dataclass(frozen=True, eq=False)
class View:
    """What is seen: both dropping parts, their curves over one period, and the readings.

    Curves start where the current rises through zero; `angle` is in degrees.
    """

    setting: TwoWays
    angle: np.ndarray
    current: np.ndarray = about("current of the load over the period", "A")
    voltages: tuple = about("across the resistor, across the capacitor", "V")
    powers: tuple = about("in the resistor, in the capacitor", "W")
    resistor: float
    dropper: float
    dropper_voltage: float = about("voltage across the capacitor, rms", "V")
    phase_lead: float = about("angle by which the current leads the mains behind the capacitor", "rad")
    heat: tuple = about("heat of the resistor, of the capacitor", "W")
    now: tuple = about("power in the resistor, in the capacitor at the moment", "W")
    readings: tuple


def view_of(setting: TwoWays) -> View:
    """What a setting shows."""
    shared = {"voltage": setting.voltage, "load_voltage": setting.load_voltage}
    load_values = shared | {"line_current_rms": setting.current}
    resistor = theory.resistor_for_load(**load_values)
    dropper = theory.dropper_for_load(frequency=setting.frequency, **load_values)
    across = theory.voltage_beside_load(**shared)
    reactance = theory.dropper_reactance(frequency=setting.frequency, dropper=dropper)
    one = {"load_resistance": resistor, "line_current_rms": setting.current}
    other = {"reactance": reactance, "line_current_rms": setting.current}
    loss = {
        "frequency": setting.frequency,
        "dropper": dropper,
        "dropper_voltage_rms": across,
        "dissipation_factor": setting.dissipation_factor,
    }
    load = {"load_resistance": setting.load_voltage / setting.current, "reactance": reactance}
    heat = theory.resistor_heat_beside_load(**load_values), theory.dropper_loss(**loss)
    moment = np.radians(setting.phase)
    now = theory.resistor_power_at(phase=moment, **one), theory.capacitor_power_at(phase=moment, **other)
    # At its turns the sine misses zero by its last digit.
    now = tuple(0.0 if abs(watts) < 1e-12 * setting.voltage * setting.current else watts for watts in now)
    peak = np.sqrt(2) * setting.current
    peak_voltage = theory.peak_voltage(voltage=across)
    idle = {"frequency": setting.frequency, "dropper": dropper, "peak_voltage": peak_voltage}
    readings = (
        Reading("resistor", "resistor wanted", resistor, "Ω", "resistor_for_load", load_values, True),
        Reading("resistor_heat", "heat of the resistor", heat[0], "W", "resistor_heat_beside_load", load_values, True),
        Reading(
            "dropper",
            "capacitor wanted",
            dropper,
            "F",
            "dropper_for_load",
            load_values | {"frequency": setting.frequency},
            True,
        ),
        Reading(
            "reactance",
            "its reactance",
            reactance,
            "Ω",
            "dropper_reactance",
            {"frequency": setting.frequency, "dropper": dropper},
            True,
        ),
        Reading("dropper_voltage", "volts across it", across, "V", "voltage_beside_load", shared, True),
        Reading(
            "phase_lead",
            "the current leads by",
            float(np.degrees(theory.phase_lead(**load))),
            "°",
            "phase_lead",
            load,
            True,
            float(np.degrees(1)),
        ),
        Reading(
            "mean_power",
            "mean power, if ideal",
            theory.mean_capacitor_power(**idle),
            "W",
            "mean_capacitor_power",
            idle,
            True,
        ),
        Reading("capacitor_heat", "heat of the capacitor", heat[1], "W", "dropper_loss", loss, True),
        Reading("power_now", "power in it now", now[1], "W", "capacitor_power_at", other | {"phase": moment}, True),
    )
    return View(
        setting=setting,
        angle=np.degrees(_ANGLES),
        current=peak * np.sin(_ANGLES),
        voltages=(peak * resistor * np.sin(_ANGLES), -peak * reactance * np.cos(_ANGLES)),
        powers=(theory.resistor_power_at(phase=_ANGLES, **one), theory.capacitor_power_at(phase=_ANGLES, **other)),
        resistor=resistor,
        dropper=dropper,
        dropper_voltage=across,
        phase_lead=theory.phase_lead(**load),
        heat=heat,
        now=now,
        readings=readings,
    )
