"""Selection: the least kind that would pass, and resistors in series where one does not."""

from collections.abc import Sequence

from ...circuit.lamp import Lamp, value_at
from ...components import kinds
from ...components.kinds import Chain, Kind, Stress
from ...components.kinds.capacitors import AcrossTheMains
from ...components.kinds.diodes import RectifierDiode
from ...components.kinds.rating import Use
from .placement import allowed, families, family_of
from .stress import PartStress
from .verdicts import checks_of, passes


def least(lamp: Lamp, part: str, stresses: Sequence[PartStress], use: Use, start: str = "") -> Chain | Kind | None:
    """The least kind that passes, from the family that is in place or the usual ones.

    Parameters
    ----------
    stresses
        Of this part.
    start
        A family to look in first, "" for the usual ones.

    Returns
    -------
    Chain, Kind or None
        None where none that is kept here passes.
    """
    names = dict.fromkeys([*([start] if start else []), *families(lamp, part)])
    for family in names:
        demand = _demand(lamp, part, _placed(lamp, part, kinds.FAMILIES[family][-1]), stresses, use)
        for kind in _upward(lamp, part, family, demand):
            if passes(checks_of(lamp, part, kind, stresses, use)):
                return kind
    return None


def largest(lamp: Lamp, part: str) -> AcrossTheMains | RectifierDiode:
    """The last kind that a part is proposed from, for figures where none passes; None for LEDs."""
    names = families(lamp, part)
    return _placed(lamp, part, kinds.FAMILIES[names[-1]][-1]) if names else None


def _upward(lamp, part, family, demand):
    """Kinds that stand a stress, going up; where none does, resistors in series."""
    members = kinds.FAMILIES[family]
    try:
        first = kinds.next_up(family, demand)
    except ValueError:
        chain = _in_series(lamp, part, members, demand)
        return [] if chain is None else [chain]
    return [_placed(lamp, part, member) for member in members[members.index(first) :] if member.withstands(demand)]


def _placed(lamp, part, kind):
    return Chain(kind, 1, value_at(lamp, part)) if isinstance(kind, kinds.Resistor) else kind


def _demand(lamp, part, kind, stresses, use):
    """What the ratings of a kind would have to be, as a `Stress`."""
    demands = {}
    for check in checks_of(lamp, part, kind, stresses, use):
        rule = allowed(lamp, part, kind, check.quantity, use)
        if rule is not None and rule.rating:
            demands[rule.rating] = max(check.needed, demands.get(rule.rating, 0.0))
    return Stress(**demands)


def _in_series(lamp, part, members, demand):
    """The fewest resistors in series that pass, of the least kind; None where there are none."""
    if not isinstance(members[0], kinds.Resistor):
        return None
    chains = []
    for member in members:
        try:
            chains.append(kinds.chain(member, value_at(lamp, part), demand))
        except ValueError:
            continue
    return min(chains, key=lambda chain: chain.count) if chains else None


def start_of(kind: RectifierDiode | None) -> str:
    """The family to look in first: that of what is fitted; "" for none, or where its family is not for the mains."""
    return "" if kind is None or isinstance(kind, kinds.DcFilm) else family_of(kind)
