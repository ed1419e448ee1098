"""A sheet of exercises to work on paper, and the worked answers on pages of their own."""

from collections.abc import Sequence
from datetime import date

from optics.drawing.column import Column
from optics.drawing.flow import Flow
from optics.drawing.lettering import MM_PER_POINT, wrapped
from optics.drawing.page import ACCENT, DARK, MID, PALE, Sheet, paper_named
from optics.errors import OutOfRange
from optics.readings.wording import CONVENTIONS
from optics.teaching.exercises import Exercise

MOST = 30
_TITLE, _TEXT, _FINE = 15.0, 9.4, 7.4
# Room to work in under each question, ruled faintly every so many mm.
_RULED, _LINES = 6.6, 3
_STEP = _TEXT * 1.32 * MM_PER_POINT


def exercise_sheet(
    exercises: Sequence[Exercise],
    *,
    made: date,
    with_answers: bool,
    title: str = "",
    page_size: str = "A4",
    made_by: str = "",
) -> Sheet:
    """Questions with room to work in and, if wanted, every answer with its working after them.

    All exercises of one series; its seed stands in the heading, so that a lost sheet can be
    made again. The same arguments give the same sheet.
    Errors: OutOfRange for an unknown paper, no exercise, or more than 30.
    """
    if not 1 <= len(exercises) <= MOST:
        raise OutOfRange(
            f"A sheet holds from 1 to {MOST} exercises: got {len(exercises)}; ask for another "
            "number.",
            quantity="exercises",
            value=len(exercises),
            limit=(1, MOST),
        )
    said = _said(exercises)
    heading = title.strip() or "Exercises"
    sheet = Sheet(
        paper_named(page_size),
        title=f"{heading}: {said}",
        made=made,
        made_by=made_by,
        conventions=CONVENTIONS,
    )
    flow = Flow(sheet, f"{heading} · {said}")
    _head(flow, heading, said)
    for number, one in enumerate(exercises, start=1):
        _question(flow, number, one)
    if with_answers:
        sheet.next_page()
        flow = Flow(sheet, f"Answers · {said}")
        _answers_head(flow, said)
        for number, one in enumerate(exercises, start=1):
            _answer(flow, number, one)
    return sheet


def _said(exercises: Sequence[Exercise]) -> str:
    """Topic, level and seed, as a class says which sheet it has."""
    topics = list(dict.fromkeys(one.topic for one in exercises))
    about = str(topics[0]) if len(topics) == 1 else "several topics"
    # Each exercise's own seed is the series' with its number after the last stroke.
    seed = exercises[0].seed.rpartition("/")[0] or exercises[0].seed
    return f"{about}, level {exercises[0].level}, seed {seed}"


def _head(flow: Flow, heading: str, said: str) -> None:
    sheet = flow.sheet
    head = Column(sheet, sheet.left, sheet.top - 1, sheet.right - sheet.left)
    head.say(heading, _TITLE, bold=True, most=1)
    head.say(said, _TEXT, bold=True, ink=ACCENT)
    head.say(
        "The cameras and all figures are invented. A figure read off may be out by half its last "
        "digit; an answer is right to half the last digit asked for, and what that leaves open.",
        _FINE,
        ink=DARK,
    )
    y = head.y + 7
    for x, words in ((sheet.left, "Name"), (sheet.left + 120, "Date")):
        sheet.text(x, y, words, _TEXT, ink=DARK)
        end = sheet.left + 112 if words == "Name" else sheet.right
        sheet.line((x + 13, y + 0.6), (end, y + 0.6), ink=MID, width=0.2)
    flow.y = y + 3


def _question(flow: Flow, number: int, one: Exercise) -> None:
    asked = len(wrapped(one.question, flow.width - 1.2, _TEXT))
    flow.section(f"{number}  {one.title}", room=5 + asked * _STEP + _RULED * (_LINES + 1))
    flow.say(one.question, _TEXT)
    for _ in range(_LINES):
        flow.y += _RULED
        flow.sheet.line((flow.x, flow.y), (flow.sheet.right, flow.y), ink=PALE)
    flow.y += _RULED
    words = one.answer.words
    flow.sheet.text(flow.x, flow.y, f"{words[:1].upper()}{words[1:]}:", _TEXT, bold=True)
    ends = (flow.sheet.right - 70, flow.y + 0.6), (flow.sheet.right, flow.y + 0.6)
    flow.sheet.line(*ends, ink=MID, width=0.25)
    flow.y += 1.6


def _answers_head(flow: Flow, said: str) -> None:
    sheet = flow.sheet
    head = Column(sheet, sheet.left, sheet.top - 1, sheet.right - sheet.left)
    head.say("Answers", _TITLE, bold=True, most=1)
    head.say(said, _TEXT, bold=True, ink=ACCENT)
    flow.y = head.y + 1


def _answer(flow: Flow, number: int, one: Exercise) -> None:
    flow.section(f"{number}  {one.title}", room=20)
    flow.say(one.answer.printed, _TEXT + 1, bold=True)
    for line in one.working:
        flow.say(line, _FINE)
    allowed = one.answer.amount(one.answer.tolerance, one.answer.places + 1)
    flow.say(f"Right within ± {allowed}.", _FINE, ink=DARK)
    flow.gap(1)
