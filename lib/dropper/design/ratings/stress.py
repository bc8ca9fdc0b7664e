"""Stress of a part: what, where, when, and the closed form that explains it where there is one."""

from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...circuit.parts import BY_KEY
from ...circuit.values import show_reading
from ...results.reading import Reading
from .circumstances import Circumstance

# What a part may be asked to stand: its name and unit.
QUANTITIES = {
    "peak_voltage": ("peak voltage", "V"),
    "reverse_voltage": ("reverse voltage", "V"),
    "rms_voltage": ("rms voltage", "V"),
    "ac_voltage": ("ac voltage (rms)", "V"),
    "dc_voltage": ("dc voltage", "V"),
    "mean_current": ("mean current", "A"),
    "power": ("mean power", "W"),
    "rms_current": ("rms current", "A"),
    "peak_current": ("peak current", "A"),
    "ripple_current": ("ripple current (rms)", "A"),
    "surge": ("surge current", "A"),
    "surge_i2t": ("I²t of the surge", "A²s"),
    "pulse_voltage": ("pulse voltage", "V"),
    "pulse_energy": ("pulse energy", "J"),
}


@documented
@dataclass(frozen=True)
class PartStress:
    """One stress of one part in one circumstance, as the solver gives it."""

    part: str = about("key of the part, as in `parts.BY_KEY`; one diode, one LED")
    quantity: str = about("one of `QUANTITIES`")
    value: float = about("0 or more", "SI units")
    circumstance: Circumstance
    derivation: str = about('name of the closed form in `theory`; "" where there is none', default="")
    values: dict = about("what to put into it, by keyword", default_factory=dict, hash=False)
    scale: float = about("what the closed form is multiplied with, as for the share of one LED", default=1.0)
    from_readings: bool = about("whether the closed form takes other readings of the same lamp", default=False)

    def __repr__(self) -> str:
        return f"<{QUANTITIES[self.quantity][0]} of {self.part}: {self.text} {self.circumstance.words}>"

    @property
    def counted(self) -> bool:
        """Whether parts are chosen for it."""
        return self.circumstance.counts_for(self.part, self.quantity)

    @property
    def unit(self) -> str:
        """The unit of its value."""
        return QUANTITIES[self.quantity][1]

    @property
    def text(self) -> str:
        """Its value as people write it."""
        return show_reading(self.value, self.unit)

    @property
    def reading(self) -> Reading | None:
        """The stress as a `Reading` that explains itself by its closed form; None where there is none."""
        if not self.derivation:
            return None
        name = f"{QUANTITIES[self.quantity][0]} of the {BY_KEY[self.part].name}, {self.circumstance.words}"
        return Reading(
            f"{self.part}.{self.quantity}",
            name,
            self.value,
            self.unit,
            self.derivation,
            self.values,
            scale=self.scale,
            from_readings=self.from_readings,
        )
