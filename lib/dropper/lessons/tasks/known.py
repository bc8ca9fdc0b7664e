"""What is known in a task: the values given, and all that the theory makes of them.

    facts = Facts({"voltage": 230.0, "frequency": 50.0, "dropper": 330e-9, "clamped_voltage": 70.0})
    facts.mean_string_current           # by the derivation of that name; the mains' peak is found on the way
    facts.using("mean_string_current", clamped_voltage=0.0)

No formula stands here: every number comes from `theory`, which is loaded on first use.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ...theory.engine.working import Working

# A quantity that a derivation asks for -> the derivation that gives it, where the names differ. What starts an inrush
# or a discharge is the mains' peak, the worst there is, unless a task says otherwise.
_GIVEN_BY = {
    "reactance": "dropper_reactance",
    "string_current_mean": "mean_string_current",
    "step_voltage": "peak_voltage",
    "initial_voltage": "peak_voltage",
}


class Facts:
    """The values given and what follows from them; every quantity is an attribute, SI units.

    A value that is given goes before one that could be derived.

    Parameters
    ----------
    given
        By the keyword of the theory's glossary, or another name that a question uses.
    """

    def __init__(self, given: dict[str, float]):
        self.given = dict(given)
        self._found = {}

    def __getattr__(self, name):
        if name.startswith("_"):
            raise AttributeError(name)
        if name in self.given:
            return self.given[name]
        if name not in self._found:
            self._found[name] = self._derived(name)
        return self._found[name]

    def using(self, derivation: str, **changed) -> float:
        """A derivation's result with some of its inputs put in by hand."""
        from ... import theory

        return theory.ALL[derivation](**self.inputs(derivation, **changed))

    def working(self, derivation: str, **changed) -> Working:
        """A derivation worked out with these values, for reading."""
        from ... import theory

        return theory.ALL[derivation].working(**self.inputs(derivation, **changed))

    def inputs(self, derivation: str, **changed) -> dict[str, float]:
        """What a derivation asks for, by keyword."""
        from ... import theory

        lines = theory.ALL[derivation].takes
        wanted = [line.keyword for line in lines if line.default is None or line.keyword in self.given]
        return {keyword: changed[keyword] if keyword in changed else getattr(self, keyword) for keyword in wanted}

    def _derived(self, name):
        from ... import theory

        if name == "clamped_fraction":
            return self.clamped_voltage / self.peak_voltage
        derivation = _GIVEN_BY.get(name, name)
        if derivation not in set(theory.ALL):
            raise AttributeError(f"nothing gives {name!r} here")
        return self.using(derivation)
