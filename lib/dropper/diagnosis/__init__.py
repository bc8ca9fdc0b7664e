"""Finding the fault: from readings with their uncertainty to causes with probabilities, and what to measure next.

    from dropper.diagnosis import Observed, diagnose
    found = diagnose(lamp, Observed(voltage=230, current=0.011, power=0.6, power_factor=0.25))
    found.verdict, found.causes[0].why, found.next

Every fault of `transient`, each at a row of amounts, is simulated once for a lamp; mains and tolerances lean on every
reading, meters round and err. Bayes' rule does the rest. Probabilities stand on priors of typical practice, no source;
others can be given. No answer here is a proof that a part is dead or safe.
"""

from .acts import ACTS, HAZARDS, Act, acts_for
from .belief import Belief, believe
from .find import Cause, Diagnosis, diagnose
from .hunt import Hunt
from .indistinct import Pair, indistinguishable
from .information import Worth, next_act, worths
from .observed import Observed
from .predict import Meters
from .prior import WEIGHTS, causes_of, kind_of
from .scoring import Score
from .words import cause_words

__all__ = [
    "ACTS", "HAZARDS", "WEIGHTS", "Act", "Belief", "Cause", "Diagnosis", "Hunt", "Meters", "Observed", "Pair", "Score",
    "Worth",
    "acts_for", "believe", "cause_words", "causes_of", "diagnose", "indistinguishable", "kind_of", "next_act", "worths",
]  # fmt: skip
