"""Reading: a number on a panel, its name, its value and unit, and the derivation that explains it."""

from collections.abc import Mapping
from dataclasses import KW_ONLY, dataclass

from ..circuit.fields import about, documented
from ..circuit.values import show_reading


@documented
@dataclass(frozen=True)
class Reading:
    """A number that can explain itself."""

    key: str = about("what it is called in code.")
    name: str = about("what it is called on the panel.")
    value: float = about("in SI units; nan where there is none to give.")
    unit: str = about('"" for a plain number, "%" and "°" for those; SI otherwise.')
    derivation: str = about(
        'name of a derivation in `theory`; "" where no formula is kept, and `note` says why in words.'
    )
    values: Mapping = about("what to put into it, by keyword.", default_factory=dict)
    exact: bool = about(
        "the value is that formula's own; otherwise it is the solver's, and the formula's ideal lamp is "
        "compared with it.",
        default=False,
    )
    scale: float = about(
        "what the derivation's result is multiplied with to be in `unit` (180/π for degrees).", default=1.0
    )
    _: KW_ONLY
    from_readings: bool = about(
        "the formula takes other readings of the same lamp, and is no ideal lamp's.", default=False
    )
    chosen: bool = about(
        "the value is the next one that is sold; the formula's is the one wanted, before tolerance.", default=False
    )
    excess: str = about('what it passes, in a few words: "above the 20 mA of its LEDs"; "" for nothing.', default="")
    note: str = about("what is to be said besides, or instead of a formula.", default="")
    names: dict = about(
        'what a value put in is here, by keyword, and under "" the result, where the formula stands for '
        "another place than the one it is derived for.",
        default_factory=dict,
    )

    @property
    def text(self) -> str:
        """The value as people write it."""
        return show_reading(self.value, self.unit, full=not self.chosen)
