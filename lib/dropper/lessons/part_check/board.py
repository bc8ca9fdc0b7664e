"""Board parts: which part is which, and which way round it goes: shapes, signs of polarity, and how to make sure."""

from dataclasses import dataclass

from ...circuit.fields import about, documented
from ...standards.cautions import DISCHARGE

SOURCE = "Common practice, no source; makers differ, and the data sheet of the very part has the last word."

_EMPTY = f"{DISCHARGE} Then it is proved empty."


@documented
@dataclass(frozen=True)
class Shape:
    """One kind of part as it meets the eye."""

    key: str
    name: str
    looks: str = about("what it looks like")
    way: str = about("which way round it goes, and what sign says so")
    sure: str = about("how to make sure with a meter, the lamp unplugged and its capacitors discharged")

    @property
    def words(self) -> str:
        """All of it."""
        return f"{self.name[0].upper()}{self.name[1:]}. {self.looks} {self.way} {self.sure}"


SHAPES = {
    shape.key: shape
    for shape in (
        Shape(
            "resistor",
            "resistor",
            "A small barrel with two wires and a row of bands.",
            "Either way round is right. The bands are read from the end that they are nearer to, or so that gold or"
            " silver comes last.",
            "Measure its ohms with one lead lifted: what stands beside it on the board is measured along otherwise.",
        ),
        Shape(
            "chip",
            "chip resistor",
            "A small dark tile with metal ends and three or four numerals, or two and a letter.",
            "Either way round is right.",
            "Measure it off the board: there is always something beside it. Chip capacitors look alike, paler, and have"
            " no print.",
        ),
        Shape(
            "film",
            "film capacitor",
            "A box or a flat drop with both wires on one side and a print: value, tolerance letter, volts, perhaps X2.",
            "Either way round is right.",
            f"{_EMPTY} Then lift one lead and measure its farads.",
        ),
        Shape(
            "disc",
            "disc: ceramic capacitor or varistor",
            "A flat round disc with both wires on one side. A varistor looks the same: 471K is 470 pF on the one, and"
            " on the other 470 V at 1 mA dc, which is no mains rating: that one is much lower, on the data sheet.",
            "Either way round is right.",
            "Its place tells: straight across the mains, behind the fuse, a varistor is usual. No ordinary meter tells"
            " a varistor's volts; do not try with a high voltage.",
        ),
        Shape(
            "electrolytic",
            "electrolytic capacitor",
            "A can in a sleeve with both wires on one side, its value and volts in full.",
            "The stripe down the side, with minus signs in it, marks the MINUS lead; on a new part the longer lead is"
            " plus.",
            f"Look twice: the wrong way round it warms, leaks and may burst. {_EMPTY}",
        ),
        Shape(
            "diode",
            "rectifier diode",
            "A black barrel with two wires and one pale band; 1N4001 to 1N4007 are printed on it.",
            "The band is at the CATHODE: current leaves there.",
            "A diode tester shows about 0.6 V one way round (red at the other end, black at the band) and nothing the"
            " other way.",
        ),
        Shape(
            "bridge",
            "bridge rectifier",
            "Four diodes in one black case with four wires.",
            "The case is printed: ~ and ~ to the mains' side, + and − to the bus.",
            "A diode tester shows two diodes in a row, about 1.1 V, with red at − and black at +, and nothing the other"
            " way round.",
        ),
        Shape(
            "led",
            "LED, wired",
            "A clear or coloured dome with a rim and two wires.",
            "The longer lead is the ANODE, plus; the flat in the rim is at the CATHODE. Kinds differ: check each one.",
            "Blue and white ones want some 3 V, more than many diode testers give; off the board, a supply of a few"
            " volts dc, limited to a few milliamperes, lights it.",
        ),
        Shape(
            "chip_led",
            "LED, chip",
            "A small white tile with a yellow or clear window.",
            "A cut corner or a green mark is often at the cathode, on some kinds at the anode.",
            "Only the data sheet tells, or, off the board, a supply of a few volts dc, limited to a few milliamperes.",
        ),
    )
}
