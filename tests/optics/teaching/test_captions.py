"""The classroom captions are short, whole sentences."""

import pytest

from optics.teaching.captions import CAPTIONS


@pytest.mark.parametrize("key", CAPTIONS)
def test_captions_are_short_sentences(key: str) -> None:
    """Every caption is under 170 characters and ends with a full stop."""
    text = CAPTIONS[key]
    assert len(text) < 170
    assert text.endswith(".")
    assert key.split(".")[0] in {"standard", "gate", "witness", "budget"}
