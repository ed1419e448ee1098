"""How soon the classroom answers in a real browser, drawing and all."""

import statistics

import hands
import pytest

from tests.benchmarks.bench_page import ANSWER_LIMIT, answer_delay

LENGTHS = ("52", "53", "54", "55", "56", "57", "58", "59", "61", "62", "63")


def test_lesson_answers_at_once() -> None:
    """The answer follows the last key of a figure within a quarter of a second."""
    path = hands.chromium_path()
    if path is None:
        pytest.skip("no Chromium found")
    with hands.running_chromium(path) as browser, hands.running_bench() as address:
        page = browser.new_context(viewport=hands.DESK).new_page()
        hands.open_at(page, f"{address}/classroom")
        hands.wait_until_idle(page, 1.0)
        delays = [answer_delay(page, "Focal length f, mm", text) for text in LENGTHS]
    print(f"lesson after the last key: median {statistics.median(delays):.0f}, ", end="")
    print(f"slowest {max(delays):.0f} ms of {len(delays)}")
    assert statistics.median(delays) <= ANSWER_LIMIT
