"""The figures of a camera that may not be told yet."""

from enum import StrEnum


class Missing(StrEnum):
    """A figure of the camera that may not be told yet, in words."""

    FOCAL_LENGTH = "focal length"
    FULL_APERTURE = "full aperture"
    CONFUSION = "circle of confusion"
    LEAD = "lead"
