"""Residual voltage: what a dropper holds after unplugging, judged by every rule in `standards`.

The rules speak of the plug's pins. A meter there shows what the dropper holds less what the bus holds, so this is the
most that it could show: the careful side.
"""

from dataclasses import dataclass

from .. import theory
from ..circuit.fields import Spec, about, check_value, documented
from ..circuit.values import show
from ..standards import TOUCH_RULES, TouchRule, Verdict, residual_verdict

CAUTION = (
    "Within a limit is no leave to touch: a capacitor counts as live until it has been proved dead by measuring, and "
    "which rule holds, local codes and licensed practice say."
)
_FIELDS = {
    "capacitance": Spec("F", 1e-10, 5e-5, meaning="rated capacitance"),
    "bleeder": Spec("Ω", 1e3, 5e8, none=True, meaning="rated bleeder"),
    "peak_voltage": Spec("V", 1, 1500, meaning="voltage at the moment of unplugging"),
    "capacitor_tolerance": Spec("", 0, 0.5, meaning="tolerance of the capacitor, as a fraction"),
    "bleeder_tolerance": Spec("", 0, 0.5, meaning="tolerance of the bleeder, as a fraction"),
}


@documented
@dataclass(frozen=True)
class ResidualCheck(Verdict):
    """One rule's verdict, with the voltages and times that it rests on."""

    rule: TouchRule
    voltage_left: float = about("at the rule's moment", "V")
    limit: float = about("of the voltage", "V")
    time_needed: float = about("until the limit is reached; infinite without a bleeder", "s")


@documented
@dataclass(frozen=True)
class Residual:
    """A dropper and its bleeder after unplugging, under every rule."""

    capacitance: float = about("tolerance added", "F")
    bleeder: float | None = about("tolerance added; None where none is fitted", "Ω")
    peak_voltage: float = about("at the moment of unplugging", "V")
    charge: float = about("at that moment", "C")
    checks: tuple = about("a `ResidualCheck` for each rule")

    def __repr__(self) -> str:
        counts = ", ".join(f"{len(self.of(word))} {word}" for word in ("within", "over", "no limit"))
        return f"<Residual of {show(self.charge, 'C')} at {show(self.peak_voltage, 'V')}, rules: {counts}>"

    def of(self, word: str) -> tuple[ResidualCheck, ...]:
        """The checks with one verdict: "within", "over" or "no limit"."""
        return tuple(check for check in self.checks if check.word == word)

    @property
    def disagree(self) -> bool:
        """Whether one rule is kept while another is broken."""
        return bool(self.of("within") and self.of("over"))

    @property
    def words(self) -> str:
        """All of it in a few sentences."""
        parts = []
        if self.disagree:
            parts.append("The rules disagree.")
        elif self.of("over"):
            parts.append("No rule that asks for something is kept.")
        elif self.of("within"):
            parts.append("Every rule that asks for something is kept.")
        else:
            parts.append("No rule kept here asks for anything.")
        parts += [check.words for word in ("over", "within", "no limit") for check in self.of(word)]
        return " ".join([*parts, CAUTION])


def judge(
    capacitance: float,
    bleeder: float | None,
    peak_voltage: float,
    capacitor_tolerance: float = 0.0,
    bleeder_tolerance: float = 0.0,
) -> Residual:
    """What every rule says of a dropper, its bleeder and the voltage it is unplugged at.

    The voltage left and the time needed are `theory.residual_voltage` and `theory.discharge_time`, the greatest
    capacitance and bleeder put in; exemptions by capacitance go by the rated one.

    Parameters
    ----------
    capacitance
        F, as marked, 100 pF to 50 µF.
    bleeder
        Ω, as marked, 1 kΩ to 500 MΩ; None where none is fitted.
    peak_voltage
        V, 1 to 1500; at worst the mains' peak on a high day.
    capacitor_tolerance, bleeder_tolerance
        0 to 0.5: 0.1 for parts of ±10 %.

    Raises
    ------
    ValueError
        For values out of range.

    Examples
    --------
    >>> residual = judge(470e-9, 1e6, 325.3)
    >>> residual.disagree, [check.rule.key for check in residual.of("over")]
    (True, ['household', 'portable luminaire'])
    """
    rated = check_value("capacitance", capacitance, _FIELDS["capacitance"])
    ohms = check_value("bleeder", bleeder, _FIELDS["bleeder"])
    peak = check_value("peak_voltage", peak_voltage, _FIELDS["peak_voltage"])
    farads = rated * (1 + check_value("capacitor_tolerance", capacitor_tolerance, _FIELDS["capacitor_tolerance"]))
    more = 1 + check_value("bleeder_tolerance", bleeder_tolerance, _FIELDS["bleeder_tolerance"])
    ohms = None if ohms is None else ohms * more
    charge = theory.stored_charge(dropper=farads, initial_voltage=peak)
    checks = []
    for rule in TOUCH_RULES:
        limit, volts, seconds = rule.limit_for(farads, peak), peak, float("inf")
        if ohms is not None:
            parts = {"dropper": farads, "bleeder": ohms, "initial_voltage": peak}
            volts = theory.residual_voltage(time=rule.seconds, **parts)
            seconds = theory.discharge_time(limit_voltage=limit, **parts) if limit < peak else 0.0
        elif limit >= peak:
            seconds = 0.0
        verdict = residual_verdict(rule, volts, rated, farads, charge, peak)
        words = verdict.words
        if verdict.word == "over":
            duration = "nothing empties it" if ohms is None else f"it takes {show(seconds, 's')}"
            words = f"{words.removesuffix('.')}; {duration}."
        checks.append(ResidualCheck(verdict.word, words, verdict.standard, rule, volts, limit, seconds))
    return Residual(farads, ohms, peak, charge, tuple(checks))
