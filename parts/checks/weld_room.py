"""Is there room for each bead that the spec asks for?"""

from __future__ import annotations

from parts.checks.result import CheckResult, judged
from parts.checks.setting import Setting
from parts.welds import bead_words, missing_beads, weld_beads


def weld_room(setting: Setting) -> CheckResult:
    """Shortest leg of any bead as a share of the leg asked for."""
    spec = setting.wheel
    beads = (*missing_beads(spec), *weld_beads(spec))
    worst = min(beads, key=lambda bead: min(bead.legs_mm) / bead.wanted_mm)
    leg = min(worst.legs_mm)
    return judged(
        "weld-room",
        "Leg that fits the tightest bead",
        leg,
        worst.wanted_mm,
        "mm",
        "EN 1993-1-8:2005, 4.5: fillet of throat a has legs a x 1.414; geometry of this wheel",
        at_most=False,
        good="every bead has room for its full legs",
        bad=f"the {bead_words(worst.name)} has room for {leg:.1f} of {worst.wanted_mm:.1f} mm: "
        + _cure(worst.name),
        bad_verdict="warn",
    )


def _cure(bead: str) -> str:
    if bead == "weld-root":
        return "thicker ring and flange, or a smaller root_weld_mm"
    return "move the disc or the tube's end, or ask for a smaller weld_throat_mm"


CHECKS = (weld_room,)
