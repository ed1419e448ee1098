"""The one family of errors that Shimwright raises on purpose.

Every message is one sentence a repairer can act on: the quantity in words, the
limit, the value got, the unit, and what to do.
"""

from typing import Any


class ShimwrightError(ValueError):
    """Base of all deliberate refusals; carries what was wrong as data too.

    `general` is the example that a reader offers whatever it is asked to read; a field that
    knows what is asked offers its own in its place.
    """

    def __init__(
        self,
        message: str,
        *,
        quantity: str = "",
        value: Any = None,
        limit: Any = None,
        general: str = "",
    ) -> None:
        super().__init__(message)
        self.quantity = quantity
        self.value = value
        self.limit = limit
        self.general = general


class OutOfRange(ShimwrightError):
    """A number outside the range in which its quantity, or the relation, has a meaning."""


class NoAnswer(ShimwrightError):
    """The inputs are each in range but together admit no answer."""


class Unreadable(ShimwrightError):
    """Text, or a document, that cannot be understood without guessing."""


class NotKept(ShimwrightError):
    """What was to be kept could not be written; what was there before is as it was."""
