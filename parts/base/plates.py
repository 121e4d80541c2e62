"""Thicknesses in which plate and flat bar are sold, so that no 7.35 mm is advised."""

from __future__ import annotations

import math

from platewheel.parts.base.units import MM_PER_INCH

PLATES_MM = (  # thicknesses that dealers keep: common practice, from memory, no source
    *(1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0),
    *(15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0),
)
SIXTEENTHS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 28, 32)  # of an inch; as above
INCH_PLATES_MM = tuple(round(MM_PER_INCH * one / 16, 4) for one in SIXTEENTHS)
# widths of flat bar, EN 10058:2018, from memory
BARS_MM = (10, 12, 15, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120, 150)
BAR_STEP_INCH = 0.25  # common practice, no source
NEAR_MM = 0.06  # 1/4 in is written 6.35 or 6.3


def plates_from(least_mm: float, like_mm: float) -> tuple[float, ...]:
    """Plates sold at least as thick, the thinnest first: inch ones where `like_mm`, the plate
    there is, is one of those and no metric one."""
    inch = any(abs(like_mm - one) <= NEAR_MM for one in INCH_PLATES_MM)
    series = INCH_PLATES_MM if inch and like_mm not in PLATES_MM else PLATES_MM
    return tuple(one for one in series if one >= least_mm - 1e-9)


def plate_from(least_mm: float, like_mm: float) -> float:
    """The thinnest of them; the thickness itself beyond all that are sold."""
    return next(iter(plates_from(least_mm, like_mm)), least_mm)


def thicker_plates(now_mm: float) -> tuple[float, ...]:
    """Plates sold that are thicker than the one there is."""
    return tuple(one for one in plates_from(now_mm, now_mm) if one > now_mm + NEAR_MM)


def bar_width_from(least_mm: float, like_mm: float) -> float:
    """The narrowest flat bar sold that is so wide, in quarters of an inch where `like_mm`, the bar
    there is, is one of those; the width itself beyond all that are sold."""
    step = MM_PER_INCH * BAR_STEP_INCH
    if abs(like_mm - step * round(like_mm / step)) <= NEAR_MM and like_mm not in BARS_MM:
        return round(step * math.ceil((least_mm - NEAR_MM) / step), 4)
    return next((float(one) for one in BARS_MM if one >= least_mm), least_mm)
