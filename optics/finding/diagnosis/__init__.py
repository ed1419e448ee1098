"""All readings of a camera weighed together: which faults they show, and what they leave open.

One model says what each reading would show on a faulty camera (`predict`); everything else is
its inverse. Which fault disturbs which reading (common practice, no source):

| fault | gauge | stop | ∞ mark | near mark | rangefinder | gate |
|---|---|---|---|---|---|---|
| seat (shim) | yes | yes | yes | yes | yes | no |
| thread start | no | yes | yes | yes | yes | no |
| scale ring | no | no | yes | yes | yes | no |
| infinity stop | no | yes | no | no | no | no |
| focal length | no | no | no | yes | no | no |
| squareness (off centre) | yes | yes | yes | yes | no | no |
| film gate (on film) | yes | yes | yes | yes | no | yes |
| rangefinder zero | no | no | no | no | yes | no |
| rangefinder gain | no | no | no | no | yes | no |

The reasons. A shim holds the whole lens out, so the seat shows everywhere. On a wrong start
the barrel stands a whole number of pitches off at every turn of the ring, and the body gauge
does not see it. The scale ring is clamped to the barrel, the stop acts on the barrel itself: a
slipped ring shifts every mark alike and leaves the stop; a moved stop leaves the marks. A
focal length other than the engraved one is set right with infinity and falls short in
proportion to the extension a near subject calls for. A standard out of square leaves the
centre alone. The gate puts the film elsewhere than the ground glass, and alone shows where
rails and film are gauged. The rangefinder's follower rides on the lens: its images meet at one
place of the lens whatever the ring says there, so ring, start and seat show as an error of the
setting that is read off the ring; zero and gain of the coupling show nowhere else.
"""

from optics.finding.diagnosis.diagnose import Diagnosis, diagnose
from optics.finding.diagnosis.evidence import DISTURBED_BY, Reading, Spot, disturbing
from optics.finding.diagnosis.faults import Cause, Faults
from optics.finding.diagnosis.forward import predict
from optics.finding.diagnosis.next_reading import Candidate, Gain
from optics.finding.diagnosis.priors import Prior, Priors, usual_priors

__all__ = [
    "DISTURBED_BY",
    "Candidate",
    "Cause",
    "Diagnosis",
    "Faults",
    "Gain",
    "Prior",
    "Priors",
    "Reading",
    "Spot",
    "diagnose",
    "disturbing",
    "predict",
    "usual_priors",
]
