"""Files of single library items."""

import json

import pytest

from optics.errors import Unreadable
from optics.records.files import write_document
from optics.records.lantern_street import CORVANE
from optics.records.library import CameraItem, ItemDocument, read_item
from tests.optics.records.jobs import job

ITEM = CameraItem(name="Corvane, blue", part=CORVANE)


def test_an_item_is_written_and_read_as_it_was() -> None:
    """An item read back from its file is the one that was written, in every text."""
    assert read_item(write_document(ItemDocument(item=ITEM)).encode()) == ITEM


@pytest.mark.parametrize(
    ("text", "begins"),
    [
        (json.dumps(job()), "The file is not a library item: its “format” must be “shimwright lib"),
        ('{"format": "shimwright library item", "version": 2}', "The library item is of version 2"),
        ('{"format": "shimwright library item", "version": 1}', "In item: this field is missing."),
        ("{", "The library item file is not JSON: "),
        ('{"a": 1e999, "b": NaN}', "The library item file holds NaN, which is not JSON"),
    ],
)
def test_what_is_no_item_is_refused_as_such(text: str, begins: str) -> None:
    """A job, a newer item or damaged text is refused in words that speak of a library item."""
    with pytest.raises(Unreadable) as refused:
        read_item(text.encode())
    assert str(refused.value).startswith(begins)
