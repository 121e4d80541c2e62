"""Which hollows does the welded wheel close, and can each breathe in the zinc bath?

Found in the wheel's own section, beads included, with slits of less than 2 mm counted as closed:
zinc and slag bridge them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.base.units import at_most
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.geometry.section import RZ, revolved_volume_mm3
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_sections
from platewheel.parts.wheel.hub_disc import SIDES, disc_diameter_mm, disc_z_mm
from platewheel.parts.wheel.spec import WheelSpec

SLIT_MM = 2.0
HAIR_MM = 1e-3  # joins faces that only touch
LEAST_AREA_MM2 = 2.0  # of a hollow's section; smaller is the nook of two faces, rounded off
OVERLAP_MM2 = 40_000.0
BATH = (
    "galvanizer's venting notice: bath about 450 degC, trapped water grows about 1750 times, "
    "pressures to 50 N/mm2"
)


@dataclass(frozen=True)
class Hollow:
    """A hollow that turns about the axis and has no way out in the wheel's section."""

    corners: tuple[RZ, ...]
    vented: bool

    @property
    def volume_mm3(self) -> float:
        return revolved_volume_mm3(self.corners)


def closed_hollows(spec: WheelSpec) -> tuple[Hollow, ...]:
    """Every hollow that plates and beads close; `vented` where vent holes open it."""
    from shapely.geometry import Polygon
    from shapely.ops import unary_union

    shapes = [Polygon(corners) for _, corners in wheel_sections(spec)]
    grown = unary_union([shape.buffer(SLIT_MM / 2) for shape in shapes])
    pieces = getattr(grown, "geoms", [grown])
    filled = unary_union([Polygon(piece.exterior) for piece in pieces]).buffer(-SLIT_MM / 2)
    steel = unary_union([shape.buffer(HAIR_MM) for shape in shapes])
    solid = getattr(steel, "geoms", [steel])
    closed = unary_union([Polygon(ring) for piece in solid for ring in piece.interiors])
    void = filled.difference(steel)
    hollows = []
    for region in getattr(void, "geoms", [void]):
        wide = not region.buffer(-SLIT_MM / 2).is_empty  # an open slit alone holds no bath
        if region.area >= LEAST_AREA_MM2 and (wide or region.intersects(closed)):
            outline = region.buffer(HAIR_MM, join_style="mitre").exterior
            corners = tuple((float(r), float(z)) for r, z in outline.coords[:-1])
            hollows.append(Hollow(corners, _has_vents(spec, corners)))
    return tuple(hollows)


def _has_vents(spec: WheelSpec, corners: tuple[RZ, ...]) -> bool:
    """Whether the vents of a disc open into a hollow: it lies beside the disc, over the holes."""
    if spec.vent_count == 0:
        return False
    circle = spec.vent_circle_mm / 2
    if not min(r for r, _ in corners) < circle < max(r for r, _ in corners):
        return False
    low, high = min(z for _, z in corners), max(z for _, z in corners)
    return any(low - SLIT_MM <= z <= high + SLIT_MM for s in SIDES for z in disc_z_mm(spec, s))


def sealed_hollow(setting: Setting) -> CheckResult | None:
    """Number of hollows without any opening, of a wheel that is galvanized."""
    if setting.finish.coating != "galvanized":
        return None
    hollows = closed_hollows(setting.wheel)
    sealed = [hollow for hollow in hollows if not hollow.vented]
    litres = sum(hollow.volume_mm3 for hollow in sealed) / 1e6
    cure = "set wheel.vent_count = 2 or more with wheel.vent_circle_mm near the ring wall"
    if setting.disc:
        cure = "draw two openings or more into the disc (disc.file), opposite, near the ring wall"
    elif _sealed_by_inside_beads(setting.wheel):
        cure = "wheel.first_disc_both_sides = false, as its beads close the gaps beside the disc, "
        cure += 'or finish.coating = "painted"'
    return judged(
        "sealed-hollow",
        "Hollows without any opening",
        len(sealed),
        0,
        "hollows",
        f"{BATH}; hollows found in the wheel's section",
        at_most=True,
        good=f"every hollow is open ({len(hollows)} closed by welds, vented)",
        bad=f"SEALED HOLLOW OF {litres:.3f} LITRES: IT EXPLODES IN THE ZINC BATH AND KILLS; {cure}",
    )


def _sealed_by_inside_beads(spec: WheelSpec) -> bool:
    """Whether every sealed hollow is a gap between the two beads of the first disc."""
    if not spec.first_disc_both_sides:
        return False
    outside = unchecked(spec, {"first_disc_both_sides": False})
    return all(hollow.vented for hollow in closed_hollows(outside))


def overlap(setting: Setting) -> CheckResult | None:
    """Largest pair of faces that lie closer than a slit, under the fillets of the discs."""
    if setting.finish.coating != "galvanized":
        return None
    spec = setting.wheel
    rim = max(disc_diameter_mm(spec, side) for side in SIDES)
    area = math.pi * max(rim, spec.hub_tube_outside_mm) * spec.disc_thickness_mm
    return judged(
        "overlap",
        "Largest pair of faces with a narrow gap",
        area / 100,
        OVERLAP_MM2 / 100,
        "cm2",
        "galvanizers' guidance on contacting surfaces: vent above 200 x 200 mm",
        at_most=True,
        good="no overlap is large enough to burst; acid may still weep from the gaps at the discs",
        bad="the faces between disc and ring hold acid: drill the ring there, or "
        f"wheel.disc_thickness_mm = {at_most(spec.disc_thickness_mm * OVERLAP_MM2 / area)}",
        bad_verdict="warn",
    )


CHECKS = (sealed_hollow, overlap)
