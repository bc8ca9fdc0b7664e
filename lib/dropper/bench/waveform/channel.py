"""Channel: what a column of an oscilloscope's file stands for, its probe, its shunt, its sign, its limit of error."""

from dataclasses import dataclass

import numpy as np

from ...circuit.excerpt import excerpt, label
from ...circuit.fields import about, check, check_text, documented, quantity
from ..table import Table

NAMES = {"mains_voltage": "mains voltage", "line_current": "line current", "bus_voltage": "bus voltage"}
ACCURACY = 0.03


@documented
@dataclass(frozen=True)
class Channel:
    """One column of the file and what it stands for.

    A current is recorded as the volts across a shunt (`shunt`), or with a probe that gives volts for amperes
    (`volts_per_ampere`), or in amperes already (neither).
    """

    column: str = about("its heading")
    factor: float = quantity("", 1e-3, 1e5, 1.0, meaning="what the probe divides by, unless the file counts it in")
    shunt: float | None = quantity("Ω", 1e-4, 1e5, None, none=True, meaning="resistor across which a current is seen")
    volts_per_ampere: float | None = quantity("", 1e-4, 1e4, None, none=True, meaning="of a current probe, V/A")
    inverted: bool = about("whether the probe was on the wrong way round", default=False)
    accuracy: float = quantity("", 0, 0.5, ACCURACY, meaning="limit of error of probe and scale together")

    def __post_init__(self):
        check(self)
        check_text(self, "column", 200)
        if self.shunt is not None and self.volts_per_ampere is not None:
            raise ValueError(f"{self.column}: a current is seen across a shunt or by a probe, not both; leave one out")

    def values(self, data: Table, unit: str) -> np.ndarray:
        """The column of a table in V or A."""
        recorded = "V" if unit == "V" or self.shunt or self.volts_per_ampere else "A"
        written = data.units.get(self.column, "")
        if recorded == "A" and written.lower().endswith(("v", "volt", "volts")):
            raise ValueError(
                f"{data.source}: the column of the line current, {label(self.column)}, is in {excerpt(written)}; say"
                " the ohms across which it was taken, or the probe's volts per ampere"
            )
        scale = self.factor / (self.shunt or self.volts_per_ampere or 1.0) * (-1 if self.inverted else 1)
        values = data.si(self.column, recorded)
        return values if scale == 1 else values * scale
