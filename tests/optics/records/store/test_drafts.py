"""Drafts: whatever stands in the fields survives a reload, readable or not."""

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import NotKept
from optics.records.store import Store

anything_typed = st.dictionaries(
    st.text(max_size=20),
    st.text(max_size=60) | st.booleans() | st.none() | st.lists(st.text(max_size=9), max_size=4),
    max_size=6,
)


@settings(max_examples=40, deadline=None)
@given(typed=anything_typed)
def test_a_draft_comes_back_as_it_was(shared_store: Store, typed: dict[str, Any]) -> None:
    """Whatever is typed comes back, half a figure and odd signs too."""
    shared_store.save_draft("page", typed)
    assert shared_store.draft("page") == typed


def test_drafts_stand_side_by_side_and_the_last_one_counts(store: Store) -> None:
    """Each key has its own draft, the latest of its texts; one that is dropped is gone."""
    store.save_draft("a", {"focal_length": "4"})
    store.save_draft("b", {"focal_length": "75 mmm"})
    store.save_draft("a", {"focal_length": "47"})
    assert [key for key, _ in store.drafts()] == ["a", "b"]
    assert store.draft("a") == {"focal_length": "47"}
    store.drop_draft("a")
    assert (store.draft("a"), store.draft("b")) == (None, {"focal_length": "75 mmm"})


@pytest.mark.parametrize(
    "odd", [math.nan, math.inf, object(), {1, 2}], ids=["nan", "inf", "object", "set"]
)
def test_what_no_field_can_hold_is_refused(odd: Any, store: Store) -> None:
    """A draft with what no field can hold is refused, and the one before it stays."""
    store.save_draft("a", {"x": "1"})
    with pytest.raises(NotKept, match="this one cannot be kept"):
        store.save_draft("a", {"x": odd})
    assert store.draft("a") == {"x": "1"}


def test_a_draft_has_its_limit(store: Store) -> None:
    """A draft larger than any job is refused in a sentence."""
    with pytest.raises(NotKept, match=r"A draft may take at most 1,000,000 bytes: got 1,"):
        store.save_draft("a", {"x": "1" * 1_000_000})
    assert store.drafts() == []


some_fields = st.dictionaries(st.sampled_from("abcd"), st.text(max_size=9) | st.none())


@settings(max_examples=40, deadline=None)
@given(changes=st.lists(some_fields, max_size=5))
def test_fields_are_changed_and_forgotten_one_by_one(
    shared_store: Store, changes: list[dict[str, str | None]]
) -> None:
    """Merging leaves the fields it does not name, whatever signs their texts hold."""
    shared_store.drop_draft("merged")
    expected: dict[str, str | None] = {}
    for change in changes:
        shared_store.merge_draft("merged", change)
        expected |= change
    kept = {name: text for name, text in expected.items() if text is not None}
    assert (shared_store.draft("merged") or {}) == kept


def test_a_draft_that_grows_too_large_stays_as_it_was(store: Store) -> None:
    """The field that would make a draft too large is refused, and those before it stay."""
    store.merge_draft("a", {"x": "1" * 600_000})
    with pytest.raises(NotKept, match="A draft may take at most"):
        store.merge_draft("a", {"y": "1" * 600_000})
    assert list(store.draft("a") or {}) == ["x"]
