"""Quantities of a period of voltage and current: one way for the mean period and for all its trials."""

import numpy as np

from ...solver import power

ORDERS = power.HARMONICS


def compute(waves: dict[str, np.ndarray], noise: dict[str, float], fine: float) -> dict[str, np.ndarray]:
    """Every measured quantity of periods of the channels.

    Parameters
    ----------
    waves
        By channel; only those that were recorded.
    noise
        Variance that noise adds to each interval's mean; it is taken out of the squares.
    fine
        Samples a period: straight lines between few samples flatten high harmonics, which is made good.

    Returns
    -------
    dict of str to array
        By quantity. A quantity of a channel that was not recorded is missing.
    """
    values, order = {}, np.arange(ORDERS + 1)
    flattened = np.sinc(order / max(fine, 2.2 * ORDERS)) ** 2
    lines, rms = {}, {}
    for name in ("mains_voltage", "line_current"):
        if name not in waves:
            continue
        wave = waves[name] - waves[name].mean(axis=-1, keepdims=True)  # a capacitor passes no dc: it is an offset
        lines[name] = power.harmonics(wave) / flattened
        lines[name][..., 0] = 0
        together = np.sqrt((np.abs(lines[name]) ** 2).sum(axis=-1))
        square = (wave**2).mean(axis=-1) - noise[name]
        # A wave taken by straight lines, and means over intervals, have lost a little of every harmonic.
        rms[name] = np.sqrt(np.maximum(square + _lost_power(wave, fine), (0.995 * together) ** 2))
        waves = waves | {name: wave}
    if "mains_voltage" in waves:
        values["voltage"] = rms["mains_voltage"]
        values["voltage_harmonics"] = np.abs(lines["mains_voltage"])
        values["voltage_thd"] = power.total_harmonic_distortion(
            rms["mains_voltage"], values["voltage_harmonics"][..., 1]
        )
        values["voltage_peak"] = (waves["mains_voltage"].max(axis=-1) - waves["mains_voltage"].min(axis=-1)) / 2
    if "line_current" in waves:
        values["current"] = rms["line_current"]
        values["current_harmonics"] = np.abs(lines["line_current"])
        values["current_thd"] = power.total_harmonic_distortion(
            rms["line_current"], values["current_harmonics"][..., 1]
        )
    if "mains_voltage" in waves and "line_current" in waves:
        both = lines["mains_voltage"] * lines["line_current"].conj()
        real = (waves["mains_voltage"] * waves["line_current"]).mean(axis=-1)
        # The means over intervals and the straight lines lose a little of each harmonic's watts as well.
        whole = both.real
        share = np.sinc(order / wave.shape[-1]) ** 2 * flattened**2
        real = real + (whole * (1 - share)).sum(axis=-1)
        parts = power.power_quantities(
            lines["mains_voltage"],
            lines["line_current"],
            voltage_rms=rms["mains_voltage"],
            current_rms=rms["line_current"],
            real_power=real,
        )
        values |= {
            "real": parts.real,
            "apparent": parts.apparent,
            "reactive": parts.reactive,
            "distortion": parts.current_distortion,
            "nonactive": parts.nonactive,
            "power_factor": parts.power_factor,
            "displacement_factor": parts.displacement_factor,
            "lead": -np.degrees(np.arctan2(parts.reactive, parts.fundamental_real)),
        }
    if "bus_voltage" in waves:
        values["bus_mean"] = waves["bus_voltage"].mean(axis=-1)
        values["bus_ripple"] = _ripple(waves["bus_voltage"])
    return values


def _lost_power(wave, fine):
    """What the square has lost by means over intervals and straight lines between samples."""
    count = wave.shape[-1]
    order = np.arange(1, min(count // 2, int(fine / 2)))
    share = np.sinc(order / count) * np.sinc(order / fine) ** 2
    lines = np.abs(np.fft.rfft(wave, axis=-1)[..., order]) ** 2 * 2 / count**2
    return (lines * (1 / share**2 - 1)).sum(axis=-1)


def _ripple(wave):
    """Peak to peak of what the first forty harmonics make: noise above them does not count as ripple."""
    spectrum = np.fft.rfft(wave, axis=-1)
    spectrum[..., 0] = 0
    spectrum[..., ORDERS + 1 :] = 0
    smooth = np.fft.irfft(spectrum, wave.shape[-1], axis=-1)
    return smooth.max(axis=-1) - smooth.min(axis=-1)
