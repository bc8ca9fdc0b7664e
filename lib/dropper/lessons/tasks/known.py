"""Known quantities of a task: the values given, and all that the theory makes of them.

    known = KnownQuantities({"voltage": 230.0, "frequency": 50.0, "dropper": 330e-9, "clamped_voltage": 70.0})
    known.mean_string_current           # by the derivation of that name; the mains' peak is found on the way
    known.using("mean_string_current", clamped_voltage=0.0)

A name is that of a value given, of a derivation (`theory.ALL`) or of a quantity in `DERIVATIONS`; `dir(known)` lists
them, and any other name is an error. No formula stands here: every number comes from `theory`, which is loaded on
first use.
"""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ...theory.engine.working import Working

# A quantity that a derivation asks for -> the derivation that gives it, where the names differ. What starts an inrush
# or a discharge is the mains' peak, the worst there is, unless a task says otherwise.
DERIVATIONS = {
    "clamped_fraction": "clamped_share",
    "reactance": "dropper_reactance",
    "string_current_mean": "mean_string_current",
    "step_voltage": "peak_voltage",
    "initial_voltage": "peak_voltage",
}


class KnownQuantities:
    """The values given and what follows from them; every quantity is an attribute, in SI units.

    A value that is given goes before one that could be derived.

    Parameters
    ----------
    values
        By the keyword of the theory's glossary, or another name that a question uses.

    Examples
    --------
    >>> known = KnownQuantities({"frequency": 50.0, "dropper": 330e-9})
    >>> round(known.reactance)
    9646
    >>> known.reactanse
    Traceback (most recent call last):
    AttributeError: no quantity is called 'reactanse'; near it: reactance, dropper_reactance
    """

    def __init__(self, values: dict[str, float]):
        self.values = dict(values)
        self._results = {}

    def __getattr__(self, name: str) -> float:
        """A quantity by its name: the value given, else the result of its derivation.

        Raises
        ------
        AttributeError
            For a name that is neither given nor derived, with the names that are near it.
        """
        if name.startswith("_") or name == "values":  # asked for while a copy is made
            raise AttributeError(name)
        if name in self.values:
            return self.values[name]
        if name not in self._results:
            self._results[name] = self.using(self._derivation(name))
        return self._results[name]

    def __dir__(self):
        from ... import theory

        return sorted({*super().__dir__(), *self.values, *theory.ALL, *DERIVATIONS})

    def using(self, derivation: str, **changed: float) -> float:
        """A derivation's result with some of its inputs put in by hand."""
        from ... import theory

        return theory.ALL[derivation](**self.inputs(derivation, **changed))

    def working(self, derivation: str, **changed: float) -> Working:
        """A derivation worked out with these values, for reading."""
        from ... import theory

        return theory.ALL[derivation].working(**self.inputs(derivation, **changed))

    def inputs(self, derivation: str, **changed: float) -> dict[str, float]:
        """What a derivation asks for, by keyword.

        Raises
        ------
        TypeError
            For an input put in by hand that the derivation does not take.
        """
        from ... import theory

        lines = theory.ALL[derivation].inputs
        unknown = set(changed) - {line.keyword for line in lines}
        if unknown:
            raise TypeError(f"{derivation} does not take {', '.join(sorted(unknown))}")
        names = [line.keyword for line in lines if line.default is None or line.keyword in self.values]
        return {name: changed[name] if name in changed else getattr(self, name) for name in names}

    def _derivation(self, name):
        """The name of the derivation that gives a quantity."""
        from ... import theory

        derivation = DERIVATIONS.get(name, name)
        if derivation in set(theory.ALL):
            return derivation
        near = difflib.get_close_matches(name, {*self.values, *theory.ALL, *DERIVATIONS}, n=3)
        raise AttributeError(f"no quantity is called {name!r}" + (f"; near it: {', '.join(near)}" if near else ""))
