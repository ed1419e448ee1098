"""All readings of a camera weighed together: which faults they show, and what they leave open.

One model says what each reading would show on a faulty camera (`predict`); everything else is
its inverse. What can be wrong, and where it shows, stands in `optics.finding.causes`.
"""

from optics.finding.diagnosis.diagnose import Diagnosis, diagnose
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.forward import predict
from optics.finding.diagnosis.next_reading import Gain
from optics.finding.diagnosis.priors import Priors, usual_priors

__all__ = [
    "Diagnosis",
    "Faults",
    "Gain",
    "Priors",
    "diagnose",
    "predict",
    "usual_priors",
]
