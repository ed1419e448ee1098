"""How soon the Rangefinder page answers in a real browser."""

import statistics

import hands
import pytest

from tests.benchmarks.bench_page import ANSWER_LIMIT, answer_delay

PAIRS = "True distance = lens scale when the images meet, m"
NEAREST = ("0.97", "0.98", "0.99", "1.01", "1.02", "1.03", "1.04", "1.05", "1.06", "1.07", "1,1")


def test_set_up_answers_at_once() -> None:
    """Both errors follow the last key of a reading within a quarter of a second."""
    path = hands.chromium_path()
    if path is None:
        pytest.skip("no Chromium found")
    with hands.running_chromium(path) as browser, hands.running_bench() as address:
        page = browser.new_context(viewport=hands.DESK).new_page()
        hands.open_at(page, f"{address}/rangefinder")
        hands.wait_until_idle(page, 1.0)
        texts = [f"∞ = 22, 23, 22.5; 3 m = 2.6; 1 m = {near}" for near in NEAREST]
        delays = [answer_delay(page, PAIRS, text) for text in texts]
    print(f"set up after the last key: median {statistics.median(delays):.0f}, ", end="")
    print(f"slowest {max(delays):.0f} ms of {len(delays)}")
    assert statistics.median(delays) <= ANSWER_LIMIT
