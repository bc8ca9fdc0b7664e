"""The one glossary of symbols: what each stands for, its keyword, unit and allowed range.

Every derivation takes its symbols from here, so a letter means the same thing on every page, and a keyword
means the same thing in every call.  SI units throughout, except for what the trade states otherwise:
life in hours, the temperature of a part in degrees Celsius, energy on a bill in kilowatt-hours, flicker in per cent.
"""

from __future__ import annotations

import math

import sympy

from .entry import INF, SymbolInfo


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
        ("theta", "phase", "rad", "phase angle, zero where the mains rises through zero unless a step says otherwise",
         {"low": -1e3, "high": 1e3, **at0, "latex": r"\theta"}),
        ("alpha", "mean_crossing", "rad", "phase angle at which a rectified sine passes its mean",
         {"high": math.pi / 2, "latex": r"\alpha"}),
        # the parts
        ("R_b", "bleeder", "Ω", "bleeder across the dropper", {"high": 1e9}),
        ("R_i", "inrush_resistor", "Ω", "inrush resistor in the line", {"high": 1e6}),
        ("C", "dropper", "F", "capacitance of the dropper", {"high": 1e-3}),
        ("C_s", "smoothing", "F", "smoothing capacitor", {"high": 1.0}),
        ("R_bs", "smoothing_bleeder", "Ω", "bleeder across the smoothing capacitor",
         {"high": 1e9, "latex": r"R_\mathrm{bs}"}),
        ("R_ser", "series_resistor", "Ω", "resistor between smoothing capacitor and string",
         {"high": 1e6, **at0, "latex": r"R_\mathrm{ser}"}),
        ("R_d", "dropping_resistor", "Ω", "plain resistor in place of the dropper", {"high": 1e9}),
        ("R_L", "load_resistance", "Ω", "resistance of the load in series with the dropper", {"high": 1e9}),
        ("X_C", "reactance", "Ω", "reactance of the dropper", {"high": 1e12}),
        ("R_o", "source_resistance", "Ω", "slope of the load line: volts lost for each ampere drawn", {}),
        ("Z", "impedance", "Ω", "impedance: rms voltage over rms current", {}),
        ("R_p", "loss_resistance", "Ω", "resistance across an ideal capacitor that stands for the losses of a real one",
         {}),
        ("tan_delta", "dissipation_factor", "", "dissipation factor of the dropper, tan δ on its data sheet",
         {"high": 1.0, **at0, "latex": r"\tan\delta"}),
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
        ("V_L", "load_voltage", "V", "rms voltage of the load", {"high": 1e3, **at0}),
        ("v_L", "load_voltage_at", "V", "voltage of the load at one instant", signed),
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
        ("U_rms", "dropper_voltage_rms", "V", "rms voltage across the dropper",
         {"high": 3e3, **at0, "latex": r"U_\mathrm{rms}"}),
        # currents
        ("i", "line_current", "A", "line current at one instant", signed),
        ("I_p", "crest_current", "A", "peak current into a short circuit", {"high": 100.0}),
        ("I_sc", "short_circuit_current", "A", "rms current into a short circuit", {"latex": r"I_\mathrm{sc}"}),
        ("I_mean", "string_current_mean", "A", "mean current of the LED string",
         {"high": 100.0, **at0, "latex": r"I_\mathrm{mean}"}),
        ("i_s", "string_current_at", "A", "string current at one instant", {}),
        ("I_srms", "string_current_rms", "A", "rms current of the LED string",
         {"high": 100.0, **at0, "latex": r"I_\mathrm{s,rms}"}),
        ("I_high", "string_current_max", "A", "greatest current of the LED string",
         {"high": 100.0, "latex": r"I_\mathrm{high}"}),
        ("I_low", "string_current_min", "A", "least current of the LED string",
         {"high": 100.0, **at0, "latex": r"I_\mathrm{low}"}),
        ("I_new", "string_current_new", "A", "mean current after the change", {"latex": r"I_\mathrm{new}"}),
        ("I_rms", "line_current_rms", "A", "rms line current", {"high": 100.0, "latex": r"I_\mathrm{rms}"}),
        ("I_pk", "line_current_peak", "A", "peak line current in normal use", {"latex": r"I_\mathrm{pk}"}),
        ("I_sin", "in_phase_current", "A", "amplitude of the fundamental current in phase with the mains",
         {"latex": r"I_\mathrm{sin}"}),
        ("I_cos", "leading_current", "A", "amplitude of the fundamental current a quarter period ahead",
         {"latex": r"I_\mathrm{cos}"}),
        ("I_1", "fundamental_current_rms", "A", "rms fundamental of the line current", {}),
        ("I_H", "harmonic_current_rms", "A", "rms of all harmonics of the line current together", {}),
        ("k_x", "rule_excess", "", "what mains voltage over reactance gives, over the true mean current of the string",
         {}),
        ("Q", "charge", "C", "charge handed on", {}),
        # conduction
        ("theta_1", "conduction_start", "rad", "phase angle at which conduction starts",
         {"low": -math.pi / 2, "high": math.pi / 2, **at0, "latex": r"\theta_1"}),
        ("gamma", "conduction_angle", "rad", "angle of conduction in each half cycle",
         {"high": math.pi, "latex": r"\gamma"}),
        ("k_c", "conduction_fraction", "", "part of the time in which current flows", {"high": 1.0}),
        # power
        ("P", "real_power", "W", "real power", {"high": 1e6, **at0}),
        ("P_C", "capacitor_power", "W", "mean power of a capacitor", signed),
        ("p_C", "capacitor_power_now", "W", "power of the capacitor at one instant", signed),
        ("p_R", "resistor_power_now", "W", "power of the resistor at one instant", {}),
        ("phi", "phase_lead", "rad", "angle by which the current leads the voltage",
         {"high": math.pi / 2, "latex": r"\varphi"}),
        ("P_max", "greatest_power", "W", "greatest power the lamp can take", {"latex": r"P_\mathrm{max}"}),
        ("D_best", "best_clamped_voltage", "V", "clamped voltage of greatest power", {"latex": r"D_\mathrm{best}"}),
        ("S", "apparent_power", "VA", "apparent power", {}),
        ("S_1", "fundamental_apparent_power", "VA", "apparent power of the fundamental", {}),
        ("Q_1", "reactive_power", "var", "reactive power of the fundamental, its magnitude: the lamp's current leads",
         {"high": 1e6, **at0}),
        ("D_I", "current_distortion_power", "var", "current distortion power: rms voltage times rms harmonics",
         {"high": 1e6, **at0}),
        ("N_P", "nonactive_power", "var", "nonactive power: all of the apparent power that is not real power", {}),
        ("PF", "power_factor", "", "power factor", {"latex": r"\mathrm{PF}"}),
        ("PF_1", "displacement_factor", "", "displacement factor: power factor of the fundamental",
         {"high": 1.0, "latex": r"\mathrm{PF}_1"}),
        ("k_d", "distortion_factor", "", "distortion factor: fundamental over whole rms current", {}),
        ("THD", "current_thd", "", "total harmonic distortion of the current", {"latex": r"\mathrm{THD}"}),
        ("PF_slope", "power_factor_slope", "", "slope of the power factor with the conduction angle",
         {**signed, "latex": r"\mathrm{PF}'"}),
        ("P_m", "metered_power", "W", "real power as a meter sees it", {}),
        ("eps", "phase_error", "rad", "angle by which a meter sees the current too late",
         {"low": -0.5, "high": 0.5, **at0, "latex": r"\varepsilon"}),
        ("x_P", "power_error", "", "error of a power reading as a fraction of the power", {**signed, "latex": "x_P"}),
        # heat and energy
        ("P_R", "resistor_heat", "W", "mean power that a resistor turns to heat", {}),
        ("P_D", "diodes_heat", "W", "mean power that the bridge's diodes turn to heat", {}),
        ("P_LED", "leds_heat", "W", "mean power that the LEDs take, light included", {"latex": r"P_\mathrm{LED}"}),
        ("P_loss", "dropper_loss", "W", "mean power that a real dropper turns to heat",
         {"latex": r"P_\mathrm{loss}"}),
        ("t_a", "hours_a_year", "h", "time in use in a year", {"high": 8784.0, **at0}),
        ("W_h", "energy_in_watt_hours", "Wh", "energy taken in a year, in watt-hours", {}),
        ("W_a", "energy_of_a_year", "kWh", "energy taken in a year", {}),
        ("c_E", "price_of_energy", "/kWh", "price of a kilowatt-hour, in any currency", {"high": 1e6, **at0}),
        ("c_a", "cost_of_a_year", "", "cost of the energy taken in a year, in the currency of the price", {}),
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
        ("m", "current_modulation", "", "amplitude of the string's current ripple over its mean",
         {"high": 2.0, **at0}),
        ("r_s", "string_resistance", "Ω", "dynamic resistance of the LED string", {"high": 1e6}),
        # light
        ("Phi_high", "light_max", "lm", "greatest light", {"latex": r"\Phi_\mathrm{high}"}),
        ("Phi_low", "light_min", "lm", "least light", {"latex": r"\Phi_\mathrm{low}"}),
        ("K_L", "light_per_current", "lm/A", "light for each ampere", {}),
        ("F_p", "percent_flicker", "%", "percent flicker", {}),
        ("F_i", "flicker_index", "", "flicker index", {}),
        ("m_T", "visible_modulation", "", "swing of a sine of light over its mean that is just visible",
         {"high": 100.0, "latex": "m_T"}),
        ("S_v", "stroboscopic_visibility", "", "stroboscopic visibility measure", {"latex": r"\mathrm{SVM}"}),
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
        # ratings of parts
        ("R", "resistance", "Ω", "resistance of the resistor", {"high": 1e9}),
        ("P_r", "rated_power", "W", "power that the resistor is rated for", {"high": 1e4}),
        ("V_P", "power_limited_voltage", "V", "voltage at which the resistor takes its rated power", {}),
        ("V_le", "limiting_voltage", "V", "limiting element voltage of the resistor's kind",
         {"high": 1e5, "latex": r"V_\mathrm{le}"}),
        ("V_w", "working_voltage", "V", "greatest voltage the resistor may work at", {}),
        ("T_f", "full_power_temperature", "°C", "temperature up to which the whole rated power is allowed",
         {"low": -60.0, "high": 300.0, **at0}),
        ("T_z", "no_power_temperature", "°C", "temperature from which no power is allowed",
         {"low": -60.0, "high": 500.0, **at0}),
        ("k_line", "derating_line", "", "share of the rated power on the derating line",
         {**signed, "latex": r"k_\mathrm{line}"}),
        ("k_T", "derated_share", "", "share of the rated power that is allowed", {}),
        ("I_su", "surge_current", "A", "peak of a half-sine surge", {"high": 1e5, "latex": r"I_\mathrm{su}"}),
        ("t_su", "surge_time", "s", "how long the half sine lasts", {"high": 10.0, "latex": r"t_\mathrm{su}"}),
        ("I_2t", "surge_fusing_integral", "A²s", "integral of the squared current over the surge",
         {"latex": "I^2t"}),
        ("tau", "time_constant", "s", "bleeder times capacitance", {"latex": r"\tau"}),
        # temperatures of parts
        ("P_h", "heat_flow", "W", "heat of the part", {"high": 1e4, **at0}),
        ("R_th", "thermal_resistance", "K/W", "thermal resistance from the part to what is around it",
         {"high": 1e5, **at0, "latex": r"R_\mathrm{th}"}),
        ("Delta_T", "temperature_rise", "K", "how much warmer than its surroundings", {"latex": r"\Delta T"}),
        ("T_room", "room_temperature", "°C", "temperature of the room",
         {"low": -60.0, "high": 300.0, **at0, "latex": r"T_\mathrm{room}"}),
        ("P_all", "enclosure_heat", "W", "heat of all parts in the enclosure", {"high": 1e4, **at0,
         "latex": r"P_\mathrm{all}"}),
        ("R_enc", "enclosure_resistance", "K/W", "thermal resistance from the air inside the lamp to the room",
         {"high": 1e5, **at0, "latex": r"R_\mathrm{enc}"}),
        ("T_enc", "enclosure_temperature", "°C", "temperature of the air inside the lamp",
         {**signed, "latex": r"T_\mathrm{enc}"}),
        ("N_j", "junctions", "", "junctions in series in one LED package",
         {"low": 1.0, "high": 100.0, **at0, "whole": True}),
        ("k_V", "voltage_coefficient", "V/K", "change of one junction's forward voltage with temperature",
         {"low": -0.1, "high": 0.1, **at0}),
        ("T_j", "junction_temperature", "°C", "temperature of the LED's junction",
         {"low": -60.0, "high": 500.0, **at0}),
        ("T_r", "reference_temperature", "°C", "temperature at which the data sheet states the forward voltage",
         {"low": -60.0, "high": 300.0, **at0}),
        ("V_warm", "warm_forward_voltage", "V", "forward voltage at the junction's temperature",
         {"latex": r"V_\mathrm{warm}"}),
        # loss of capacitance
        ("y_C", "years", "", "number of years", {"high": 1e3, **at0}),
        ("a_C", "loss_each_year", "", "part of the capacitance that each year takes", below1),
        ("k_C", "kept_fraction", "", "part of the capacitance that was kept", {"high": 1.0}),
        ("C_y", "remaining_capacitance", "F", "capacitance left after the years", {}),
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
