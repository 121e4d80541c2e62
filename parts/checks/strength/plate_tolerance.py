"""What thickness of steel the load rating took, told to whoever buys and measures it."""

from __future__ import annotations

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.setting.least_wheel import losses
from platewheel.parts.setting.rust import corrosion_mm
from platewheel.parts.setting.setting import Setting

SOURCE = "EN 10029, EN 10051, EN 10058, EN 10210, EN 10255; rust: ISO 9223, ISO 9224, from memory"
ID, TITLE = "plate-tolerance", "Thinnest plate that the load rating takes"


def plate_tolerance(setting: Setting) -> CheckResult:
    """The plates as the rating took them: as thin as their standard lets them be, and rusted."""
    found = losses(setting)
    least = min(loss.least_mm for loss in found)
    bought = ", ".join(
        f"{loss.kind.title} {loss.thickness_mm - loss.tolerance_mm:.3g} mm ({loss.standard})"
        for loss in found
    )
    says = f"rated with {bought}: measure yours, and send back what is thinner"
    rust = corrosion_mm(setting.finish, setting.use.years)
    if rust:
        says += f"; {rust:.2g} mm of each face is left to rust"
    return CheckResult(ID, TITLE, least, None, "mm", "pass", says, SOURCE)
