"""Choices that have other words now, so that one kept from before is still the same choice."""

_OLDER = {
    "register, gauged": "register (depth gauge)",
    "off the middle, gauged": "corner depth",
}
_IN_A_NAME = {
    "upper left": "top left",
    "upper right": "top right",
    "lower left": "bottom left",
    "lower right": "bottom right",
}


def word_of_today(chosen: str) -> str:
    """What a choice kept in a draft is called now; itself where it never had another name."""
    today = _OLDER.get(chosen, chosen)
    for older, newer in _IN_A_NAME.items():
        today = today.replace(older, newer)
    return today
