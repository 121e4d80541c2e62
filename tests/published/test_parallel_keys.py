"""Parallel keys (ISO 773, DIN 6885 part 1) against the PyPI packages bd-warehouse 0.4.0 (axles of
10 to 50 mm, depths too) and melib 1.1.1 (up to 130 mm, after Mott, table 11-1). Read once by
`python -m tests.bench.read_keys`; the figures stand here, the packages are not needed. Depths for
axles over 50 mm are in neither."""

from __future__ import annotations

import pytest

from platewheel.parts.wheelset.wheel_holding import key_for

LISTED = [  # axle, width, height, depth in the axle, depth in the hub, mm
    (10, 3, 3, 1.8, 1.4),
    (11, 4, 4, 2.5, 1.8),
    (12, 4, 4, 2.5, 1.8),
    (13, 5, 5, 3, 2.3),
    (14, 5, 5, 3, 2.3),
    (15, 5, 5, 3, 2.3),
    (16, 5, 5, 3, 2.3),
    (17, 5, 5, 3, 2.3),
    (18, 6, 6, 3.5, 2.8),
    (20, 6, 6, 3.5, 2.8),
    (22, 6, 6, 3.5, 2.8),
    (24, 8, 7, 4, 3.3),
    (25, 8, 7, 4, 3.3),
    (26, 8, 7, 4, 3.3),
    (28, 8, 7, 4, 3.3),
    (30, 8, 7, 4, 3.3),
    (32, 10, 8, 5, 3.3),
    (34, 10, 8, 5, 3.3),
    (35, 10, 8, 5, 3.3),
    (36, 10, 8, 5, 3.3),
    (38, 10, 8, 5, 3.3),
    (40, 12, 8, 5, 3.3),
    (42, 12, 8, 5, 3.3),
    (44, 12, 8, 5, 3.3),
    (46, 14, 9, 5.5, 3.8),
    (48, 14, 9, 5.5, 3.8),
    (50, 14, 9, 5.5, 3.8),
]
BY_RANGE = [  # axle over, up to, width, height, mm
    (10, 12, 4, 4),
    (12, 17, 5, 5),
    (17, 22, 6, 6),
    (22, 30, 8, 7),
    (30, 38, 10, 8),
    (38, 44, 12, 8),
    (44, 50, 14, 9),
    (50, 58, 16, 10),
    (58, 65, 18, 11),
    (65, 75, 20, 12),
    (75, 85, 22, 14),
    (85, 95, 25, 14),
    (95, 110, 28, 16),
    (110, 130, 32, 18),
]


@pytest.mark.parametrize(("axle", "width", "height", "in_axle", "in_hub"), LISTED)
def test_key_and_keyway(
    axle: float, width: float, height: float, in_axle: float, in_hub: float
) -> None:
    key = key_for(axle)
    assert (key.width_mm, key.height_mm) == (width, height)
    assert (key.axle_depth_mm, key.hub_depth_mm) == (in_axle, in_hub)


@pytest.mark.parametrize(("over", "to", "width", "height"), BY_RANGE)
def test_key_of_a_range(over: float, to: float, width: float, height: float) -> None:
    for axle in (over + 0.01, to):
        key = key_for(axle)
        assert (key.width_mm, key.height_mm) == (width, height), axle
