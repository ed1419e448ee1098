"""What holds for every part of a job."""

import json
from typing import Any

import pytest

from optics.errors import Unreadable
from optics.records.files import read_job, write_job
from tests.optics.records.bench_jobs import (
    BUDGET,
    GATE,
    STANDARD,
    WITNESS,
    everything,
)


def test_job_keeps_what_was_typed() -> None:
    """Written and read again, every text of all four parts is as it was typed."""
    job = everything().job
    again = json.loads(write_job(read_job(write_job(job).encode())))
    parts = {"standard": STANDARD, "gate": GATE, "witness": WITNESS, "budget": BUDGET}
    for name, typed in parts.items():
        assert typed.items() <= again[name].items()


@pytest.mark.parametrize(
    ("part", "field", "text"),
    [
        ("standard", "depths", "top left = 1,200.5"),
        ("standard", "frame", "84"),
        ("gate", "channel", "0.2 ±"),
        ("witness", "marks", "A: 0"),
        ("standard", "gauge", "0.1"),
        ("budget", "terms", {"shutter": "0.1"}),
    ],
)
def test_bad_part_is_refused_with_its_place(part: str, field: str, text: Any) -> None:
    """A text that cannot be read, or a field that is not known, is refused where it stands."""
    parts = {"standard": STANDARD, "gate": GATE, "witness": WITNESS, "budget": BUDGET}
    document = json.loads(write_job(everything().job))
    document[part] = parts[part] | {field: text}
    with pytest.raises(Unreadable, match=f"In {part}"):
        read_job(json.dumps(document).encode())
