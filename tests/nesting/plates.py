"""Blanks and plates for the nesting tests, and a polygon library's word on distances.

The reference (shapely, on fine facets) shares no code with `nesting.geometry.gaps`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import shapely

from platewheel.nesting.stock.layout import Layout, Placement, Sheet
from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.geometry.blank import Blank, MarkText, annular_sector
from platewheel.parts.geometry.outline import Arc, Circle, Line, Loop, Segment, moved, polygon

SAG_MM = 1e-4  # how far the reference's chords lie off their arcs
COARSE_SAG_MM = 5e-4  # the same for parts on plates
SLOT = polygon([(-20.0, -6.0), (20.0, -6.0), (20.0, 6.0), (-20.0, 6.0)])
NAMED = Blank(  # with words of its own above and below its bore
    "hub",
    "disc",
    6.0,
    Circle((0.0, 0.0), 60.0),
    (Circle((0.0, 0.0), 12.0),),
    (MarkText((0.0, 32.0), "hub", 6.0), MarkText((0.0, -32.0), "d 120.0", 6.0)),
)


def disc(diameter_mm: float, name: str = "disc", holes: tuple[Loop, ...] = ()) -> Blank:
    return Blank(name, "disc", 6.0, Circle((0.0, 0.0), diameter_mm / 2), holes)


def strip(length_mm: float, width_mm: float, name: str = "tread") -> Blank:
    corners = [(0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm)]
    return Blank(name, "tread", 6.0, polygon(corners))


def sector(inner_mm: float, outer_mm: float, sweep_deg: float, name: str = "flange") -> Blank:
    edge = annular_sector(inner_mm, outer_mm, sweep_deg)
    return Blank(name, "flange", 6.0, edge, many_turns=True)


def tapered(length_mm: float, width_mm: float, radius_mm: float, name: str = "tread") -> Blank:
    """A slightly bent strip, as a tread with a taper: middle of its inner arc on the origin."""
    sweep = math.degrees(length_mm / (radius_mm + width_mm / 2))
    edge = moved(
        annular_sector(radius_mm, radius_mm + width_mm, sweep), 0.0, -radius_mm, 90 - sweep / 2
    )
    return Blank(name, "tread", 6.0, edge)


def plate(length_mm: float, width_mm: float, **more: object) -> Sheet:
    about: dict = {"name": f"{width_mm:g} x {length_mm:g}", "count": None, "price": 0.0} | more
    return Sheet(thickness_mm=6.0, length_mm=length_mm, width_mm=width_mm, **about)


def offcut(
    name: str,
    edge: list[tuple[float, float]],
    holes: tuple[tuple[tuple[float, float], ...], ...] = (),
) -> Sheet:
    length, width = max(x for x, _ in edge), max(y for _, y in edge)
    return plate(length, width, name=name, count=1, edge=tuple(edge), holes=holes)


def cutting(spacing_mm: float = 6.0, margin_mm: float = 10.0, **more: object) -> Cutting:
    about: dict = {"kerf_mm": 1.5} | more
    return Cutting(part_spacing_mm=spacing_mm, sheet_margin_mm=margin_mm, **about)


def along(segment: Segment, sag_mm: float = SAG_MM) -> Iterator[tuple[float, float]]:
    """Points on a segment from its start on, the end left out; from centre and angles alone."""
    if isinstance(segment, Line):
        yield segment.start
        return
    step_deg = math.degrees(2 * math.acos(1 - sag_mm / max(segment.radius_mm, 2 * sag_mm)))
    count = max(2, math.ceil(abs(segment.sweep_deg) / step_deg))
    for i in range(count):
        turn = math.radians(segment.start_deg + segment.sweep_deg * i / count)
        yield (
            segment.centre[0] + segment.radius_mm * math.cos(turn),
            segment.centre[1] + segment.radius_mm * math.sin(turn),
        )


def faceted(loop: Loop, sag_mm: float = SAG_MM) -> shapely.Polygon:
    """The loop as a fine polygon with its corners on the true curve."""
    ring = (Arc(loop.centre, loop.radius_mm, 0.0, 360.0),) if isinstance(loop, Circle) else loop
    return shapely.Polygon([point for segment in ring for point in along(segment, sag_mm)])


def on_plate(placement: Placement, sag_mm: float = COARSE_SAG_MM) -> shapely.Polygon:
    """A placed blank as a fine polygon, turned and moved by the reference itself."""
    holes = [faceted(hole, sag_mm) for hole in placement.blank.holes]
    shape = faceted(placement.blank.outline, sag_mm).difference(shapely.union_all(holes))
    turned = shapely.affinity.rotate(shape, placement.rotation_deg, origin=(0, 0))
    return shapely.affinity.translate(turned, placement.x_mm, placement.y_mm)


def steel(sheet: Sheet) -> shapely.Polygon:
    """The plate, its holes out."""
    if sheet.edge is None:
        return shapely.box(0, 0, sheet.length_mm, sheet.width_mm)
    return shapely.Polygon(sheet.edge, sheet.holes)


def assert_sound(layout: Layout, spacing_mm: float, margin_mm: float) -> None:
    """By the reference: every part on the plate, margins and spacing held within 2 micrometres."""
    shapes = [on_plate(p) for p in layout.placements]
    whole = steel(layout.sheet)
    for i, shape in enumerate(shapes):
        assert whole.contains(shape), f"part {i} off the plate"
        assert whole.boundary.distance(shape) >= margin_mm - 2e-3
        around = shapely.box(*shape.bounds).buffer(spacing_mm)
        for other in shapes[:i]:
            if around.intersects(shapely.box(*other.bounds)):
                assert shape.distance(other) >= spacing_mm - 2e-3
