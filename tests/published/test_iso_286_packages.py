"""ISO 286 limits of size of every zone that an axle's fits use, against two PyPI packages: isofits
1.0 (each zone's limits as printed) and pressfit 0.1.0 (made of grade and deviation; s6 is of it
alone). Read once by `python -m tests.bench.read_iso_286`: where both have a zone they agree. The
figures stand here, the packages are not needed."""

from __future__ import annotations

from itertools import pairwise

import pytest

from platewheel.parts.wheelset.iso_fits import limits

SIZES_MM = (6, 10, 18, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180)
LISTED = {  # zone -> lower and upper deviation, um, for sizes up to and including those above
    "k6": (
        (1, 9),
        (1, 10),
        (1, 12),
        (2, 15),
        (2, 18),
        (2, 18),
        (2, 21),
        (2, 21),
        (3, 25),
        (3, 25),
        (3, 28),
        (3, 28),
        (3, 28),
    ),
    "h6": (
        (-8, 0),
        (-9, 0),
        (-11, 0),
        (-13, 0),
        (-16, 0),
        (-16, 0),
        (-19, 0),
        (-19, 0),
        (-22, 0),
        (-22, 0),
        (-25, 0),
        (-25, 0),
        (-25, 0),
    ),
    "h9": (
        (-30, 0),
        (-36, 0),
        (-43, 0),
        (-52, 0),
        (-62, 0),
        (-62, 0),
        (-74, 0),
        (-74, 0),
        (-87, 0),
        (-87, 0),
        (-100, 0),
        (-100, 0),
        (-100, 0),
    ),
    "f7": (
        (-22, -10),
        (-28, -13),
        (-34, -16),
        (-41, -20),
        (-50, -25),
        (-50, -25),
        (-60, -30),
        (-60, -30),
        (-71, -36),
        (-71, -36),
        (-83, -43),
        (-83, -43),
        (-83, -43),
    ),
    "p6": (
        (12, 20),
        (15, 24),
        (18, 29),
        (22, 35),
        (26, 42),
        (26, 42),
        (32, 51),
        (32, 51),
        (37, 59),
        (37, 59),
        (43, 68),
        (43, 68),
        (43, 68),
    ),
    "s6": (
        (19, 27),
        (23, 32),
        (28, 39),
        (35, 48),
        (43, 59),
        (43, 59),
        (53, 72),
        (59, 78),
        (71, 93),
        (79, 101),
        (92, 117),
        (100, 125),
        (108, 133),
    ),
    "H7": (
        (0, 12),
        (0, 15),
        (0, 18),
        (0, 21),
        (0, 25),
        (0, 25),
        (0, 30),
        (0, 30),
        (0, 35),
        (0, 35),
        (0, 40),
        (0, 40),
        (0, 40),
    ),
    "H8": (
        (0, 18),
        (0, 22),
        (0, 27),
        (0, 33),
        (0, 39),
        (0, 39),
        (0, 46),
        (0, 46),
        (0, 54),
        (0, 54),
        (0, 63),
        (0, 63),
        (0, 63),
    ),
    "F8": (
        (10, 28),
        (13, 35),
        (16, 43),
        (20, 53),
        (25, 64),
        (25, 64),
        (30, 76),
        (30, 76),
        (36, 90),
        (36, 90),
        (43, 106),
        (43, 106),
        (43, 106),
    ),
    "N7": (
        (-16, -4),
        (-19, -4),
        (-23, -5),
        (-28, -7),
        (-33, -8),
        (-33, -8),
        (-39, -9),
        (-39, -9),
        (-45, -10),
        (-45, -10),
        (-52, -12),
        (-52, -12),
        (-52, -12),
    ),
}


@pytest.mark.parametrize("zone", LISTED)
def test_every_range_of_every_zone_used(zone: str) -> None:
    overs = (3, *SIZES_MM)
    for (over, to), listed in zip(pairwise(overs), LISTED[zone], strict=True):
        for size in (over + 0.001, (over + to) / 2, to):
            assert [1000 * x for x in limits(size, zone)] == pytest.approx(listed), (size, zone)
