"""What leads must be, by a polygon library that shares no code with the search for room."""

from __future__ import annotations

import math

import pytest
import shapely

from platewheel.nesting.cutting.part_cuts import Cut, PartCuts, SheetCuts
from platewheel.nesting.stock.cutting import Cutting
from platewheel.nesting.stock.layout import Layout, Placement
from platewheel.nesting.stock.pierce_clear import pierce_clear_mm
from platewheel.parts.geometry.outline import (
    Arc,
    Circle,
    Line,
    Segment,
    area_mm2,
    length_mm,
    segments,
    signed_area_mm2,
)
from tests.nesting.plates import (
    along,
    faceted,
    on_plate,
    steel,
)

SAG_MM = 5e-3  # how far the reference's chords lie off their arcs
CLOSE = 2 * SAG_MM


def placed_steel(placement: Placement) -> shapely.Polygon:
    """A placed blank, its holes out, as fine as leads are looked at."""
    return on_plate(placement, SAG_MM)


def drawn(segment: Segment) -> shapely.LineString:
    return shapely.LineString([*along(segment, SAG_MM), segment.end])


def leads(cut: Cut) -> list[Segment]:
    return [lead for lead in (cut.lead_in, cut.lead_out) if lead is not None]


def direction(segment: Segment, *, at_end: bool) -> tuple[float, float]:
    """Unit vector of travel at one end."""
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        return (bx - ax) / segment.length_mm, (by - ay) / segment.length_mm
    turn = math.radians(segment.start_deg + (segment.sweep_deg if at_end else 0))
    sign = math.copysign(1.0, segment.sweep_deg)
    return -sign * math.sin(turn), sign * math.cos(turn)


def cross(a: tuple[float, float], b: tuple[float, float]) -> float:
    return a[0] * b[1] - a[1] * b[0]


def assert_shapes(cut: Cut, wanted: Cutting, *, shortened: bool = False) -> None:
    """Line square to the cut and of the length; arc a quarter turn of that radius, smooth."""
    ring = segments(cut.path)
    for lead, joint, length in (
        (cut.lead_in, ring[0], wanted.lead_in_mm),
        (cut.lead_out, ring[-1], wanted.lead_out_mm),
    ):
        if lead is None:
            continue
        into = lead is cut.lead_in
        meets = (lead.end, joint.start) if into else (joint.end, lead.start)
        assert meets[0] == pytest.approx(meets[1], abs=1e-7)
        run = direction(joint, at_end=not into)
        mine = direction(lead, at_end=into)
        tip = lead.start if into else lead.end
        aside = (tip[0] - meets[0][0], tip[1] - meets[0][1])
        assert cross(run, aside) > 0  # the scrap is on the left
        if isinstance(lead, Arc):
            assert lead.sweep_deg == pytest.approx(90)
            assert mine == pytest.approx(run, abs=1e-7)
            size = lead.radius_mm
        else:
            size = lead.length_mm
            square = run[0] * mine[0] + run[1] * mine[1]
            slants = [math.cos(math.radians(deg)) for deg in (90, 60, 45, 30)]
            known = slants if into and shortened else [0.0 if into else math.sqrt(0.5)]
            assert any(square == pytest.approx(one, abs=1e-7) for one in known)
        assert size <= length + 1e-9
        if not shortened:
            assert size == pytest.approx(length)


def assert_leads_clear(done: SheetCuts, layout: Layout, cut: Cutting) -> None:
    clear = max(cut.kerf_mm, 0.5)
    shapes = {p: placed_steel(p) for p in layout.placements}
    whole = steel(layout.sheet)
    laid: list[shapely.LineString] = []
    for part in done.parts:
        own = faceted(part.placement.outline, SAG_MM)
        for one in part.cuts:
            for lead in leads(one):
                line = drawn(lead)
                assert whole.contains(line)
                assert whole.boundary.distance(line) >= clear - CLOSE
                for other in layout.placements:
                    if other != part.placement:
                        assert shapes[other].distance(line) >= clear - CLOSE
                tip = shapely.Point(lead.start if lead is one.lead_in else lead.end)
                assert shapes[part.placement].distance(tip) > 0.2 * line.length
                assert own.contains(tip) == (one.layer == "cut-hole")
                if lead is one.lead_in:
                    assert_pierce_clear(tip, part, one, shapes, cut)
        # the two leads at the start of a cut meet there; all others keep clear
        mine = [drawn(lead) for one in part.cuts for lead in leads(one)]
        for i, line in enumerate(mine):
            for before in (*laid, *mine[:i]):
                meet = line.boundary.distance(before.boundary) < 1e-6 and before in mine
                assert meet or line.distance(before) >= clear - CLOSE
                assert line.intersection(before).length == 0
        laid += mine


def assert_pierce_clear(
    tip: shapely.Point,
    part: PartCuts,
    one: Cut,
    shapes: dict[Placement, shapely.Polygon],
    cut: Cutting,
) -> None:
    """Off its own part, in a small hole as far as its middle; off the kerfs of all others."""
    least = pierce_clear_mm(cut, part.placement.blank.thickness_mm)
    own = least
    if one.layer == "cut-hole":
        x0, y0, x1, y1 = faceted(one.path, SAG_MM).bounds
        own = min(own, 0.95 * min(x1 - x0, y1 - y0) / 2)
    assert shapes[part.placement].distance(tip) >= own - CLOSE
    for other, shape in shapes.items():
        if other != part.placement:
            assert shape.distance(tip) >= least + cut.kerf_mm - CLOSE


def of_outline(part: PartCuts) -> list[Cut]:
    return [cut for cut in part.cuts if cut.layer == "cut-outline"]


def assert_same_cuts(done: SheetCuts) -> None:
    """Without kerf in the path: closed paths enclose the part; outlines clockwise, holes not."""
    for part in done.parts:
        holes = [c for c in part.cuts if c.layer == "cut-hole"]
        for cut, hole in zip(holes, part.placement.holes, strict=True):
            assert signed_area_mm2(cut.path) == pytest.approx(area_mm2(hole))
        for cut in of_outline(part):
            if cut.closed and not isinstance(cut.path, Circle):
                area = area_mm2(part.placement.blank.outline)
                assert signed_area_mm2(cut.path) == pytest.approx(-area, rel=1e-9)
                assert length_mm(cut.path) == pytest.approx(
                    length_mm(part.placement.blank.outline), rel=1e-9
                )
