"""Are the fillets thick enough to count, and not too thick for the plates they join?"""

from __future__ import annotations

import math

from platewheel.parts.base.units import at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.setting.setting import Setting

LEAST_THROAT_MM = 3.0
MOST_SHARE = 0.7  # of the thinner plate: equal legs then end at its edge


def throat_least(setting: Setting) -> CheckResult:
    """Throat against the least that the design rules count."""
    return judged(
        "throat-least",
        "Fillet throat",
        setting.wheel.weld_throat_mm,
        LEAST_THROAT_MM,
        "mm",
        "EN 1993-1-8:2005, 4.5.2(2)",
        at_most=False,
        good="the fillets are thick enough to count",
        bad=f"too thin a fillet to count as strong: wheel.weld_throat_mm = {LEAST_THROAT_MM:g}",
        bad_verdict="warn",
    )


def throat_most(setting: Setting) -> CheckResult:
    """Throat against 0.7 of the thinnest plate that the fillets join."""
    spec = setting.wheel
    plates = {
        "tread_thickness_mm": spec.tread_thickness_mm,
        "disc_thickness_mm": spec.disc_thickness_mm,
    }
    if spec.has_tube:
        plates["hub tube wall"] = (spec.hub_tube_outside_mm - spec.hub_bore_mm) / 2
    limit = MOST_SHARE * min(plates.values())
    least = math.ceil(10 * spec.weld_throat_mm / MOST_SHARE) / 10
    thin = [name for name, plate in plates.items() if plate < least - 1e-9]
    return judged(
        "throat-most",
        "Fillet throat against the thinnest plate",
        spec.weld_throat_mm,
        limit,
        "mm",
        "common practice, from memory: at most 0.7 of the thinner plate",
        at_most=True,
        good="the plates stand the heat of the fillets",
        bad=f"the fillets burn and warp the plate: wheel.weld_throat_mm = {at_most(limit)} or "
        f"less, or {' and '.join(_told(name, least) for name in thin)}",
        bad_verdict="warn",
    )


def _told(name: str, mm: float) -> str:
    return f"wheel.{name} = {mm:g}" if "_" in name else f"a {name} of {mm:g} mm"


CHECKS = (throat_least, throat_most)
