"""From a job whose camera is not told in full to what its readings say so far, also as JSON."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from optics.account import Account
from optics.account.result import AccountOut
from optics.camera.camera import Bed, Camera
from optics.finding.disagreement import Disagreement, disagreements
from optics.measure.uncertainty import Estimate
from optics.moves.turning import sense_of_turn
from optics.readings import first_wording as wording
from optics.readings.directions import Direction
from optics.readings.first_answer import FirstAnswer, Told, Wait, first_answer
from optics.readings.reading_part import ReadingPart
from optics.readings.readings import Reading
from optics.records.accounts import accounts_of, reading_accounts
from optics.records.job import JobDocument
from optics.records.result import DisagreementOut
from optics.records.solve import Solution, described, in_its_place, solve
from optics.records.to_bench import told_of, workshop_of
from optics.typed.result_parts import FigureOut, Out

FirstOrDirection: TypeAlias = FirstAnswer | Direction


@dataclass(frozen=True)
class FirstSolution:
    """A job whose camera lacks figures, and what each of its readings says without them.

    `disagreements` are the answers that cannot both be true.
    """

    job: JobDocument
    told: Told
    answers: tuple[FirstOrDirection, ...]
    disagreements: tuple[Disagreement, ...] = ()

    @property
    def camera(self) -> Camera:
        """The camera as far as it is told, its gaps filled with what does no harm."""
        return self.told.camera


@dataclass(frozen=True)
class _Known:
    """A first answer as far as two of them are compared."""

    camera: Camera
    reading: Reading
    error: Estimate


def answered(job: JobDocument) -> Solution | FirstSolution:
    """The job worked out; where its camera lacks figures, its readings as far as they go alone.

    Errors: as `solve`; Unreadable, naming the figures, for parts that cannot do without them.
    """
    asks_more = (
        job.scale,
        job.rangefinder,
        job.standard,
        job.gate,
        job.witness,
        job.budget,
        job.diagnosis,
    )
    if not job.readings or job.camera is None or any(part is not None for part in asks_more):
        return solve(job)
    told = told_of(described(job))
    if not told.missing:
        return solve(job)
    workshop = workshop_of(job.workshop)
    readings = (part.read(told.camera) for part in job.readings)
    answers = tuple(
        r if isinstance(r, Direction) else first_answer(told, r, workshop) for r in readings
    )
    pairs = zip(job.readings, answers, strict=True)
    known = [_known(job, part, answer) for part, answer in pairs]
    return FirstSolution(job, told, answers, disagreements(known))


def _known(job: JobDocument, part: ReadingPart, answer: FirstOrDirection) -> _Known | None:
    """An answer that can be held against another; None where its figure waits for the camera."""
    if isinstance(answer, Direction) or answer.error is None:
        return None
    error = answer.error
    if not answer.is_spread_known:
        if answer.told.without_tolerance:
            return None
        error = Estimate(error.value)  # What is known of its ± is not all of it.
    reading = in_its_place(job, part, answer.reading)
    return None if reading is None else _Known(answer.told.camera, reading, error)


def told_of_all(solution: Solution | FirstSolution) -> Iterator[Account]:
    """Everything that the job says, however much of its camera is told."""
    if isinstance(solution, FirstSolution):
        return reading_accounts(solution.job, solution.answers)
    return accounts_of(solution)


class ToDoOut(Out):
    """One thing to do, in the shop's units."""

    title: str
    words: str


class WaitOut(Out):
    """Figures of the camera that are still needed, and what they would add."""

    figures: tuple[str, ...]
    adds: str


class FirstAnswerOut(Out):
    """What one reading says so far; null where a figure waits for more of the camera."""

    reading: str
    words: str
    sense: str | None
    error: FigureOut | None = None
    turn: Annotated[
        FigureOut | None, Field(description="rad, plus in the sense that extends the lens")
    ] = None
    turn_sense: str | None = None
    verdict: str | None = None
    to_do: tuple[ToDoOut, ...] = ()
    still_needed: tuple[WaitOut, ...] = ()


class FirstResult(Out):
    """What the readings of a job say before its camera is told in full."""

    format: Literal["shimwright first answer"] = "shimwright first answer"
    version: Literal[1] = 1
    title: str
    camera: str
    answers: tuple[FirstAnswerOut, ...]
    disagreements: Annotated[
        tuple[DisagreementOut, ...], Field(description="to be settled before anything is done")
    ] = ()
    supposed: tuple[str, ...] = ()
    accounts: Annotated[
        tuple[AccountOut, ...],
        Field(description="what is said of each reading, as page, terminal and paper say it"),
    ] = ()


def first_result_of(solution: FirstSolution) -> FirstResult:
    """The first answers as a document."""
    measured = [one for one in solution.answers if isinstance(one, FirstAnswer)]
    return FirstResult(
        title=solution.job.title,
        camera=solution.camera.name,
        answers=tuple(map(_answer, solution.answers)),
        disagreements=tuple(map(DisagreementOut.of, solution.disagreements)),
        supposed=wording.supposed_lines(measured[0]) if measured else (),
        accounts=tuple(map(AccountOut.of, told_of_all(solution))),
    )


def _answer(answer: FirstOrDirection) -> FirstAnswerOut:
    if isinstance(answer, Direction):
        return FirstAnswerOut(reading=answer.kind, words=answer.advice, sense=answer.sense.words)
    return FirstAnswerOut(
        reading=answer.reading.kind,
        words=wording.headline(answer),
        sense=None if answer.sense is None else answer.sense.words,
        error=None if answer.error is None else FigureOut.of(answer.error),
        turn=None if answer.turn is None else FigureOut.of(answer.turn),
        turn_sense=_turn_sense(answer),
        verdict=None if answer.verdict is None else wording.judged(answer),
        to_do=tuple(ToDoOut(title=title, words=words) for title, words in answer.to_do),
        still_needed=tuple(map(_wait, answer.waits)),
    )


def _turn_sense(answer: FirstAnswer) -> str | None:
    """The way round that lens or cell turns against its ring, seen from the front."""
    thread = answer.told.camera.focusing
    if answer.turn is None or isinstance(thread, Bed) or not answer.turn.value:
        return None
    return str(sense_of_turn(thread.extends, answer.turn.value))


def _wait(wait: Wait) -> WaitOut:
    return WaitOut(figures=tuple(map(str, wait.figures)), adds=wait.adds)
