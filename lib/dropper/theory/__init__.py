"""Theory: each derivation can be read, checked and run.

    from dropper import theory

    theory.mean_string_current                      # shows its steps in a notebook
    theory.mean_string_current(frequency=50, dropper=330e-9, peak_voltage=325.3, clamped_voltage=70)
    theory.mean_string_current.working(frequency=50, dropper=330e-9, peak_voltage=325.3, clamped_voltage=70)
    theory.ALL                                      # every derivation by name
    theory.derivations_of("string_current_mean")        # the names of those that give this quantity

Nothing is built, and sympy is not imported, before a derivation is asked for.
"""

from collections.abc import Iterator, Mapping
from importlib import import_module

# derivation -> (module, keyword of what it gives); each module has a function derive_<name>
_REGISTRY = {
    "peak_voltage": ("reactance", "peak_voltage"),
    "crest_current": ("reactance", "crest_current"),
    "dropper_reactance": ("reactance", "reactance"),
    "dropper_behind_line": ("reactance", "dropper_behind_line"),
    "short_circuit_current": ("reactance", "short_circuit_current"),
    "mean_capacitor_power": ("reactance", "capacitor_power"),
    "clamped_voltage": ("charge", "clamped_voltage"),
    "charge_per_half_cycle": ("charge", "charge"),
    "mean_string_current": ("charge", "string_current_mean"),
    "dropper_for_current": ("charge", "dropper"),
    "load_line": ("charge", "clamped_voltage"),
    "source_resistance": ("charge", "source_resistance"),
    "mean_string_current_from_crest": ("charge", "string_current_mean"),
    "half_wave_current": ("half_wave", "string_current_mean"),
    "dropper_for_half_wave": ("half_wave", "dropper"),
    "clamped_share": ("rules", "clamped_fraction"),
    "reactance_rule_excess": ("rules", "rule_excess"),
    "half_wave_break_even": ("rules", "clamped_voltage"),
    "series_impedance": ("series", "impedance"),
    "series_current": ("series", "line_current_rms"),
    "phase_lead": ("series", "phase_lead"),
    "series_power_factor": ("series", "power_factor"),
    "series_power": ("series", "real_power"),
    "capacitor_power_at": ("instant_power", "capacitor_power_now"),
    "resistor_power_at": ("instant_power", "resistor_power_now"),
    "voltage_beside_load": ("load_in_series", "dropper_voltage_rms"),
    "dropper_for_load": ("load_in_series", "dropper"),
    "resistor_for_load": ("load_in_series", "dropping_resistor"),
    "resistor_heat_beside_load": ("load_in_series", "resistor_heat"),
    "conduction_start": ("conduction", "conduction_start"),
    "conduction_angle": ("conduction", "conduction_angle"),
    "conduction_fraction": ("conduction", "conduction_fraction"),
    "mean_string_current_from_angle": ("conduction", "string_current_mean"),
    "line_current_rms_from_angle": ("conduction", "line_current_rms"),
    "line_current_rms": ("conduction", "line_current_rms"),
    "line_current_peak": ("conduction", "line_current_peak"),
    "mains_voltage_at": ("instant", "mains_voltage"),
    "line_current_at": ("instant", "line_current"),
    "charge_so_far": ("instant", "charge"),
    "real_power": ("power", "real_power"),
    "real_power_from_angle": ("power", "real_power"),
    "best_clamped_voltage": ("power", "best_clamped_voltage"),
    "greatest_power": ("power", "greatest_power"),
    "conduction_angle_from_fraction": ("factors", "conduction_angle"),
    "apparent_power": ("factors", "apparent_power"),
    "power_factor_from_angle": ("factors", "power_factor"),
    "power_factor": ("factors", "power_factor"),
    "displacement_factor": ("distortion", "displacement_factor"),
    "distortion_factor": ("distortion", "distortion_factor"),
    "current_thd": ("distortion", "current_thd"),
    "power_factor_slope": ("factors", "power_factor_slope"),
    "fundamental_reactive_power": ("nonactive", "reactive_power"),
    "fundamental_apparent_power": ("nonactive", "fundamental_apparent_power"),
    "current_distortion_power": ("nonactive", "current_distortion_power"),
    "nonactive_power": ("nonactive", "nonactive_power"),
    "apparent_power_from_parts": ("nonactive", "apparent_power"),
    "power_error_of_phase": ("metering", "power_error"),
    "cut_voltage": ("odd_mains", "cut_voltage"),
    "top_voltage": ("odd_mains", "top_voltage"),
    "edge_heat": ("odd_mains", "edge_heat"),
    "form_factor_of_sine": ("metering", "form_factor"),
    "averaging_reading": ("metering", "averaging_reading"),
    "averaging_meter_current": ("metering", "averaging_meter_current"),
    "loaded_voltage": ("metering", "metered_voltage"),
    "bleeder_with_meter": ("metering", "bleeder_with_meter"),
    "energy_of_a_year": ("energy", "energy_of_a_year"),
    "cost_of_a_year": ("energy", "cost_of_a_year"),
    "dropper_voltage_peak": ("ratings", "dropper_voltage_peak"),
    "dropper_voltage_rms": ("ratings", "dropper_voltage_rms"),
    "bus_voltage_open": ("ratings", "bus_voltage"),
    "diode_reverse_voltage": ("ratings", "diode_reverse_voltage"),
    "diode_reverse_voltage_open": ("ratings", "diode_reverse_voltage"),
    "diode_reverse_voltage_beside_open": ("ratings", "diode_reverse_voltage"),
    "resistor_fed_current": ("resistive", "string_current_mean"),
    "dropping_resistor_for_current": ("resistive", "dropping_resistor"),
    "dropping_resistor_heat": ("resistive", "resistor_heat"),
    "inrush_resistor_heat": ("losses", "resistor_heat"),
    "series_resistor_heat": ("losses", "resistor_heat"),
    "bleeder_heat": ("losses", "resistor_heat"),
    "smoothing_bleeder_heat": ("losses", "resistor_heat"),
    "diodes_heat": ("losses", "diodes_heat"),
    "leds_heat": ("losses", "leds_heat"),
    "dropper_loss": ("losses", "dropper_loss"),
    "inrush_current": ("inrush", "line_current"),
    "inrush_peak": ("inrush", "inrush_peak"),
    "surge_resistor": ("inrush", "inrush_resistor"),
    "inrush_energy": ("inrush", "inrush_energy"),
    "replug_step": ("inrush", "step_voltage"),
    "ringing_limit": ("ringing", "ringing_limit"),
    "ringing_inrush_peak": ("ringing", "inrush_peak"),
    "damped_inrush_peak": ("ringing", "inrush_peak"),
    "dropper_overshoot": ("ringing", "dropper_overshoot"),
    "residual_voltage": ("discharge", "dropper_voltage"),
    "discharge_time": ("discharge", "time"),
    "largest_bleeder": ("discharge", "bleeder"),
    "pins_voltage": ("discharge", "metered_voltage"),
    "ripple_bound": ("ripple", "bus_ripple"),
    "charging_harmonic": ("ripple", "charging_harmonic"),
    "current_modulation": ("ripple", "current_modulation"),
    "string_current_max_of_swing": ("light", "string_current_max"),
    "string_current_min_of_swing": ("light", "string_current_min"),
    "percent_flicker": ("flicker", "percent_flicker"),
    "percent_flicker_of_swing": ("flicker", "percent_flicker"),
    "flicker_index_of_swing": ("flicker", "flicker_index"),
    "flicker_index_of_rectified_sine": ("flicker", "flicker_index"),
    "stroboscopic_visibility_of_swing": ("flicker", "stroboscopic_visibility"),
    "smoothing_for_modulation": ("light", "smoothing"),
    "bus_ripple_of_swing": ("light", "bus_ripple"),
    "thermal_voltage_at": ("junction", "thermal_voltage"),
    "saturation_current": ("junction", "saturation_current"),
    "junction_voltage": ("junction", "junction_voltage"),
    "dynamic_resistance": ("junction", "dynamic_resistance"),
    "string_voltage": ("junction", "string_voltage"),
    "string_resistance": ("junction", "string_resistance"),
    "series_resistance_of_points": ("two_points", "series_resistance"),
    "ideality_of_points": ("two_points", "ideality"),
    "current_share": ("parallel_junctions", "current_share"),
    "current_difference": ("parallel_junctions", "current_difference"),
    "shared_current": ("branches", "junction_current"),
    "branch_resistance": ("branches", "branch_resistance"),
    "branch_resistor_for_imbalance": ("branches", "branch_resistor"),
    "share_deviation": ("branches", "share_deviation"),
    "mixed_clamped_voltage": ("strings", "clamped_voltage"),
    "in_series_for_current": ("strings", "in_series_for_current"),
    "in_series_of_greatest_power": ("strings", "best_in_series"),
    "power_of_more_leds": ("strings", "times_power"),
    "elasticity_to_dropper": ("sensitivity", "elasticity_to_dropper"),
    "elasticity_to_frequency": ("sensitivity", "elasticity_to_frequency"),
    "elasticity_to_peak_voltage": ("sensitivity", "elasticity_to_peak_voltage"),
    "elasticity_to_clamped_voltage": ("sensitivity", "elasticity_to_clamped_voltage"),
    "current_rise_on_short": ("sensitivity", "current_rise"),
    "worst_case_spread": ("tolerance", "worst_case_spread"),
    "root_sum_square_spread": ("tolerance", "root_sum_square_spread"),
    "greatest_current_rise": ("tolerance", "greatest_current_rise"),
    "greatest_current_fall": ("tolerance", "greatest_current_fall"),
    "flat_deviation": ("tolerance", "standard_deviation"),
    "triangle_deviation": ("tolerance", "standard_deviation"),
    "electrolytic_life": ("life", "life"),
    "equivalent_temperature": ("life", "equivalent_temperature"),
    "resistor_working_voltage": ("limits", "working_voltage"),
    "derated_share": ("limits", "derated_share"),
    "surge_fusing_integral": ("limits", "surge_fusing_integral"),
    "stored_charge": ("limits", "charge"),
    "largest_time_constant": ("limits", "time_constant"),
    "temperature_rise": ("warmth", "temperature_rise"),
    "enclosure_temperature": ("warmth", "enclosure_temperature"),
    "enclosure_resistance": ("warmth", "enclosure_resistance"),
    "part_temperature": ("warmth", "temperature"),
    "thermal_resistance_of_derating": ("warmth", "thermal_resistance"),
    "warm_forward_voltage": ("warmth", "warm_forward_voltage"),
    "filament_hot_resistance": ("filament", "hot_resistance"),
    "filament_resistance": ("filament", "filament_resistance"),
    "filament_loss": ("filament", "filament_loss"),
    "filament_current": ("filament", "filament_current"),
    "remaining_capacitance": ("ageing", "remaining_capacitance"),
    "loss_each_year": ("ageing", "loss_each_year"),
    "body_current": ("person", "body_current"),
    "body_current_behind_dropper": ("person", "body_current"),
    "times_turned": ("person", "times_turned"),
}
# functions that are no derivations
_PLAIN_FUNCTIONS = {"greatest_power_factor": "factors", "mixed_temperature": "life", "rush_law": "ringing"}


class _Derivations(Mapping):
    """Every derivation by name; each is built when it is first looked up."""

    def __getitem__(self, name: str):
        module, _ = _REGISTRY[name]
        return getattr(import_module(f"{__name__}.{module}"), f"derive_{name}")()

    def __iter__(self) -> Iterator[str]:
        return iter(_REGISTRY)

    def __len__(self) -> int:
        return len(_REGISTRY)

    def __repr__(self) -> str:
        return f"<derivations: {', '.join(self)}>"


ALL = _Derivations()


def derivations_of(keyword: str) -> tuple[str, ...]:
    """The names of the derivations that give a quantity, e.g. 'string_current_mean'; none if there is none."""
    return tuple(name for name, (_, output) in _REGISTRY.items() if output == keyword)


def __getattr__(name: str):
    if name in _REGISTRY:
        return ALL[name]
    if name in _PLAIN_FUNCTIONS:
        return getattr(import_module(f"{__name__}.{_PLAIN_FUNCTIONS[name]}"), name)
    raise AttributeError(f"dropper.theory has no derivation or function {name!r}")


def __dir__() -> list[str]:
    return sorted([*_REGISTRY, *_PLAIN_FUNCTIONS, "ALL", "derivations_of"])
