"""The causes: one file each with all that is known of it, found by being in this folder.

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

(common practice, no source; the reason stands beside each record). The rangefinder's follower
rides on the lens: its images meet at one place of the lens whatever the ring says there, so
ring, start and seat show as an error of the setting that is read off the ring; zero and gain of
the coupling show nowhere else.
"""

from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior, Steps
from optics.finding.causes.record import Adjustment, Blocked, Cause
from optics.finding.causes.registry import (
    ALL,
    AT,
    IN_ORDER,
    NAMES,
    Vector,
    disturbed_by,
    find,
    named,
    owner_of,
    places,
)

find(__name__, list(__path__))

__all__ = [
    "ALL",
    "AT",
    "IN_ORDER",
    "NAMES",
    "Adjustment",
    "BenchStep",
    "Blocked",
    "Cause",
    "Prior",
    "Steps",
    "Vector",
    "disturbed_by",
    "named",
    "owner_of",
    "places",
]
