"""Film view: a dc film capacitor as dropper, and a dropper of class X2 that fails short, as outcomes of a guess."""

from ...circuit.values import show, show_reading
from ...components.kinds import DC_FILM
from ...design import Design
from ...solver.steady import steady_state
from ...solver.transient import Fault, with_fault

_LEAST = 400.0  # V dc: the mark that the question is about


def dc_film_case(design: Design, elsewhere: Design) -> tuple[str, str]:
    """What a design's dropper asks of the ac volts of a dc film capacitor.

    Parameters
    ----------
    elsewhere
        A design on another mains, as a second case.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: the dc volts of the least film that stands it, "400",
        or "none".
    """
    films = [film for film in DC_FILM if film.rated_voltage >= _LEAST]
    check, other = (one.of("dropper").rating.check("ac_voltage") for one in (design, elsewhere))
    stands = next((film for film in films if film.ac_voltage >= check.worst.value), None)
    marks = _list(f"{film.rated_voltage:g}" for film in films)
    allowed = _list(f"{film.ac_voltage:g}" for film in films)
    where = show(elsewhere.brief.supply.nominal, "V")
    return (
        f"In normal use {check.normal.text} of ac stand across it. With two diodes short and the mains high it is"
        f" {check.worst.text}. Films of {marks} V dc stand only {allowed} V of ac (usual ratings, from memory). On"
        f" {where} mains it is {other.worst.text} at most: there 400 V dc would stand the volts. But nobody has tested"
        " such a film for the mains' surges."
    ), "none" if stands is None else f"{stands.rated_voltage:g}"


def short_dropper_case(design: Design) -> tuple[str, str]:
    """What the lamp of a design does when its dropper fails short, with mains and parts at the bright end.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds, "short".
    """
    result = steady_state(with_fault(design.bright, Fault("short", "dropper")))
    each = result.string_current_mean / design.brief.in_parallel
    return (
        "The class promises that it sets nothing on fire across the line. It does not promise that it always fails"
        f" open. If it fails short, the line carries {show_reading(result.line_current_rms, 'A')}. The resistor of"
        f" {show(design.lamp.inrush_resistor, 'Ω')} burns {show_reading(result.heat['inrush_resistor'], 'W')}, and each"
        f" LED gets {show_reading(each, 'A')}. Something in the line must open: a fuse, as local codes"
        " ask."
    ), "short"


def _list(texts):
    *most, last = texts
    return f"{', '.join(most)} and {last}"
