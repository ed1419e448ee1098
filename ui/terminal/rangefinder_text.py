"""A rangefinder's answer as lines of plain text."""

from optics.camera.cautions import LOCAL_RULES
from optics.measure.uncertainty import Estimate
from optics.rangefinder import set_up_wording as words
from optics.rangefinder import wording
from optics.rangefinder.set_up import Bench, SetUp, near_advice


def rangefinder_blocks(
    bench: Bench, found: SetUp | None, lens: Estimate | None = None
) -> list[list[str]]:
    """What was found and what to turn, where to set near, what the base can tell, cautions.

    `lens` is by how much the lens was read to be outside its tolerance at infinity.
    """
    near = near_advice(bench) if found is None else found.where
    return [
        *([] if found is None else _set_up_blocks(found, lens)),
        ["Where to set near", *(f"- {line}" for line in wording.near_lines(near))],
        ["What the base can tell", *(f"- {line}" for line in words.base_lines(bench))],
        [
            "Take care",
            *(f"- {caution.text}" for caution in wording.CAUTIONS),
            f"- {LOCAL_RULES}",
        ],
    ]


def _set_up_blocks(found: SetUp, lens: Estimate | None) -> list[list[str]]:
    rounds = (words.round_line(found, number) for number in range(len(found.states)))
    first = [words.headline(found), wording.goal_line(found.bench.goal, words.verdict(found))]
    return [
        first if lens is None else [*first, words.lens_first_line(lens)],
        ["Next", *(f"- {line}" for line in words.next_lines(found))],
        ["What is to change", *(f"- {line}" for line in words.found_lines(found))],
        ["Rounds so far", *(f"- {line}" for line in rounds)],
        [wording.CONVENTIONS, words.SCALE_FIRST],
    ]
