"""Confirmation: which unplugged measurement shows a cause at the part itself, before the part is changed."""

from .evidence import Evidence
from .measurements import MEASUREMENTS, Measurement

_BY_PART = {
    "dropper": "dropper",
    "bleeder": "bleeder",
    "smoothing_bleeder": "smoothing bleeder",
    "inrush_resistor": "inrush",
    "smoothing": "smoothing",
    "string": "string",
    "group": "string",
    "groups": "string",
}
_OHMS = (("leaky", "smoothing"), ("short", "smoothing"))  # capacitance says little of these


def confirmation_of(kind: tuple | None, evidence: Evidence) -> Measurement | None:
    """The measurement with the plug out that confirms a cause at its part.

    Parameters
    ----------
    kind
        A name in `WEIGHTS`.
    evidence
        What was read so far.

    Returns
    -------
    Measurement or None
        None for the healthy lamp, for a part that was measured by itself, and for one open LED among parallel
        ones, which a test by groups does not show.

    Examples
    --------
    >>> confirmation_of(("lost", "dropper"), Evidence(current=0.011))
    <Measurement 'dropper': lift one lead of the dropper and measure its capacitance>
    """
    if kind is None:
        return None
    key = "leak" if kind in _OHMS else "bridge" if kind[1].startswith("D") else _BY_PART.get(kind[1])
    if key is None or any(getattr(evidence, name) is not None for name in MEASUREMENTS[key].readings):
        return None
    return MEASUREMENTS[key]
