"""Back-to-back gauge: a plug between the flanges, the least length first, then the greatest."""

from __future__ import annotations

from platewheel.parts.gauges.edge import Bite, bite_mm, closed
from platewheel.parts.gauges.gauge import (
    CALIPER,
    LEAST_STEP_MM,
    Gauge,
    Measure,
    Stuff,
    gauge_blank,
    label,
    refuse,
)
from platewheel.parts.setting.setting import Setting

NAME, NUMBER = "gauge-back-to-back", 1
BAND_MM = 25.0  # height of either half: enough to hold and to rock
LEAST_LENGTH_MM = 40.0


def back_to_back_gauge(setting: Setting, stuff: Stuff) -> Gauge:
    """Upper half as long as the least back-to-back, lower half as the greatest; the step is at
    one end, the other end is straight. Raises: SpecError where the two cannot be told apart."""
    low, high = (setting.back_to_back_mm + off for off in setting.back_to_back_off_mm)
    if high - low < LEAST_STEP_MM - 1e-9:
        raise refuse(
            "back_to_back",
            f"wheels that may be {LEAST_STEP_MM:g} mm or more off in all, not {high - low:g}: a "
            "filed gauge tells no less",
            CALIPER,
            {"axle.back_to_back_tolerance_mm": (-0.5, 0.5)},
            {"axle.back_to_back_tolerance_mm": (-LEAST_STEP_MM / 2, LEAST_STEP_MM / 2)},
        )
    if low < LEAST_LENGTH_MM:
        raise refuse(
            "back_to_back",
            f"flanges at least {LEAST_LENGTH_MM:g} mm apart, not {low:.1f}",
            CALIPER,
        )
    band, bite = BAND_MM, bite_mm(stuff, BAND_MM)
    edge = closed(
        [
            (0.0, 0.0),
            (high, 0.0),
            (high, band),
            (low, band),
            Bite((low, band + bite)),
            (low, 2 * band),
            (0.0, 2 * band),
        ]
    )
    quarter = low / 4
    marks = [
        label((quarter, 1.5 * band), f"No. {NUMBER} back to back", 1.8 * quarter, band),
        label((low - quarter, 1.5 * band), f"GO {low:.1f}", 1.8 * quarter, band),
        label((low - quarter, band / 2), f"NO GO {high:.1f}", 1.8 * quarter, band),
    ]
    return Gauge(
        NUMBER,
        "back-to-back gauge",
        gauge_blank(NAME, stuff, edge, marks),
        (Measure("go, least", low), Measure("no-go, greatest", high)),
        "Push it in between the backs of the two flanges towards the axle, at three places a third "
        "of a turn apart: the GO half enters when rocked square, the NO GO half stops on the "
        "flanges. Where GO does not enter, the wheels are too close; where NO GO enters, too far "
        "apart.",
    )
