"""The one glossary of symbols: what each stands for, its keyword, unit and allowed range.

Every derivation takes its symbols from here, so a letter means the same thing on every page, and a keyword
means the same thing in every call.  SI units throughout, except for two that the trade states otherwise:
life in hours and the temperature of a part in degrees Celsius.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import sympy

from .quantities import shown

INF = math.inf

# unit -> the name of its dimension in sympy.physics.units ("" for a plain number); loaded on demand only
DIMENSIONS = {
    "V": "voltage", "A": "current", "Hz": "frequency", "F": "capacitance", "Ω": "impedance", "W": "power",
    "VA": "power", "C": "charge", "J": "energy", "s": "time", "h": "time", "K": "temperature",
    "°C": "temperature", "": "", "rad": "", "rad/s": "frequency", "J/K": "energy/temperature",
}


@dataclass(frozen=True)
class SymbolInfo:
    """One line of the glossary."""

    name: str
    keyword: str
    unit: str
    meaning: str
    low: float = 0.0
    high: float = INF
    low_allowed: bool = False
    high_allowed: bool = True
    whole: bool = False
    default: float | None = None
    latex: str = ""

    @cached_property
    def symbol(self) -> sympy.Symbol:
        """The sympy symbol: positive where the range says so, real otherwise."""
        return sympy.Symbol(self.name, positive=True) if self.low >= 0 else sympy.Symbol(self.name, real=True)

    def of(self, argument: sympy.Expr) -> sympy.Expr:
        """The same quantity as a function, e.g. the mains voltage v(t)."""
        return sympy.Function(self.name, real=True)(argument)

    @property
    def dimension(self):
        """The dimension, as sympy.physics.units has it."""
        from sympy.physics import units  # slow to import, and wanted by dimension checks only

        names = DIMENSIONS[self.unit].split("/")
        parts = [getattr(units, name) if name else units.Dimension(1) for name in names]
        return parts[0] if len(parts) == 1 else parts[0] / parts[1]

    @property
    def allowed(self) -> str:
        """The allowed range in words, e.g. 'above 0 V, up to 1 kV'."""
        parts = ["a whole number"] if self.whole else []
        if math.isfinite(self.low):
            parts.append(f"{'from' if self.low_allowed else 'above'} {shown(self.low, self.unit)}")
        if math.isfinite(self.high):
            parts.append(f"{'up to' if self.high_allowed else 'below'} {shown(self.high, self.unit)}")
        return ", ".join(parts) or "any finite number"


def _table() -> dict[str, SymbolInfo]:
    at0 = {"low_allowed": True}  # zero itself is allowed
    signed = {"low": -INF}
    below1 = {"high": 1.0, "high_allowed": False, "low_allowed": True}
    rows = [
        # frequency and time
        ("f", "frequency", "Hz", "mains frequency", {"high": 1e3}),
        ("omega", "angular_frequency", "rad/s", "angular frequency of the mains", {"high": 7e3, "latex": r"\omega"}),
        ("t", "time", "s", "time", {"high": 1e7, **at0}),
        ("T", "period", "s", "one period of the mains", {}),
        ("theta", "phase", "rad", "phase angle of the mains, zero where its voltage rises through zero",
         {**signed, "latex": r"\theta"}),
        # the parts
        ("R_b", "bleeder", "Ω", "bleeder across the dropper", {"high": 1e9}),
        ("R_i", "inrush_resistor", "Ω", "inrush resistor in the line", {"high": 1e6}),
        ("C", "dropper", "F", "capacitance of the dropper", {"high": 1e-3}),
        ("C_s", "smoothing", "F", "smoothing capacitor", {"high": 1.0}),
        ("X_C", "reactance", "Ω", "reactance of the dropper", {"high": 1e12}),
        ("R_o", "source_resistance", "Ω", "slope of the load line: volts lost for each ampere drawn", {}),
        # voltages of the mains, at the bridge and behind it
        ("V", "voltage", "V", "rms mains voltage", {"high": 1e3}),
        ("V_p", "peak_voltage", "V", "peak of the mains voltage", {"high": 1500.0}),
        ("v", "mains_voltage", "V", "mains voltage at one instant", signed),
        ("D", "clamped_voltage", "V", "voltage at which the bridge's ac side is held while it conducts",
         {"high": 1500.0, **at0}),
        ("d", "clamped_fraction", "", "clamped voltage as a fraction of the mains peak", below1),
        ("V_s", "string_voltage", "V", "voltage of the LED string", {"high": 1500.0, **at0}),
        ("V_bus", "bus_voltage", "V", "voltage across the smoothing capacitor",
         {"high": 3000.0, **at0, "latex": r"V_\mathrm{bus}"}),
        ("V_o", "output_voltage", "V", "output voltage of the half-wave supply", {"high": 1500.0, **at0}),
        ("V_d", "diode_voltage", "V", "forward voltage of one diode", {"high": 5.0, **at0}),
        ("V_R", "diode_reverse_voltage", "V", "reverse voltage across a blocking diode", {}),
        ("V_lost", "lost_voltage", "V", "voltage of the LED groups that are short",
         {"high": 1500.0, **at0, "latex": r"V_\mathrm{lost}"}),
        # voltages at the dropper
        ("u", "dropper_voltage", "V", "voltage across the dropper at one instant", signed),
        ("u_1", "dropper_voltage_before", "V", "dropper voltage after the negative crest", signed),
        ("u_2", "dropper_voltage_after", "V", "dropper voltage at the positive crest", signed),
        ("v_1", "starting_voltage", "V", "mains voltage at which conduction starts", signed),
        ("U_p", "dropper_voltage_peak", "V", "peak voltage across the dropper", {}),
        ("U_rms", "dropper_voltage_rms", "V", "rms voltage across the dropper", {"latex": r"U_\mathrm{rms}"}),
        # currents
        ("i", "line_current", "A", "line current at one instant", signed),
        ("I_p", "crest_current", "A", "peak current into a short circuit", {"high": 100.0}),
        ("I_sc", "short_circuit_current", "A", "rms current into a short circuit", {"latex": r"I_\mathrm{sc}"}),
        ("I_mean", "string_current_mean", "A", "mean current of the LED string",
         {"high": 100.0, **at0, "latex": r"I_\mathrm{mean}"}),
        ("I_new", "string_current_new", "A", "mean current after the change", {"latex": r"I_\mathrm{new}"}),
        ("I_rms", "line_current_rms", "A", "rms line current", {"high": 100.0, "latex": r"I_\mathrm{rms}"}),
        ("I_pk", "line_current_peak", "A", "peak line current in normal use", {"latex": r"I_\mathrm{pk}"}),
        ("I_sin", "in_phase_current", "A", "amplitude of the fundamental current in phase with the mains",
         {"latex": r"I_\mathrm{sin}"}),
        ("I_cos", "leading_current", "A", "amplitude of the fundamental current a quarter period ahead",
         {"latex": r"I_\mathrm{cos}"}),
        ("I_1", "fundamental_current_rms", "A", "rms fundamental of the line current", {}),
        ("Q", "charge", "C", "charge handed on", {}),
        # conduction
        ("theta_1", "conduction_start", "rad", "phase angle at which conduction starts",
         {"low": -math.pi / 2, "high": math.pi / 2, **at0, "latex": r"\theta_1"}),
        ("gamma", "conduction_angle", "rad", "angle of conduction in each half cycle",
         {"high": math.pi, "latex": r"\gamma"}),
        ("k_c", "conduction_fraction", "", "part of the time in which current flows", {"high": 1.0}),
        # power
        ("P", "real_power", "W", "real power", {}),
        ("P_C", "capacitor_power", "W", "mean power of a capacitor", signed),
        ("P_max", "greatest_power", "W", "greatest power the lamp can take", {"latex": r"P_\mathrm{max}"}),
        ("D_best", "best_clamped_voltage", "V", "clamped voltage of greatest power", {"latex": r"D_\mathrm{best}"}),
        ("S", "apparent_power", "VA", "apparent power", {}),
        ("PF", "power_factor", "", "power factor", {"latex": r"\mathrm{PF}"}),
        ("PF_1", "displacement_factor", "", "displacement factor: power factor of the fundamental",
         {"latex": r"\mathrm{PF}_1"}),
        ("k_d", "distortion_factor", "", "distortion factor: fundamental over whole rms current", {}),
        ("THD", "current_thd", "", "total harmonic distortion of the current", {"latex": r"\mathrm{THD}"}),
        ("PF_slope", "power_factor_slope", "", "slope of the power factor with the conduction angle",
         {**signed, "latex": r"\mathrm{PF}'"}),
        # inrush and discharge
        ("V_0", "initial_voltage", "V", "voltage at the start", {"high": 5e3}),
        ("V_lim", "limit_voltage", "V", "voltage limit", {"high": 5e3, "latex": r"V_\mathrm{lim}"}),
        ("V_step", "step_voltage", "V", "voltage step that drives the inrush",
         {"high": 5e3, "latex": r"V_\mathrm{step}"}),
        ("I_0", "inrush_peak", "A", "peak of the inrush current", {}),
        ("I_max", "greatest_current", "A", "greatest inrush current allowed",
         {"high": 1e3, "latex": r"I_\mathrm{max}"}),
        ("W", "inrush_energy", "J", "energy turned to heat in the inrush resistor", {}),
        # ripple
        ("Delta_V", "bus_ripple", "V", "ripple of the bus, peak to peak", {"latex": r"\Delta V"}),
        ("h_2", "charging_harmonic", "", "swing of the rectified current at twice the mains frequency over its mean",
         {}),
        ("h_a", "harmonic_in_step", "", "cosine part of that amplitude", {**signed, "latex": "h_a"}),
        ("h_b", "harmonic_across", "", "sine part of that amplitude", {**signed, "latex": "h_b"}),
        ("m", "current_modulation", "", "amplitude of the string's current ripple over its mean", {}),
        ("r_s", "string_resistance", "Ω", "dynamic resistance of the LED string", {"high": 1e6}),
        # junctions
        ("k_B", "boltzmann_constant", "J/K", "Boltzmann constant", {"high": 1.0, "default": 1.380649e-23}),
        ("T_K", "absolute_temperature", "K", "absolute temperature of the junction",
         {"low": 100.0, "high": 600.0, **at0, "latex": "T"}),
        ("q_e", "elementary_charge", "C", "elementary charge", {"high": 1.0, "default": 1.602176634e-19}),
        ("n", "ideality", "", "ideality factor", {"high": 50.0}),
        ("V_T", "thermal_voltage", "V", "thermal voltage (0.025852 V at 300 K)", {"high": 0.1, "default": 0.025852}),
        ("N", "in_series", "", "LED groups in series", {"low": 1.0, "high": 1000.0, **at0, "whole": True}),
        ("M", "in_parallel", "", "LEDs in parallel in each group", {"low": 1.0, "high": 1000.0, **at0, "whole": True}),
        ("I_s", "saturation_current", "A", "saturation current", {"high": 1.0}),
        ("R_s", "series_resistance", "Ω", "series resistance of one LED", {"high": 1e6, **at0}),
        ("V_f", "forward_voltage", "V", "forward voltage on the data sheet", {"high": 100.0}),
        ("I_f", "at_current", "A", "current at which the data sheet states it", {"high": 100.0}),
        ("v_j", "inner_voltage", "V", "voltage of the junction itself, without its series resistance", signed),
        ("v_F", "junction_voltage", "V", "voltage across one LED", {"latex": "v_F"}),
        ("i_F", "junction_current", "A", "current through one LED", {"high": 100.0, "latex": "i_F"}),
        ("r_F", "dynamic_resistance", "Ω", "dynamic resistance of one LED", {"high": 1e6, "latex": "r_F"}),
        ("Delta_F", "forward_voltage_difference", "V", "how much less the first LED drops at the same current",
         {"low": -2.0, "high": 2.0, **at0, "latex": r"\Delta V_f"}),
        ("i_a", "first_current", "A", "current of the first of two parallel LEDs", {}),
        ("i_b", "second_current", "A", "current of the second of two parallel LEDs", {}),
        ("k_a", "current_share", "", "share of the current that the first of two parallel LEDs takes", {}),
        ("Delta_i", "current_difference", "A", "how much more the first of two parallel LEDs takes",
         {**signed, "latex": r"\Delta i"}),
        # sensitivities
        ("E_C", "elasticity_to_dropper", "", "per cent of current for one per cent of capacitance", signed),
        ("E_f", "elasticity_to_frequency", "", "per cent of current for one per cent of frequency", signed),
        ("E_V", "elasticity_to_peak_voltage", "", "per cent of current for one per cent of mains voltage", signed),
        ("E_D", "elasticity_to_clamped_voltage", "", "per cent of current for one per cent of clamped voltage",
         signed),
        ("x_I", "current_rise", "", "rise of the current as a fraction of what it was", {**signed, "latex": "x_I"}),
        # life
        ("L", "life", "h", "life at the working temperature", {}),
        ("L_0", "rated_life", "h", "life stated by the maker", {"high": 1e7}),
        ("T_w", "temperature", "°C", "temperature at which the part works", {"low": -60.0, "high": 300.0, **at0}),
        ("T_0", "rated_temperature", "°C", "temperature at which the maker states the life",
         {"low": -60.0, "high": 300.0, **at0}),
        ("T_a", "first_temperature", "°C", "temperature for the first share of the time",
         {"low": -60.0, "high": 300.0, **at0}),
        ("T_b", "second_temperature", "°C", "temperature for the rest of the time",
         {"low": -60.0, "high": 300.0, **at0}),
        ("T_eq", "equivalent_temperature", "°C", "steady temperature that wears the part as fast",
         {**signed, "latex": r"T_\mathrm{eq}"}),
        ("s", "first_share", "", "share of the time spent at the first temperature", {"high": 1.0, **at0}),
        ("T_2", "doubling_interval", "K", "cooling that doubles the life (10 K: rule of thumb)",
         {"high": 100.0, "default": 10.0, "latex": r"\Delta T_2"}),
    ]
    return {name: SymbolInfo(name, keyword, unit, meaning, **rest) for name, keyword, unit, meaning, rest in rows}


GLOSSARY = _table()
RANK = {name: place for place, name in enumerate(GLOSSARY)}


def info(symbol) -> SymbolInfo:
    """The glossary's line for a sympy symbol, a function or one of its applications."""
    return GLOSSARY[getattr(symbol, "name", None) or symbol.func.__name__]


def __getattr__(name: str) -> sympy.Symbol:
    """`from dropper.theory.symbols import C, f`: each symbol under its own name."""
    if name in GLOSSARY:
        return GLOSSARY[name].symbol
    raise AttributeError(f"the glossary of symbols has no {name!r}")
