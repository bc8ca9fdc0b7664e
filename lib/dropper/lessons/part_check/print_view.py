"""Print view: two prints with the same numerals, as the outcome of a guess."""

from ...components.marks import codes


def numerals_case(capacitor: str, chip: str) -> tuple[str, str]:
    """What a print means on a film capacitor, and the same numerals on a chip resistor.

    Returns
    -------
    (str, str)
        What comes of it, and the key of the answer that holds: "part" if the part decides, "alike" if not.
    """
    box = next(one for one in codes.read(capacitor) if "capacitor" in one.part)
    tile = next(one for one in codes.read(chip) if one.part == "chip resistor")
    alike = (box.value, box.unit) == (tile.value, tile.unit)
    return (
        f"{capacitor} on the box is {box.text}: 47 and four zeros, in picofarads, and the letter is a tolerance."
        f" {chip} on the chip is {tile.text}: 47 and four zeros, in ohms."
    ), "alike" if alike else "part"
