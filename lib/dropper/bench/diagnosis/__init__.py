"""Finding the fault: from readings with their uncertainty to causes with probabilities, and what to measure next.

    from dropper.bench.diagnosis import Observed, diagnose
    found = diagnose(lamp, Observed(voltage=230, current=0.011, power=0.6, power_factor=0.25))
    found.verdict, found.causes[0].why, found.next

Every fault of `transient`, each at a row of amounts, is simulated once for a lamp; mains and tolerances lean on every
reading, meters round and err. Bayes' rule does the rest. Probabilities stand on priors of typical practice, no source;
others can be given. No answer here is a proof that a part is dead or safe.
"""

from .ambiguity import Pair, indistinguishable
from .diagnose import Cause, Diagnosis, diagnose
from .evidence import Observed
from .hunt import Hunt
from .information import Worth, next_act, worths
from .measurements import ACTS, HAZARDS, Act, acts_for
from .posterior import Belief, believe
from .prediction import Meters
from .prior import WEIGHTS, causes_of, kind_of
from .scoring import Score
from .wording import cause_words

__all__ = [
    "ACTS",
    "HAZARDS",
    "WEIGHTS",
    "Act",
    "Belief",
    "Cause",
    "Diagnosis",
    "Hunt",
    "Meters",
    "Observed",
    "Pair",
    "Score",
    "Worth",
    "acts_for",
    "believe",
    "cause_words",
    "causes_of",
    "diagnose",
    "indistinguishable",
    "kind_of",
    "next_act",
    "worths",
]
