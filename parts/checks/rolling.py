"""Can the strip be rolled to this ring, and does the developed length hold?"""

from __future__ import annotations

from parts.checks.result import CheckResult, judged
from parts.checks.setting import Setting

LEAST_RATIO = 5.0  # mid-surface development holds above it


def ring_curvature(setting: Setting) -> CheckResult | None:
    """Mid radius over wall; below 5 the neutral line leaves the middle of the plate."""
    spec = setting.wheel
    if spec.tread_from == "pipe":
        return None
    ratio = (spec.outside_radius_mm(0) - spec.tread_thickness_mm / 2) / spec.tread_thickness_mm
    return judged(
        "ring-curvature",
        "Ring radius over wall",
        ratio,
        LEAST_RATIO,
        "",
        "common practice, no source: developed on the mid-surface for radius / wall from 5",
        at_most=False,
        good="the strip length pi (D - t) holds",
        bad="the strip comes out long: roll a trial ring first, or take a thinner wall",
        bad_verdict="warn",
    )
