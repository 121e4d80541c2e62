"""Are the vents wide enough for the hollow? Two readings of rules made for long tubes.

Neither rule knows a shallow box. Choice made here: in the hole-size table "the section" is the
clear distance between the discs, because air and zinc cross the box along its depth, and the
holes "at each end" are those of one disc. The stricter reading takes the box's section through
the axle, depth by radial width, and 25 % of its diagonal; holes on one side share the area.
"""

from __future__ import annotations

import math

from platewheel.parts.base.so_many import noun
from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.trying import tried
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.hub_disc import disc_z_mm
from platewheel.parts.wheel.spec import WheelSpec

# section side up to, mm -> least diameter with 1, 2, 4 holes at each end; 0 = not listed
HOLE_TABLE = (
    (15, (8, 0, 0)), (20, (10, 0, 0)), (30, (12, 10, 0)), (40, (14, 12, 0)), (50, (16, 12, 10)),
    (60, (20, 12, 10)), (80, (25, 16, 12)), (100, (30, 25, 14)), (120, (40, 30, 18)),
    (160, (60, 40, 25)), (200, (80, 50, 30)), (250, (120, 80, 50)), (300, (150, 100, 60)),
    (400, (200, 150, 100)), (500, (300, 200, 150)),
)  # fmt: skip
TABLE_SOURCE = "galvanizers' published hole-size table, hollow sections to 2.8 m"
MANUAL = "Galvanizers Association of Australia, design manual, structural hollow sections"
QUARTER = 0.25


def table_hole_mm(section_mm: float, holes: int) -> float | None:
    """Least hole by the table; the row of the next larger section, the column of no more holes.

    Where the table has no such column yet, the one with fewer holes. None above 500 mm.
    """
    column = 0 if holes < 2 else 1 if holes < 4 else 2
    for size, diameters in HOLE_TABLE:
        if section_mm <= size:
            return float(next(d for d in reversed(diameters[: column + 1]) if d))
    return None


def box_depth_mm(spec: WheelSpec) -> float:
    """Clear distance between the discs."""
    return disc_z_mm(spec, "gauge")[0] - disc_z_mm(spec, "field")[1]


def box_width_mm(spec: WheelSpec) -> float:
    """Radial width of the box, hub to ring wall, at its middle."""
    hub = spec.hub_tube_outside_mm if spec.has_tube else spec.hub_bore_mm
    middle = (disc_z_mm(spec, "gauge")[0] + disc_z_mm(spec, "field")[1]) / 2
    return spec.bore_radius_mm(middle) - hub / 2


def _needs_vents(setting: Setting) -> bool:
    return setting.finish.coating == "galvanized" and setting.wheel.vent_count > 0


def vent_table(setting: Setting) -> CheckResult | None:
    """Vent diameter against the table, section = clear distance between the discs."""
    if not _needs_vents(setting):
        return None
    spec, depth = setting.wheel, box_depth_mm(setting.wheel)
    limit = table_hole_mm(depth, spec.vent_count)
    id, title = "vent-table", "Vent hole for the depth of the box"
    if limit is None:
        says = (
            f"the table ends at 500 mm and the discs are {depth:.0f} mm apart: ask the galvanizer"
        )
        return CheckResult(id, title, None, None, "mm", "not-assessed", says, TABLE_SOURCE)
    return judged(
        id,
        title,
        spec.vent_diameter_mm,
        limit,
        "mm",
        f"{TABLE_SOURCE}; section taken as the clear distance between the discs",
        at_most=False,
        good=f"{spec.vent_count} in each disc {noun(spec.vent_count, 'is', 'are')} enough for a "
        f"section of {depth:.0f} mm",
        bad=f"zinc drains too slowly from {depth:.0f} mm: wheel.vent_diameter_mm = {limit:g}",
    )


def vent_diagonal(setting: Setting) -> CheckResult | None:
    """All holes of one side as one, against 25 % of the diagonal of the box's section."""
    if not _needs_vents(setting):
        return None
    spec = setting.wheel
    diagonal = math.hypot(box_depth_mm(spec), box_width_mm(spec))
    holes = 2 * max(1, spec.vent_count // 2)  # high or low as hung, both discs
    as_one = spec.vent_diameter_mm * math.sqrt(holes)
    limit = QUARTER * diagonal
    least = math.ceil(limit / math.sqrt(holes))
    needed = tried(vent_diagonal, setting, "wheel.vent_diameter_mm", least, 1.0, 5)
    # none where there is no room beside rim and hub
    larger = f"wheel.vent_diameter_mm = {needed:g} or " if needed else ""
    more = 2 * math.ceil((limit / spec.vent_diameter_mm) ** 2 / 2 - 1e-9)  # holes go in pairs
    return judged(
        "vent-diagonal",
        "Vents of one side as one hole, stricter rule",
        as_one,
        limit,
        "mm",
        f"{MANUAL}: 25 % of the internal diagonal or equal area; taken of depth x radial width",
        at_most=False,
        good="the vents suit the stricter rule too",
        bad=f"ask the galvanizer, or {larger}wheel.vent_count = {more}: by the "
        f"stricter rule {holes} holes of {spec.vent_diameter_mm:g} mm fill and drain slowly",
        bad_verdict="warn",
    )


CHECKS = (vent_table, vent_diagonal)
