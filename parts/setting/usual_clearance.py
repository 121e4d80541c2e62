"""What is usual by gauge: how much an axle may move between the rails, how wide flangeways are."""

from __future__ import annotations

import math
from itertools import pairwise

# gauge, mm -> total play of new wheels at the middle of what the standard allows, mm
USUAL_PLAY_MM = (
    (45.0, 2.25),  # G1MRA standard: 45, back to back 40 +0.5, flange 1.5 -0.5
    (184.15, 1.78),  # IBLS wheel standard (1974), 7 1/4 in: over both flanges 182.63 -0.51
    (600.0, 10.0),  # KBO 1912, paragraph 31: back to back 540, flanges 20 to 30
    (1435.0, 10.0),  # EBO annex 6 (1991): 1410 to 1426 over the flanges, new ones at 1425
)
# gauge, mm -> flangeway beside the nose of a crossing, mm
USUAL_FLANGEWAY_MM = (
    (45.0, 2.8),  # NEM 310 (1977), most
    (184.0, 8.0),  # NEM 110G (2013), most
    (260.0, 11.5),  # the same
    (600.0, 32.0),  # KBO 1912, least
    (1000.0, 41.0),  # the same
)
FLANGE_ROOM_MM = 5.0  # over the flange; common practice, no source
LEAST_PLAY_MM = 2.0  # left in the tightest place; common practice, no source
LEAST_PLAY_SHARE = 1.52 / 184.15  # IBLS wheel standard, 7 1/4 in: 184.15 less 182.63
BACK_TO_BACK_MM = 1.0  # either side, shims on a bench; common practice, no source
SMALL_BACK_TO_BACK_MM = 0.5  # IBLS wheel standard, 7 1/4 in: +0.51


def published_play_mm(gauge_mm: float) -> float:
    """Play of new wheels by published standards, in straight lines between their gauges; level
    beyond them."""
    return _between(USUAL_PLAY_MM, gauge_mm)


def usual_flangeway_mm(gauge_mm: float, flange_mm: float, backs_mm: float = 0.0) -> float:
    """Flangeway to lay where the job says none: as published, and no less than the flange, root to
    back, and some room, or than the backs of the flanges leave; up to the next millimetre."""
    published = _between(USUAL_FLANGEWAY_MM, gauge_mm)
    return float(math.ceil(max(published, flange_mm + FLANGE_ROOM_MM, backs_mm) - 1e-9))


def _between(table: tuple[tuple[float, float], ...], gauge_mm: float) -> float:
    if gauge_mm <= table[0][0]:
        return table[0][1]
    for (low, less), (high, more) in pairwise(table):
        if gauge_mm <= high:
            return less + (more - less) * (gauge_mm - low) / (high - low)
    return table[-1][1]


def least_play_mm(gauge_mm: float) -> float:
    """What must be left in the tightest gauge with the wheels widest apart."""
    return min(LEAST_PLAY_MM, LEAST_PLAY_SHARE * gauge_mm)


def usual_play_mm(gauge_mm: float, tight_mm: float) -> float:
    """Play to set where the job says none: as published, and never so little that a gauge and
    wheels tighter by `tight_mm` than nominal bind; up to the next half millimetre, from 300 mm of
    gauge the next whole one."""
    step = 1.0 if gauge_mm >= 300 else 0.5
    play = max(published_play_mm(gauge_mm), least_play_mm(gauge_mm) + tight_mm)
    return step * math.ceil(play / step - 1e-9)
