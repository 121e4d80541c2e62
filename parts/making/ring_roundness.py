"""Is a rolled ring round enough for its disc to go in and its fillet to bridge the gap?"""

from __future__ import annotations

from dataclasses import dataclass

RUNNING_SHARE = 0.005  # of the tread diameter
RUNNING_SOURCE = "0.5 % of the diameter, common practice, no source"
FIT_SOURCE = (
    "a ring bent to an ellipse has its gap a quarter of the difference of the diameters wider and "
    "narrower than the mean: plain geometry; limits of the gap as for the discs"
)


@dataclass(frozen=True)
class RoundnessLimit:
    """Most that largest and smallest diameter may differ by, and what sets it."""

    limit_mm: float
    why: str
    source: str


def roundness_limit(diameter_mm: float, gap_range_mm: tuple[float, float]) -> RoundnessLimit:
    """The lesser of: some disc fits all round, 2 x (greatest - least gap on the radius); the
    wheel runs without hammering."""
    least, greatest = gap_range_mm
    return min(
        RoundnessLimit(2 * (greatest - least), "no disc fits it all round", FIT_SOURCE),
        RoundnessLimit(RUNNING_SHARE * diameter_mm, "the wheel hammers", RUNNING_SOURCE),
        key=lambda limit: limit.limit_mm,
    )


def gap_spread_mm(out_of_round_mm: float) -> float:
    """How far the gap of a round disc in an elliptic ring goes above and below its mean."""
    return out_of_round_mm / 4
