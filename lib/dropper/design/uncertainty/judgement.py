"""Judgement: whether a figure measured on a lamp lies inside the ± of its prediction, and what that says."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...circuit.excerpt import excerpt
from ...circuit.fields import about, documented
from ...circuit.numerals import significant
from ...circuit.values import show
from .budget import ErrorBar


@documented
@dataclass(frozen=True)
class Judgement:
    """A measured figure beside its prediction."""

    bar: ErrorBar
    measured: float = about("as read", "SI units")
    times: float = about("how many times the ± it lies off")

    @property
    def inside(self) -> bool:
        """Whether it lies within the ±, its ends included."""
        return self.times <= 1 + 1e-9

    @property
    def word(self) -> str:
        """ "inside" or "outside"."""
        return "inside" if self.inside else "outside"

    @property
    def words(self) -> str:
        """What the figure says, in a few sentences."""
        bar = self.bar
        less = "less" if self.measured < bar.value else "more"
        apart = show(abs(self.measured - bar.value), bar.unit, 2)
        head = f"{show(self.measured, bar.unit)} measured, {bar.text} predicted: {self.word}."
        if self.inside:
            return (
                f"{head} {apart} {less} needs no fault: tolerance, model and meter do as much. It proves no part sound."
            )
        return (
            f"{head} That is {apart} {less}, {significant(self.times, 2)} times the ±. Read again first, the mains'"
            " volts too; then ask what of this lamp is not as its file says. What weighs most in the ±:"
            f" {bar.largest.name}."
        )


def judge(bar: ErrorBar, measured: float) -> Judgement:
    """Whether a measured figure lies inside the ± of its prediction.

    Parameters
    ----------
    bar
        Of `error_budget`, on the mains that was measured on.
    measured
        What the instrument showed, in SI units.

    Raises
    ------
    ValueError
        If it is no number that a meter could show: negative or not finite.

    Examples
    --------
    >>> from dropper import Lamp, Led, LedString, Mains
    >>> from dropper.design.uncertainty import error_budget
    >>> lamp = Lamp(Mains(230, 50), LedString(Led(3.1, 0.02), 22), "330 nF", "10 µF", "1 MΩ", 220)
    >>> current = error_budget(lamp).bars["line_current_rms"]
    >>> judge(current, 0.023).word, judge(current, 0.015).word
    ('inside', 'outside')

    Source: the figure's own error is in the ± where a meter shows it: `ErrorBar.metered`.
    """
    if not isinstance(measured, int | float) or not math.isfinite(measured) or measured < 0:
        raise ValueError(
            f"{bar.name}: {excerpt(measured)} is no reading; a number from 0 on, in {bar.unit or 'no unit'}"
        )
    off = abs(measured - bar.value)
    return Judgement(bar, float(measured), off / bar.half_width)
