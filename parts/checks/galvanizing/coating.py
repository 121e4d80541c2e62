"""How much zinc does the wheel take, how long does it last, and where must there be none?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.base.so_many import so_many
from platewheel.parts.checks.result import CheckResult, Verdict, judged
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import area_mm2, length_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_sections
from platewheel.parts.wheel.kinds import kinds_of
from platewheel.parts.wheel.own_disc import openings
from platewheel.parts.wheel.spec import WheelSpec

INLAND_LOSS_UM = 2.1  # a year, upper end of corrosivity C3; ISO 9223, from memory
COAST_LOSS_UM = 8.4  # a year, upper end of C5, surf and salt; ISO 9223, from memory


@dataclass(frozen=True)
class Zinc:
    """Least coating of ISO 1461 for a steel thickness; not centrifuged."""

    local_um: float
    mean_um: float
    local_g_m2: float
    mean_g_m2: float


def least_zinc(thickness_mm: float) -> Zinc:
    """Least coating for a steel thickness. Source: EN ISO 1461:2009, table 3."""
    if thickness_mm > 6:
        return Zinc(70, 85, 505, 610)
    if thickness_mm > 3:
        return Zinc(55, 70, 395, 505)
    if thickness_mm >= 1.5:
        return Zinc(45, 55, 325, 395)
    return Zinc(35, 45, 250, 325)


def coated_area_mm2(spec: WheelSpec, disc: Blank | None = None) -> float:
    """Surface of the welded wheel, inside and out, bore and vents included; mm2. `disc` is one of
    the user's own.

    Source: Pappus' theorem on the outline of the whole section. Gaps at the discs' edges count
    on both faces, seams as welded flush.
    """
    from shapely.geometry import Polygon
    from shapely.ops import unary_union

    hair = 1e-4  # joins faces that only touch
    shapes = [
        Polygon(corners).buffer(hair, join_style="mitre")
        for _, corners in wheel_sections(spec, disc)
    ]
    union = unary_union(shapes)
    rings = [
        ring
        for piece in getattr(union, "geoms", [union])
        for ring in (piece.exterior, *piece.interiors)
    ]
    turned = math.fsum(
        math.pi * (a[0] + b[0]) * math.dist(a, b)
        for ring in rings
        for a, b in zip(ring.coords, ring.coords[1:], strict=False)
    )
    if disc is not None:
        return turned + 2 * math.fsum(
            length_mm(hole) * disc.thickness_mm - 2 * area_mm2(hole) for hole in openings(disc)
        )
    hole = spec.vent_diameter_mm
    wall_less_faces = math.pi * hole * (spec.disc_thickness_mm - hole / 2)
    return turned + 2 * spec.vent_count * wall_less_faces


def thinnest_mm(spec: WheelSpec) -> float:
    """Thinnest steel of the wheel."""
    return min(kind.thickness_mm(spec) for kind in kinds_of(spec))


def zinc_mass_kg(spec: WheelSpec, disc: Blank | None = None) -> float:
    """Least zinc on one wheel: mean coating of its thinnest part on all its surface."""
    return coated_area_mm2(spec, disc) * 1e-6 * least_zinc(thinnest_mm(spec)).mean_g_m2 / 1000


def coating_life(setting: Setting) -> CheckResult | None:
    """Years that the least coating lasts inland, against the years to last; not on the tread."""
    if setting.finish.coating != "galvanized":
        return None
    spec = setting.wheel
    zinc = least_zinc(thinnest_mm(spec))
    coast = setting.finish.site == "coast"
    loss = COAST_LOSS_UM if coast else INLAND_LOSS_UM
    years = zinc.mean_um / loss
    disc = setting.disc
    area, mass = coated_area_mm2(spec, disc) * 1e-6, zinc_mass_kg(spec, disc)
    told = f"at least {zinc.mean_um:g} um on {area:.2f} m2, {mass:.2f} kg of zinc a wheel"
    return judged(
        "coating-life",
        "Years the zinc lasts, off the tread",
        years,
        setting.use.years,
        "years",
        f"EN ISO 1461:2009, table 3; loss {loss:g} um a year: ISO 9223, from memory",
        at_most=False,
        good=told,
        bad=f"{told}, gone {so_many(round(setting.use.years - years), 'year')} too early: "
        "paint over it, or take thicker steel, which takes more zinc",
        bad_verdict="warn",
    )


def zinc_in_bore(setting: Setting) -> CheckResult | None:
    """What zinc takes off the bore, and whether the job says how it is cleared."""
    if setting.finish.coating != "galvanized":
        return None
    bore = setting.wheel.hub_bore_mm
    spec = setting.wheel
    wall = (spec.hub_tube_outside_mm - bore) / 2 if spec.has_tube else spec.disc_thickness_mm
    taken = 2 * least_zinc(wall).mean_um / 1000
    rest = "keep threads and earth points free too, and weld nothing afterwards (zinc fume)"
    source = "EN ISO 1461:2009, table 3, on both sides of the bore; practice has no source"
    known = setting.finish.bore != "unknown"
    ways = {"plugged": "plug the bore in the bath", "reamed": "ream the bore after dipping"}
    says = f"zinc would take at least {taken:.2f} mm off the {bore:g} mm bore: "
    says += (
        ways.get(setting.finish.bore, "finish.bore does not say how it is cleared") + f"; {rest}"
    )
    verdict: Verdict = "pass" if known else "not-assessed"
    value = taken if known else None
    return CheckResult("zinc-in-bore", "Zinc in the bore", value, None, "mm", verdict, says, source)


CHECKS = (coating_life, zinc_in_bore)
