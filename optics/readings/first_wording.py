"""First answers in the words a repairer uses, the same on the page and at the terminal."""

from collections.abc import Iterable

from optics.camera import supposed
from optics.camera.camera import Bed
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict
from optics.readings import wording
from optics.readings.first_answer import FirstAnswer, Wait, said_names
from optics.readings.missing import Missing
from optics.readings.readings import Judged, Sense
from optics.readings.remedies.turning import said_degrees, sense_of_turn
from optics.units import format_length

STILL_NEEDED = "Still needed"


def headline(answer: FirstAnswer) -> str:
    """The one sentence that answers, and what it leaves open."""
    return f"{found(answer)}, {known(answer)}."


def found(answer: FirstAnswer) -> str:
    """What was found, without how well it is known."""
    lens = "" if answer.error is None else f"The lens is {wording.said_error(answer.error)}"
    back = _turn_back(answer)
    if lens or back:
        return f"{lens}: {back[0].lower()}{back[1:]}" if lens and back else lens or back
    if answer.sense is None:
        return "The ring alone is to be set right"
    return f"The lens is {answer.sense.words}"


def known(answer: FirstAnswer) -> str:
    """How well that is known, or which figures it waits for."""
    figure = answer.turn if answer.error is None else answer.error
    if figure is None and answer.sense is Sense.RIGHT:
        return f"± not known until {_told(answer.waits[0].figures)}"
    if figure is None:
        return f"by how much is not known until {_told(answer.waits[0].figures)}"
    is_gauged = answer.reading.judged is Judged.BY_GAUGE
    if answer.is_spread_known or is_gauged or not answer.lacking_for_eye:
        return _said_spread(answer, figure)
    return f"± not known until {_told(answer.lacking_for_eye)}"


def _said_spread(answer: FirstAnswer, figure: Estimate) -> str:
    if answer.error is not None or not figure.standard:
        return wording.said_uncertainty(figure)
    return f"± {said_degrees(figure.expanded)} at 95 %"


def _turn_back(answer: FirstAnswer) -> str:
    """The turn of a ring to what stands at its own mark; empty for any other reading."""
    thread = answer.told.camera.focusing
    if answer.turn is None or isinstance(thread, Bed) or answer.reading.turned_back is None:
        return ""
    if answer.sense is Sense.RIGHT:
        return "The ring is right as it was read" if answer.error is None else ""
    back = sense_of_turn(thread.extends, answer.turn.value).opposite
    return f"Turn the ring {said_degrees(answer.turn.value)} back ({back}, seen from the front)"


def verdict_line(answer: FirstAnswer) -> str:
    """How the error stands to the tolerance, or that no tolerance is known yet."""
    if answer.verdict is None:
        return "No verdict yet: it waits for the figures below."
    allowed = format_length(answer.told.camera.allowed_error, places=3)
    held = f"{judged(answer).words.capitalize()}: allowed ± {allowed}."
    return " ".join((held, *_rests_on(answer)))


def _rests_on(answer: FirstAnswer) -> Iterable[str]:
    """What the ± rests on, once it is known."""
    if answer.error is None or not answer.is_spread_known:
        return ()
    return wording.rests_on(answer.told.camera, answer.reading, answer.error)


def judged(answer: FirstAnswer) -> Verdict:
    """The verdict as it may be shown: none is proved while the ± is not known."""
    if answer.verdict is None or not answer.is_spread_known:
        return Verdict.NOT_STATED
    return answer.verdict


def advice(answer: FirstAnswer) -> str:
    """What comes before anything is done; empty where the lens is out, or nobody can tell yet."""
    return wording.FIRST_OF_ALL.get(judged(answer), "")


def wait_line(wait: Wait) -> str:
    """One line of what is still needed."""
    return f"{said_names(wait.figures).capitalize()}: {wait.adds}."


def supposed_lines(answer: FirstAnswer) -> tuple[str, ...]:
    """What is supposed of the camera, once its focal length says what is usual."""
    told = answer.told
    return supposed.supposed_lines(told.camera) if Missing.FOCAL_LENGTH in told.has else ()


def _told(figures: Iterable[str]) -> str:
    names = tuple(figures)
    return f"the {said_names(names)} {'are' if len(names) > 1 else 'is'}"
