"""The helicoid parted and entered again at another thread start."""

from collections.abc import Iterator

from optics.camera.camera import Helicoid, Turn
from optics.camera.cautions import SOLVENTS, SPRINGS
from optics.camera.true_lens import pitch_of
from optics.measure.uncertainty import exact
from optics.moves.record import Case, Control, Move, Outcome, Picture
from optics.moves.ring import is_helicoid
from optics.moves.turning import WAYS, one_does, said_degrees, sense_of_turn
from optics.theory import helicoid
from optics.units import format_length

_CAUTIONS = (SOLVENTS, SPRINGS)


def _controls(case: Case) -> Iterator[Control]:
    focusing, pitch = case.camera.focusing, pitch_of(case.camera)
    if not isinstance(focusing, Helicoid) or not pitch:
        return
    # Entered farther on in the extending sense, the thread has less far to go out.
    out = -pitch if focusing.extends is Turn.CLOCKWISE else pitch
    yield Control(
        "enter the thread",
        "entered the thread",
        "starts",
        WAYS,
        {"start": out},
        0.0,
        one_does("start", "the lens stands", out),
        is_whole=True,
        cautions=_CAUTIONS,
    )


def _make(case: Case) -> Outcome:
    thread, change = case.camera.focusing, case.change
    assert isinstance(thread, Helicoid)
    pitch = helicoid.start_shift.solve_for(helicoid.travel).value(
        starts_moved=1.0, lead=thread.lead, starts=float(thread.starts)
    )
    count = round(change / pitch)
    reason = _no_other_start(thread, change, pitch, count)
    if reason:
        return case.refused(reason)
    # Entered later, at a ring position further on in the extending sense, the thread has
    # turned more by the time the ring is back at its mark, and the lens stands farther in.
    turn = helicoid.start_angle.solve_for(helicoid.rotation).value(
        starts_moved=float(-count), starts=float(thread.starts)
    )
    sense = sense_of_turn(thread.extends, turn)
    starts = f"{abs(count)} start{'s' if abs(count) > 1 else ''}"
    return case.made(
        "Part the helicoid and note where the ring stands as the threads let go; "
        f"enter it again {starts} ({said_degrees(turn)}) further {sense}, seen from the front.",
        abs(count) if sense is Turn.CLOCKWISE else -abs(count),
        exact(count * pitch),
        amounts=(
            ("Move", f"{starts} {sense}"),
            ("One start", format_length(pitch)),
            ("Lens goes", f"{format_length(abs(count) * pitch)} {'out' if count > 0 else 'in'}"),
        ),
        figures={
            "starts": float(count),
            "rotation": turn,
            "sense": str(sense),
            "pitch": pitch,
        },
        notes=(
            "Mark the place of entry before the threads part; put right what remains by "
            "shim or ring.",
        ),
    )


def _no_other_start(thread: Helicoid, change: float, pitch: float, count: int) -> str:
    if thread.starts == 1:
        return "This thread has a single start: there is no other."
    if not count and abs(change) < pitch / 4:
        return (
            f"One start moves the lens {format_length(pitch)}, far more than the error: "
            "the thread is on its right start."
        )
    if not count:
        return f"One start moves the lens {format_length(pitch)}: no other brings it nearer."
    if abs(count) >= thread.starts:
        return (
            f"The error is {abs(count)} starts of {format_length(pitch)}, a whole turn or more: "
            "look for a wrong lens or a slip in the reading first."
        )
    return ""


THREAD_START = Move(
    name="start",
    title="Thread start",
    order=30,
    puts_right=("start",),
    tool="scriber, mark the place where the threads let go",
    controls=_controls,
    make=_make,
    serves=is_helicoid,
    cautions=_CAUTIONS,
    as_remedy=4,
    picture=Picture.TURN,
)
