"""Does the disc still go into the ring when both are as far out as the cutting process allows?"""

from __future__ import annotations

import math

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from platewheel.parts.wheel.tread_ring import tread_blank

SIZES_MM = (10, 35, 125, 315, 1000, 2000)  # columns: from, up to
# class -> (thickness above, up to, limit deviations +- mm by column)
LIMITS: dict[int, tuple[tuple[float, float, tuple[float, ...]], ...]] = {
    1: (
        (3.15, 6.3, (0.25, 0.25, 0.30, 0.40, 0.45)),
        (6.3, 10, (0.30, 0.30, 0.35, 0.45, 0.55)),
        (10, 15, (0.35, 0.40, 0.45, 0.55, 0.65)),
    ),
    2: (
        (3.15, 6.3, (0.9, 0.9, 1.1, 1.2, 1.3)),
        (6.3, 10, (1.1, 1.3, 1.4, 1.5, 1.6)),
        (10, 15, (1.8, 1.8, 1.9, 2.3, 3.0)),
    ),
}
CLASSES = {"laser": 1, "plasma": 2, "oxy-fuel": 2}  # usual class, by a cutting shop
SAWN_MM = 1.0  # bar cut to length, common practice, no source
HAND_MM = 0.2  # on the radius, that a disc ground to its line goes in by hand
HAND_SOURCE = "a disc cut by hand is ground to its line and tried; common practice, no source"
SOURCE = "ISO 9013:2017, limit deviations, usual class 1 (laser), 2 (plasma, oxy-fuel)"


def limit_deviation_mm(tolerance_class: int, thickness_mm: float, size_mm: float) -> float | None:
    """+- deviation of a thermally cut size; None outside the rows listed (3.15 to 15 mm thick,
    10 to 2000 mm). Source: ISO 9013:2017, limit deviations of classes 1 and 2."""
    for above, up_to, deviations in LIMITS.get(tolerance_class, ()):
        if above < thickness_mm <= up_to and SIZES_MM[0] <= size_mm <= SIZES_MM[-1]:
            column = next(i for i, size in enumerate(SIZES_MM[1:]) if size_mm <= size)
            return deviations[column]
    return None


def fit_allowance(setting: Setting) -> CheckResult:
    """Fit clearance on the radius against half the disc's deviation and the ring's own; by hand
    against what a tried disc needs. Its limit is the least gap that a drawn
    disc may have: step and refit judge by it too."""
    spec, process = setting.wheel, setting.process
    id, title = "fit-allowance", "Fit clearance against cutting tolerance"
    if process not in CLASSES:
        return judged(
            id,
            title,
            spec.fit_clearance_mm,
            HAND_MM,
            "mm",
            HAND_SOURCE,
            at_most=False,
            good="cut full, grind to the line and try: the disc goes in by hand",
            bad=f"a disc ground to its line jams: wheel.fit_clearance_mm = {HAND_MM:g}, or grind "
            "each to its ring",
            bad_verdict="warn",
        )
    disc = limit_deviation_mm(
        CLASSES[process], spec.disc_thickness_mm, disc_diameter_mm(spec, "gauge")
    )
    ring = _ring_radius_deviation_mm(setting)
    if disc is None or ring is None:
        says = (
            "the table has no row for this thickness of disc or ring, or size: "
            "ask the cutting shop for its deviation"
        )
        return CheckResult(id, title, None, None, "mm", "not-assessed", says, SOURCE)
    needed = disc / 2 + ring
    return judged(
        id,
        title,
        spec.fit_clearance_mm,
        needed,
        "mm",
        f"{SOURCE}, half on the radius; strip length / 2 pi (sawn bar +-1 mm, no source)",
        at_most=False,
        good="the disc goes in even when disc and ring are out to their limits",
        bad=f"the largest disc does not enter the smallest ring: wheel.fit_clearance_mm = "
        f"{math.ceil(20 * needed) / 20:g}, or measure and grind",
        bad_verdict="warn",
    )


def _ring_radius_deviation_mm(setting: Setting) -> float | None:
    """What the strip's length makes of the bore radius; a pipe is measured before cutting: 0."""
    spec = setting.wheel
    blank = tread_blank(spec)
    if blank is None:
        return 0.0
    if spec.tread_from == "bar":
        return SAWN_MM / (2 * math.pi)
    length = blank.sizes["length_mm"]
    deviation = limit_deviation_mm(CLASSES[setting.process], spec.tread_thickness_mm, length)
    return None if deviation is None else deviation / (2 * math.pi)


CHECKS = (fit_allowance,)
