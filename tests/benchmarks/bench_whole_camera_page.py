"""How soon the Whole camera page answers in a real browser."""

import statistics

import hands
import pytest

from tests.benchmarks.bench_page import ANSWER_LIMIT, answer_delay

SHARP_AT = "4 really sharp at, m"
TEXTS = ("1.61", "1.62", "1.63", "1.64", "1.65", "1.66", "1.67", "1.68", "1.69", "1.7", "1,71")


def test_the_plan_answers_at_once() -> None:
    """Diagnosis and plan follow the last key of a reading within a quarter of a second."""
    path = hands.chromium_path()
    if path is None:
        pytest.skip("no Chromium found")
    with hands.running_chromium(path) as browser, hands.running_bench() as address:
        page = browser.new_context(viewport=hands.DESK).new_page()
        hands.open_at(page, f"{address}/whole_camera")
        hands.wait_until_idle(page, 1.0)
        delays = [answer_delay(page, SHARP_AT, text) for text in TEXTS]
    print(f"plan after the last key: median {statistics.median(delays):.0f}, ", end="")
    print(f"slowest {max(delays):.0f} ms of {len(delays)}")
    assert statistics.median(delays) <= ANSWER_LIMIT
