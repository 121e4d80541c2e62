"""What the shop makes holes with by hand."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.nesting.by_hand.hole_ways import HoleTools


def hole_tools(job: Job) -> HoleTools:
    """Hole saws and the largest drill of [shop]."""
    return HoleTools(job.shop.hole_saws_mm or (), job.shop.most_drill_mm)
