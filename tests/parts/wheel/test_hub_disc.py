"""The discs in numbers: where they stand, how large they are, their holes and marks."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from platewheel.parts.geometry.blank import MarkPoint, MarkText
from platewheel.parts.geometry.outline import Circle, Line
from platewheel.parts.wheel import hub_disc
from tests.parts.wheels import plain_wheel

# Plain wheel: D 300, wall 8, W 60, discs 6 thick, tube 57, clearance 0.5, vents on 240.
INSETS = plain_wheel(disc_field_inset_mm=7.0, disc_gauge_inset_mm=9.0)


def test_where_the_discs_stand() -> None:
    """7 mm in from the field edge, and 9 mm in from the gauge edge, 6 mm thick inwards."""
    assert hub_disc.disc_z_mm(INSETS, "field") == (7.0, 13.0)
    assert hub_disc.disc_z_mm(INSETS, "gauge") == (45.0, 51.0)


def test_diameter_of_a_straight_ring() -> None:
    """300 - 2 x 8 - 2 x 0.5; hole 57 + 2 x 0.5."""
    stands: dict[hub_disc.Side, tuple[float, float]] = {"field": (7.0, 13.0), "gauge": (45.0, 51.0)}
    for side, z in stands.items():
        assert hub_disc.disc_diameter_mm(INSETS, side) == pytest.approx(283.0)
        corners = [(29.0, z[0]), (141.5, z[0]), (141.5, z[1]), (29.0, z[1])]
        assert hub_disc.disc_section(INSETS, side) == pytest.approx(np.array(corners))
    assert not hub_disc.discs_differ(INSETS)
    assert hub_disc.disc_name(INSETS, "field") == hub_disc.disc_name(INSETS, "gauge") == "disc"


def test_discs_of_a_tapered_ring() -> None:
    """1 in 20: at z the outside is 150 - (60 - z) / 20 and the wall 8 / cos across."""
    spec = plain_wheel(tread_taper_1_in=20.0)
    wall = 8 / math.cos(math.atan(1 / 20))
    field, gauge = 2 * (150 - 52 / 20 - wall - 0.5), 2 * (150 - 14 / 20 - wall - 0.5)
    assert hub_disc.disc_diameter_mm(spec, "field") == pytest.approx(field)
    assert hub_disc.disc_diameter_mm(spec, "gauge") == pytest.approx(gauge)
    assert hub_disc.discs_differ(spec)
    assert hub_disc.disc_name(spec, "field") == "disc-field"
    assert hub_disc.disc_name(spec, "gauge") == "disc-gauge"


@pytest.mark.parametrize("count", [0, 1, 3, 4])
def test_vents(count: int) -> None:
    """On a circle of 240, even turns from +x; listed before the hub's hole."""
    spec = plain_wheel(vent_count=count, vent_diameter_mm=18.0)
    turns = [math.tau * i / count for i in range(count)]
    wanted = [(120 * math.cos(turn), 120 * math.sin(turn)) for turn in turns]
    assert hub_disc.vent_centres(spec) == pytest.approx(np.array(wanted), abs=1e-9)
    blank = hub_disc.disc_blank(spec)
    *vents, hub = blank.holes
    assert [hole.radius_mm for hole in vents if isinstance(hole, Circle)] == [9.0] * count
    assert hub == Circle((0.0, 0.0), 29.0)
    sizes: dict[str, float] = {"diameter_mm": 283.0, "hub_hole_diameter_mm": 58.0}
    if count:
        sizes |= {"vent_diameter_mm": 18.0, "vent_circle_mm": 240.0, "vent_count": count}
    assert blank.sizes == pytest.approx(sizes)
    area = math.pi * (141.5**2 - 29.0**2 - count * 9.0**2)
    assert hub_disc.disc_volume_mm3(spec, "field") == pytest.approx(area * 6)


def test_blank() -> None:
    blank = hub_disc.disc_blank(plain_wheel())
    assert (blank.name, blank.kind, blank.thickness_mm) == ("disc", "disc", 6.0)
    assert isinstance(blank.outline, Circle)
    assert (*blank.outline.centre, blank.outline.radius_mm) == pytest.approx((0.0, 0.0, 141.5))


@pytest.mark.parametrize(
    ("changes", "middle", "height", "tick"),
    [
        ({}, (283 + 58) / 4, 12.0, 5.0),
        # D 200: disc 183, plate between hole and rim (183 - 58) / 2 = 62.5: a quarter is 15.6
        ({"tread_diameter_mm": 200.0, "vent_circle_mm": 140.0}, (183 + 58) / 4, 12.0, 5.0),
        # D 120: disc 103; plate 22.5 wide: letters of a quarter of it
        ({"tread_diameter_mm": 120.0, "vent_count": 0}, (103 + 58) / 4, 22.5 / 4, 5.0),
        # hub hole of 12 without a tube: ticks of a quarter of it
        (
            {"hub_bore_mm": 12.0, "hub_tube_length_mm": 0.0, "hub_tube_outside_mm": 0.0},
            (283 + 12) / 4,
            12.0,
            3.0,
        ),
    ],
)
def test_marks(changes: dict[str, Any], middle: float, height: float, tick: float) -> None:
    """Centre and vents to punch, a cross in the hub, name above and size below in mid-plate."""
    spec = plain_wheel(**changes)
    blank = hub_disc.disc_blank(spec)
    points = [mark.at for mark in blank.marks if isinstance(mark, MarkPoint)]
    assert points == [(0.0, 0.0), *hub_disc.vent_centres(spec)]
    lines = [mark for mark in blank.marks if isinstance(mark, Line)]
    assert lines == [Line((-tick, 0.0), (tick, 0.0)), Line((0.0, -tick), (0.0, tick))]
    name, size = (mark for mark in blank.marks if isinstance(mark, MarkText))
    assert name.at == pytest.approx((0.0, middle))
    assert size.at == pytest.approx((0.0, -middle))
    assert (name.text, size.text) == ("disc", f"d {blank.sizes['diameter_mm']:.1f}")
    assert (name.height_mm, size.height_mm) == pytest.approx((height, height))


@pytest.mark.parametrize(("side", "z"), [("field", (7.0, 13.0)), ("gauge", (45.0, 51.0))])
def test_solid(side: Any, z: tuple[float, float]) -> None:
    solid = hub_disc.hub_disc(INSETS, side)
    box = solid.BoundingBox()
    assert (box.zmin, box.zmax) == pytest.approx(z, abs=1e-5)
    assert (box.xmin, box.ymax) == pytest.approx((-141.5, 141.5), abs=1e-5)
    assert solid.Volume() == pytest.approx(hub_disc.disc_volume_mm3(INSETS, side))
