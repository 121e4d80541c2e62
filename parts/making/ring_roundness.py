"""Is a rolled ring round enough for its disc to go in and its fillet to bridge the gap?

One border: job sheet, refit and its choices all ask `roundness_limit`.
"""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.checks.making.tolerance import fit_allowance
from platewheel.parts.checks.making.weld_access import fillet_gap
from platewheel.parts.setting.setting import Setting

RUNNING_SHARE = 0.005  # of the tread diameter
RUNNING_SOURCE = "0.5 % of the diameter, common practice, no source"
FIT_SOURCE = (
    "a ring bent to an ellipse has its gap a quarter of the difference of the diameters wider and "
    "narrower than the mean: plain geometry; limits of the gap as for the discs"
)
SPREAD = 4  # difference of the diameters over what the gap gains or loses: see FIT_SOURCE


@dataclass(frozen=True)
class RoundnessLimit:
    """Most that largest and smallest diameter may differ by, and what sets it. Beyond it the ring
    is pressed round before a disc goes in; it is not lost."""

    limit_mm: float
    why: str
    source: str

    def passed_by(self, out_of_round_mm: float | None) -> bool:
        """Whether a ring is beyond it; never by what was not measured."""
        return out_of_round_mm is not None and out_of_round_mm > self.limit_mm + 1e-9


def disc_gap_range_mm(setting: Setting) -> tuple[float, float]:
    """Least and greatest gap on the radius between disc and ring: the limits of `fit-allowance`
    (cutting tolerance) and of `fillet-gap` (what the fillets bridge). The job's own
    fit_clearance_mm is always allowed."""
    fit = setting.wheel.fit_clearance_mm
    needed, bridged = fit_allowance(setting).limit, fillet_gap(setting).limit
    least = fit if needed is None else min(fit, needed)
    return least, fit if bridged is None else max(fit, bridged)


def roundness_limit(setting: Setting) -> RoundnessLimit:
    """The lesser of: some disc fits all round, 2 x (greatest - least gap on the radius); the
    wheel runs without hammering."""
    least, greatest = disc_gap_range_mm(setting)
    most = SPREAD * (greatest - least) / 2
    running = RUNNING_SHARE * setting.wheel.tread_diameter_mm
    return min(
        RoundnessLimit(most, "no disc fits it all round", FIT_SOURCE),
        RoundnessLimit(running, "the wheel hammers", RUNNING_SOURCE),
        key=lambda limit: limit.limit_mm,
    )


def drawn_disc_takes_mm(setting: Setting) -> float:
    """Difference of the diameters at which the drawn disc jams, or its fillet falls through, if
    the ring is not pressed; never more than the border. Source: see FIT_SOURCE."""
    fit = setting.wheel.fit_clearance_mm
    room = min(fit, disc_gap_range_mm(setting)[1] - fit)
    return min(SPREAD * room, roundness_limit(setting).limit_mm)


def gap_spread_mm(out_of_round_mm: float) -> float:
    """How far the gap of a round disc in an elliptic ring goes above and below its mean."""
    return out_of_round_mm / SPREAD
