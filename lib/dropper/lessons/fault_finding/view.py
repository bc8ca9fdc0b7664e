"""Fault-finding view: readings of a lamp and what they say: odds of causes, what speaks for each, what to do next."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from ...bench.diagnosis import Evidence, diagnose, posterior_of
from ...bench.diagnosis.evidence import WORDS, unit_of
from ...bench.diagnosis.measurements import BY_READING, LIVE
from ...bench.diagnosis.wording import percent
from ...circuit.fields import about, documented, spec_of
from ...circuit.lamp import Lamp, Readings
from ...circuit.parsing import parse
from ..kit.typed_value import typed_value
from .hunt_view import NAMES, Bar

CAUTION = (
    "Read with the case closed what can be read so. Parts are measured with the plug out and the capacitors proved"
    " empty; live volts are for licensed practice, as local codes ask."
)
# Each reading that can be typed: field, name on the panel, example.
NUMBERS = (
    ("voltage", "mains volts", "230 V"),
    ("current", "line current", "22 mA"),
    ("power", "watts", "1.3 W"),
    ("power_factor", "power factor", "0.26"),
    ("leds_dark", "LEDs that are dark", "0"),
    ("bus_voltage", "dc on the string, live", "67.1 V"),
    ("bus_ripple", "ac on the string, live", "1.8 V"),
    ("pins_residual", "pins, 1 s after the pull", "0 V"),
    ("bus_residual", "C2 after 10 s, live", "3 V"),
    ("dropper_capacitance", "dropper C1", "330 nF"),
    ("bleeder_resistance", "bleeder R2", "1 M"),
    ("inrush_resistance", "inrush resistor R1", "220 Ω"),
    ("smoothing_capacitance", "smoothing C2", "10 µF"),
    ("smoothing_resistance", "ohms of C2", "over"),
    ("smoothing_bleeder_resistance", "smoothing bleeder R3", "330 k"),
)
CHOICES = (("light", "the light"), ("bridge", "diode test"), ("string", "test of the string"))
# Where they are read, with the class of danger of each as in `HAZARDS`; the last stay folded until they are asked for.
GROUPS = (
    ("Read with the case closed", (1,)),
    ("Measured with the plug out, proved empty", (0, 2)),
    ("On live parts: licensed practice only", (LIVE,)),
)
READINGS = Readings.__dataclass_fields__  # of a lamp file: what a plug-in meter may have shown
_OVER = ("over", "ol", "open", "∞")


@documented
@dataclass(frozen=True)
class Case:
    """A lamp, and what was read of it."""

    lamp: Lamp = about("As it is when healthy.")
    texts: dict = about("The readings as typed, by field of `Evidence`; empty where nothing was read.")
    live: bool = about("Whether a measurement on live parts may be proposed.", default=True)


@documented
@dataclass(frozen=True, eq=False)
class View:
    """What readings say."""

    bars: tuple = about("Before any reading, and now; the healthy lamp first.")
    causes: tuple = about("Of each cause worth a word: what it is, its probability, what speaks for and against it.")
    verdict: str
    count: int = about("How many readings there are.")


def grouped(fields: Iterable[str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Fields of `Evidence` in `GROUPS`: (title, fields) of each.

    Parameters
    ----------
    fields
        In the order in which they are to stand.
    """
    hazards = {field: BY_READING[field].hazard for field in fields}
    return tuple(
        (title, tuple(field for field, hazard in hazards.items() if hazard in classes)) for title, classes in GROUPS
    )


def read(texts: dict[str, str]) -> Evidence:
    """Readings as typed, checked and in SI units.

    Parameters
    ----------
    texts
        By field of `Evidence`; empty where nothing was read. Ohms over the meter's range are "over".

    Raises
    ------
    ValueError
        In words, with the name on the panel.
    """
    names = {field: name for field, name, _ in NUMBERS}
    values = {}
    for field, text in texts.items():
        plain = str(text).strip()
        if not plain:
            continue
        if field in WORDS:
            values[field] = plain
        elif field.endswith("_resistance") and plain.lower() in _OVER:
            values[field] = float("inf")
        elif field in READINGS:
            values[field] = typed_value(names[field], plain, unit_of(field), spec_of(READINGS[field]))
        else:
            values[field] = parse(plain, unit_of(field), names[field])
    try:
        return Evidence(**values)
    except ValueError as error:
        raise ValueError(re.sub(r"Evidence\.(\w+)", lambda field: names.get(field[1], field[1]), str(error))) from None


def texts_of(readings: Readings) -> dict[str, str]:
    """The bench readings of a lamp file as texts for the panel's fields."""
    evidence = Evidence.of(readings)
    return {field: f"{getattr(evidence, field):g} {unit_of(field)}".strip() for field in evidence.reading_names()}


def view_of(case: Case) -> View:
    """What readings of a lamp say.

    Raises
    ------
    ValueError
        For a reading that cannot be, with its name on the panel; and if the lamp stays dark with every part good.
    """
    evidence = read(case.texts)
    diagnosis = diagnose(case.lamp, evidence, live=case.live)
    before, now = posterior_of(case.lamp).causes(), diagnosis.posterior.causes()
    kinds = [kind for kind in NAMES if kind in now]
    return View(
        bars=tuple(Bar(kind, NAMES[kind], before[kind], now[kind]) for kind in kinds),
        causes=tuple(
            (cause.words, percent(cause.probability), cause.why)
            for cause in diagnosis.causes
            if cause.probability >= 0.02
        ),
        verdict=diagnosis.verdict,
        count=len(evidence.reading_names()),
    )
