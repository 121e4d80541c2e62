"""The table to strike a part by, against the outline's own points and known figures."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.geometry.blank import Blank, annular_sector
from platewheel.parts.geometry.marking_out import chord_table, marking_out, sector_of
from platewheel.parts.geometry.outline import Arc, Circle, moved, polygon
from platewheel.parts.wheel.flange import flange_blank
from platewheel.parts.wheel.hub_disc import disc_blank
from platewheel.parts.wheel.tread_ring import tread_blank
from tests.parts.wheels import plain_wheel


def values(blank: Blank) -> dict[str, float]:
    return {row.what: row.value for row in marking_out(blank)}


@pytest.mark.parametrize(("inner", "outer", "sweep"), [(150, 175, 112.0), (560, 590, 340.0)])
def test_sector_by_its_corners(inner: float, outer: float, sweep: float) -> None:
    edge = moved(annular_sector(inner, outer, sweep), 20.0, -7.0, 33.0)
    found = values(Blank("flange", "flange", 6.0, edge))
    assert (found["inner radius"], found["outer radius"]) == pytest.approx((inner, outer))
    assert found["sweep"] == pytest.approx(sweep)
    arcs = [s for s in edge if isinstance(s, Arc)]
    out = [arc for arc in arcs if arc.sweep_deg > 0]
    back = [arc for arc in arcs if arc.sweep_deg < 0]
    across = math.dist(out[0].start, out[-1].end)
    assert found["chord across the outer ends"] == pytest.approx(across)
    across = math.dist(back[0].start, back[-1].end)
    assert found["chord across the inner ends"] == pytest.approx(across)
    assert found["along the outer arc, by tape"] == pytest.approx(sum(a.length_mm for a in out))
    (name,) = [what for what in found if what.startswith("outer arc in")]
    steps = int(name.split()[3])
    here = out[0].start
    there = Arc(out[0].centre, outer, out[0].start_deg, sweep / steps).end
    assert found[name] == pytest.approx(math.dist(here, there))


# Chords to divide a circle of diameter 1, as in any engineering handbook (from memory)
@pytest.mark.parametrize(
    ("count", "chord"), [(3, 0.86603), (4, 0.70711), (5, 0.58779), (6, 0.5), (8, 0.38268)]
)
def test_spacing_of_vents(count: int, chord: float) -> None:
    vents = tuple(
        Circle((100 * math.cos(turn), 100 * math.sin(turn)), 8.0)
        for turn in (2 * math.pi * i / count for i in range(count))
    )
    found = values(Blank("disc", "disc", 6.0, Circle((0.0, 0.0), 140.0), vents))
    assert (found["diameter"], found["set compasses to"]) == (280.0, 140.0)
    assert found[f"{count} holes, diameter"] == 16.0
    assert found["circle through their centres, diameter"] == pytest.approx(200.0)
    assert found["centre to next centre, straight"] == pytest.approx(200 * chord, abs=2e-3)


def test_uneven_holes_get_no_spacing() -> None:
    vents = (Circle((100.0, 0.0), 8.0), Circle((0.0, 100.0), 8.0), Circle((-100.0, 0.0), 8.0))
    found = values(Blank("disc", "disc", 6.0, Circle((0.0, 0.0), 140.0), vents))
    assert "centre to next centre, straight" not in found


def test_rectangle_3_4_5() -> None:
    found = values(Blank("x", "extra", 6.0, polygon([(0, 0), (400, 0), (400, 300), (0, 300)])))
    assert found == {"length": 400.0, "width": 300.0, "both diagonals": 500.0}
    skew = values(Blank("x", "extra", 6.0, polygon([(0, 0), (400, 0), (450, 300), (50, 300)])))
    assert len({round(v, 3) for k, v in skew.items() if k.startswith("diagonal")}) == 2


def test_heights_over_a_chord_of_a_long_arc() -> None:
    """Heights against the points of the outer arc; the middle by c^2 / 8h + h / 2 = R."""
    edge = annular_sector(3860.0, 3920.0, 6.0)
    blank = Blank("tread", "tread", 8.0, moved(edge, 0.0, 0.0, 87.0))  # middle upright
    found = {row.what: row.value for row in chord_table(blank)}
    chord, rise = values(blank)["chord across the outer ends"], found["outer arc, middle"]
    assert chord**2 / (8 * rise) + rise / 2 == pytest.approx(3920.0)
    base = 3920.0 * math.cos(math.radians(3))
    for words, share in (("half way to the end", 0.5), ("3/4 to the end", 0.75)):
        angle = math.degrees(math.acos(share * chord / 2 / 3920.0))
        at = Arc((0.0, 0.0), 3920.0, 0.0, 180.0).at(angle)
        assert at[1] - base == pytest.approx(found[f"outer arc, {words}"])
    assert not chord_table(Blank("flange", "flange", 6.0, annular_sector(150.0, 175.0, 112.0)))


def test_blanks_of_a_wheel_are_known_shapes() -> None:
    wheel = plain_wheel(tread_taper_1_in=20.0)
    tread = tread_blank(wheel)
    assert tread is not None
    for blank in (tread, flange_blank(wheel)):
        sector = sector_of(blank.outline)
        assert sector is not None
        assert sector.inner_mm == pytest.approx(blank.sizes["inner_radius_mm"])
        assert sector.outer_mm == pytest.approx(blank.sizes["outer_radius_mm"])
        assert sector.sweep_deg == pytest.approx(blank.sizes["sweep_deg"])
    assert values(disc_blank(wheel))["diameter"] == disc_blank(wheel).sizes["diameter_mm"]
