"""Where a reading comes from: its derivation with the lamp's present values put in.

The closed form knows an ideal lamp (no resistor in the line, smoothing without end, a sine);
the reading comes from the lamp as it is. Both are shown, and how far they are apart.
"""

import re
from html import escape

from .compare import signed_percent
from .values import show

QUESTIONS = {
    "string_current_mean": "string current, mean",
    "line_current_rms": "line current, rms",
    "line_current_peak": "line current, peak",
    "real_power": "power",
    "apparent_power": "apparent power",
    "power_factor": "power factor",
    "displacement_factor": "displacement factor",
    "current_thd": "distortion of the line current",
    "dropper_voltage_peak": "dropper voltage, peak",
    "dropper_voltage_rms": "dropper voltage, rms",
    "conduction_fraction": "share of time in which the bridge conducts",
}
_UNITS = {"current": "A", "power": "W", "voltage": "V"}


def derivation_of(key):
    """The derivation behind a reading.

    Raises
    ------
    KeyError
        If the reading has none here.
    """
    from .theory import ALL

    if key not in QUESTIONS:
        raise KeyError(f"{key!r} has no derivation here; choose from {', '.join(QUESTIONS)}")
    return ALL["mean_string_current" if key == "string_current_mean" else key]


def values_for(derivation, lamp, result):
    """The values that a derivation asks for, taken from a lamp and its steady state, SI units.

    The clamped voltage is the bus voltage's mean and two diodes at the current they carry.
    """
    peak = lamp.mains.peak
    conducting = result.string_current_mean / max(result.conduction_fraction, 1e-9)
    clamped = result.bus_voltage_mean + 2 * lamp.diode.voltage_at(conducting)
    known = {
        "voltage": lamp.mains.voltage,
        "frequency": lamp.mains.frequency,
        "dropper": lamp.dropper,
        "peak_voltage": peak,
        "clamped_voltage": clamped,
        "clamped_fraction": clamped / peak,
    }
    return {keyword: known[keyword] for keyword in derivation.keywords}


def working(key, lamp, result):
    """A reading worked out by its formula with the lamp's present values.

    Parameters
    ----------
    key : str
        One of `QUESTIONS`.
    lamp : Lamp
    result : SteadyState
        The lamp's own.

    Returns
    -------
    Working
        Shows itself in a notebook; `.value` is the number, `.plain()` the text.

    Raises
    ------
    KeyError
        For a reading without a derivation.
    ValueError
        Where the formula does not apply, as for a lamp that stays dark.
    """
    derivation = derivation_of(key)
    return derivation.working(**values_for(derivation, lamp, result))


def comparison(key, result, worked):
    """The closed form's value beside the reading, in a sentence."""
    reading = getattr(result, key)
    unit = next((unit for word, unit in _UNITS.items() if word in key and "factor" not in key), "")
    unit = "VA" if key == "apparent_power" else unit
    if key == "current_thd":
        unit = ""
    return (
        f"For this lamp as it is, with its resistors and its ripple, the reading is {show(reading, unit)};"
        f" the formula's ideal lamp gives {show(worked.value, unit)}"
        f" ({signed_percent(reading, worked.value)} against the reading)."
    )


def in_html(key, lamp, result):
    """The working and its comparison as HTML with LaTeX in dollar signs."""
    if result.dark:
        return "<p>The string stays dark, and the formula is for one that lights.</p>"
    try:
        worked = working(key, lamp, result)
    except ValueError as error:
        return f"<p>The formula has nothing to say here: {escape(str(error))}.</p>"
    return _html(worked._repr_markdown_()) + f"<p>{escape(comparison(key, result, worked))}</p>"


def _html(markdown):
    import mistune

    formulas = []

    def put_by(match):
        formulas.append(match[0])
        return f"@formula{len(formulas) - 1}@"

    text = mistune.html(re.sub(r"\$\$.+?\$\$|\$.+?\$", put_by, markdown, flags=re.S))
    return re.sub(r"@formula(\d+)@", lambda match: escape(formulas[int(match[1])], quote=False), text)
