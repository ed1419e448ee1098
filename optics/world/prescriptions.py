"""Published lenses, face by face, as they were printed; lengths in mm at the printed scale.

Focal length and back focus are those printed with the figures, and a test traces every lens to
them. Faces are counted from the subject; a flat face has an infinite radius.
"""

import math
from dataclasses import dataclass

INF = math.inf


@dataclass(frozen=True)
class Prescription:
    """One published lens.

    `thicknesses` and `indices` lie behind each face (the last index is air); `stop` is how many
    faces stand before the stop and how far behind the last of them it lies; `front_faces` are
    those of the cell that unscrews at the front.
    """

    kind: str
    source: str
    radii: tuple[float, ...]
    thicknesses: tuple[float, ...]
    indices: tuple[float, ...]
    stop: tuple[int, float]
    front_faces: int
    focal_length: float
    back_focus: float | None


TRIPLET = Prescription(
    "triplet, f/4",
    "lens-design course OPTI 517, University of Arizona: its triplet after Geiser, as worked in "
    "the documentation of an open ray-tracing package",
    (23.713, 7331.288, -24.456, 21.896, 86.759, -20.4942),
    (4.831, 5.86, 0.975, 4.822, 3.127),
    (1.691, 1.0, 1.67271, 1.0, 1.691, 1.0),
    (2, 5.86),
    2,
    50.0,
    41.2365,
)
SLOW_TRIPLET = Prescription(
    "triplet, f/8",
    "W. J. Smith, p. 444, a triplet of 100 mm, f/8, 23.4°; indices of its glasses SK4 and FN11",
    (40.1, -537.1, -47.0, 40.0, 234.5, -37.94),
    (6.0, 10.0, 1.0, 10.8, 6.0),
    (1.61272, 1.0, 1.62096, 1.0, 1.61272, 1.0),
    (3, 1.0),
    2,
    100.0,
    85.48,
)
TRIPLET_AND_CEMENTED_PAIR = Prescription(
    "Tessar type, f/2.8",
    "E. Hecht, Optics: the lens of four glasses in three groups; focal length and back focus as "
    "an open ray-tracing package finds them",
    (16.28, -275.7, -34.57, 15.82, INF, 19.2, -24.0),
    (3.57, 1.89, 0.81, 3.25, 2.17, 3.96),
    (1.6116, 1.0, 1.6053, 1.0, 1.5123, 1.6116, 1.0),
    (4, 1.625),
    2,
    50.7885,
    44.0610,
)
DOUBLE_GAUSS = Prescription(
    "double Gauss, f/2",
    "US 4,123,144, example 8 (1976), indices of the d line; focal length and back focus as an "
    "open ray-tracing package finds them",
    (42.71, 195.38, 20.5, INF, 14.94, -14.94, INF, -20.5, INF, -42.71),
    (3.99, 0.2, 7.18, 1.29, 12.96, 1.0, 5.22, 0.2, 3.69),
    (1.72828, 1.0, 1.66755, 1.78472, 1.0, 1.64769, 1.788, 1.0, 1.788, 1.0),
    (5, 5.35),
    5,
    52.087,
    37.424,
)
FAST_DOUBLE_GAUSS = Prescription(
    "double Gauss, f/1.35",
    "US 2,601,805, as W. J. Smith, Modern Lens Design, p. 305, prints it; indices of its glasses",
    (85.5, 408.33, 40.35, 156.05, 25.05, -36.8, 55.0, -51.5, 123.5, -204.96),
    (11.6, 1.5, 17.0, 3.5, 22.0, 3.5, 23.0, 1.0, 17.0),
    (1.744, 1.0, 1.62041, 1.62096, 1.0, 1.68893, 1.744, 1.0, 1.744, 1.0),
    (5, 13.7),
    5,
    100.4,
    55.066,
)
TELEPHOTO = Prescription(
    "telephoto, f/5.6",
    "W. J. Smith, Modern Lens Design, p. 175, a telephoto of two cemented pairs",
    (21.851, -34.546, 108.705, -12.852, 19.813, -20.378),
    (5.008, 1.502, 28.092, 1.502, 5.008),
    (1.529, 1.599, 1.0, 1.613, 1.603, 1.0),
    (3, 1.127),
    3,
    100.0,
    None,
)
ALL = (
    TRIPLET,
    SLOW_TRIPLET,
    TRIPLET_AND_CEMENTED_PAIR,
    DOUBLE_GAUSS,
    FAST_DOUBLE_GAUSS,
    TELEPHOTO,
)
