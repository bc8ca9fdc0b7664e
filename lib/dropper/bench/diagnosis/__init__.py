"""Fault finding: from readings with their uncertainty to causes with probabilities, and what to measure next.

    from dropper.bench.diagnosis import Evidence, diagnose
    diagnosis = diagnose(lamp, Evidence(voltage=230, current=0.011, power=0.6, power_factor=0.25))
    diagnosis.verdict, diagnosis.causes[0].why, diagnosis.next

Every fault of `transient`, each at a row of amounts, is simulated once for a lamp; mains and tolerances lean on every
reading, meters round and err. Bayes' rule does the rest. Probabilities stand on priors of typical practice, no source;
others can be given. No answer here is a proof that a part is dead or safe.
"""

from .ambiguity import CausePair, indistinguishable
from .diagnose import Cause, Diagnosis, diagnose
from .evidence import Evidence
from .hunt import Hunt
from .information import InformationGain, information_gains, next_measurement
from .measurements import HAZARDS, MEASUREMENTS, Measurement, measurements_for
from .meters import Meters
from .posterior import Posterior, posterior_of
from .prior import WEIGHTS, causes_of, kind_of
from .scoring import Score
from .wording import cause_words

__all__ = [
    "HAZARDS",
    "MEASUREMENTS",
    "WEIGHTS",
    "Cause",
    "CausePair",
    "Diagnosis",
    "Evidence",
    "Hunt",
    "InformationGain",
    "Measurement",
    "Meters",
    "Posterior",
    "Score",
    "cause_words",
    "causes_of",
    "diagnose",
    "indistinguishable",
    "information_gains",
    "kind_of",
    "measurements_for",
    "next_measurement",
    "posterior_of",
]
