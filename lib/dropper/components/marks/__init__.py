"""Marks on parts: bands and codes, both ways; colours taken for one another; measured against marked.

    from dropper.components.marks import bands, codes, similar_colours, tolerance_check

    bands.read(["yellow", "violet", "black", "gold"])[0].text      # 47 Ω ±5 %
    bands.write(4.7e3, tolerance=1.0, bands=5)
    codes.read("105J 400V")[0].text                                # 1 µF ±5 %, 400 V dc
    similar_colours.candidates(["brown", "black", "red", "gold"], doubtful=[3])
    tolerance_check.check_tolerance(430e-9, 470e-9, 10, 10, unit="F", percent=4, counts=5, digit=1e-9).word

Colours, multipliers and tolerances are those of IEC 60062:2016, preferred values those of IEC 60063:2015; where a
figure is from memory, its module says so. A mark is what a maker printed, not what the part still is: measure it.
"""

from .meaning import MarkError, Meaning

__all__ = ["MarkError", "Meaning"]
