"""Table reading: a number that a standard's table gives; it explains itself in words, with the digits of a mark."""

from dataclasses import dataclass

from ...circuit.fields import documented
from ...circuit.values import show, show_plain
from ...results.reading import Reading

DIGITS = 5  # of 9.99 kΩ and 10.01 kΩ, the ends of ±0.1 %, three would make 9.99 and 10


@documented
@dataclass(frozen=True)
class TableReading(Reading):
    """A reading from a table; see `Reading`."""

    @property
    def text(self) -> str:
        """The value as people write it."""
        if self.unit in ("Ω", "F", "V") and self.value == self.value:
            return show_plain(self.value, "V", 6) if self.unit == "V" else show(self.value, self.unit, DIGITS)
        return super().text


def table_reading(key: str, name: str, value: float, unit: str, how: str) -> TableReading:
    """A number that no derivation gives.

    Parameters
    ----------
    how
        Where it comes from: the table and the arithmetic, in words.
    """
    return TableReading(key, name, value, unit, "", note=how, exact=True)
