"""How far a pierce keeps off: steel is blown away about it before the cut runs.

A pierce makes a hole about twice as wide as the kerf and throws slag about it. It is laid where the
trade would have it, GOOD, and where parts lie too close for that, at the least that leaves the
finished edge whole. Both: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.base.spec_model import unchecked

GOOD_MM, GOOD_SHARE = 5.0, 1.5  # from other parts, and times the thickness
SLACK_MM = 0.02  # parts as polygons are that much larger at the most
LEAST_SHARE = {"plasma": 0.25, "laser": 0.1, "oxy-fuel": 0.5, "hand": 0.0}  # of the thickness


def pierce_clear_mm(cutting: Cutting, thickness_mm: float) -> float:
    """Least from a pierce's centre to its own finished edge and to the kerf of any other cut:
    given, or the kerf's width and no less than a share of the thickness by the process; of leads
    that are shorter, their length."""
    if cutting.pierce_clear_mm is not None:
        return cutting.pierce_clear_mm
    usual = max(cutting.kerf_mm, LEAST_SHARE[cutting.process] * thickness_mm)
    return min(usual, cutting.lead_in_mm or usual)


def good_clear_mm(cutting: Cutting, thickness_mm: float) -> float:
    """What is looked for first, to other parts."""
    return max(GOOD_MM, GOOD_SHARE * thickness_mm, pierce_clear_mm(cutting, thickness_mm))


def led_spacing_mm(cutting: Cutting, thickness_mm: float) -> float:
    """How far apart parts are laid: as the job says, or as far as a pierce between two needs where
    leads are wanted: one kerf beside it and clear on both sides."""
    if not cutting.lead_in_mm:
        return cutting.spacing_in(thickness_mm)
    need = 2 * (pierce_clear_mm(cutting, thickness_mm) + SLACK_MM) + cutting.kerf_mm
    return max(cutting.part_spacing_mm, need)


def laid_for_leads(cutting: Cutting, thickness_mm: float) -> Cutting:
    """The cutting with that spacing."""
    apart = led_spacing_mm(cutting, thickness_mm)
    return unchecked(cutting, {"part_spacing_mm": apart})


def spacing_words(cutting: Cutting, thickness_mm: float, names: Sequence[str]) -> list[str]:
    """What is told of these parts before anything is laid; nothing where all leads go."""
    apart, asked = led_spacing_mm(cutting, thickness_mm), cutting.part_spacing_mm
    clear = pierce_clear_mm(cutting, thickness_mm)
    if not cutting.lead_in_mm or cutting.lead_in_mm + cutting.kerf_mm <= asked:
        return []
    words = (
        f"{thickness_mm:g} mm: lead_in_mm {cutting.lead_in_mm:g} and the kerf of "
        f"{cutting.kerf_mm:g} mm exceed part_spacing_mm {asked:g}: where parts lie side by side "
        f"leads are shorter or slanted ({', '.join(names)})"
    )
    if apart > asked:
        words += (
            f"; they are laid {apart:g} mm apart, so that each pierce keeps {clear:g} mm clear; "
            f"set part_spacing_mm = {apart:g}, or a smaller pierce_clear_mm"
        )
    return [words]
