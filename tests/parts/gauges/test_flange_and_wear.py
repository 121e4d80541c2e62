"""Gauges of the flange laid on the wheel's own section: they touch where they should."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Point, Polygon, box
from shapely.affinity import scale, translate

from platewheel.parts.base.faults import SpecError
from platewheel.parts.gauges.flange import flange_gauge
from platewheel.parts.gauges.limits import most_depth_mm, most_hollow_mm
from platewheel.parts.gauges.wear import height_mm, stands_mm, tongue_place_mm, wear_gauge
from platewheel.parts.geometry.outline import Arc, segments
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.wear import least_plate_mm
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.gauges.drawn_settings import (
    STUFF,
    across,
    plate,
    plate_angle_deg,
    section,
    setting_of,
    settings_drawn,
)
from tests.parts.wheels import plain_wheel

HAIR = 1e-3


def overlap(one: Polygon, other: Polygon, x: float = 0.0, y: float = 0.0) -> float:
    """Area of one, moved, in the other."""
    area = translate(one, x, y).intersection(other).area
    return float(area)


@given(settings_drawn())
def test_the_flange_gauge_lies_on_a_new_wheel(setting: Setting) -> None:
    wheel, gauge = setting.wheel, flange_gauge(setting, STUFF)
    shape, ring, flange = plate(gauge), section(wheel, "tread"), section(wheel, "flange")
    assert overlap(shape, ring) < 1e-6
    assert overlap(shape, flange) < 1e-6
    assert overlap(shape, ring, y=-HAIR) > HAIR * wheel.tread_width_mm / 2  # all along the foot
    tip = Point(wheel.flange_depth_mm / math.tan(wheel.flange_angle), wheel.flange_depth_mm)
    assert shape.exterior.distance(tip) < 0.06  # a hair of the bite lies between, where upright
    assert overlap(shape, flange, x=HAIR) > 0
    face = plate_angle_deg(gauge, wheel.flange_depth_mm)
    assert face == pytest.approx(wheel.flange_angle_deg)


@pytest.mark.parametrize(("depth", "root"), [(4.0, 1.0), (8.0, 2.0), (15.0, 2.0)])
def test_the_flange_gauge_leaves_the_root_free_and_little_more(depth: float, root: float) -> None:
    """2 mm along tread and face, where spatter lies, and no more than a quarter of the face."""
    shape = plate(flange_gauge(setting_of(plain_wheel(flange_depth_mm=depth)), STUFF))
    turn = math.radians(70)
    for corner in ((-root, 0.0), (root * math.cos(turn), root * math.sin(turn))):
        assert min(math.dist(corner, at) for at in shape.exterior.coords) < 1e-9


def test_a_degree_at_the_flange_gauge_by_hand() -> None:
    """15 mm at 70 degrees is a face of 15.96; a degree, tan 0.01746, 0.28 mm at its end."""
    assert "A gap of 0.28 mm at tip or root is one degree" in flange_gauge(setting_of(), STUFF).use


def worn_flange(setting: Setting, off_mm: float) -> Polygon:
    """The flange with so much gone off its face, square to it; its back as it was."""
    wheel = setting.wheel
    moved = (off_mm * math.sin(wheel.flange_angle), -off_mm * math.cos(wheel.flange_angle))
    whole = section(wheel, "flange")
    return whole.intersection(translate(whole, *moved))


def upside_down(setting: Setting) -> Polygon:
    """The wear gauge turned over, its upper foot on the tread."""
    turned = scale(plate(wear_gauge(setting, STUFF)), 1, -1, origin=(0, 0))
    return translate(turned, 0, height_mm(setting))


steep = st.builds(
    lambda angle, thick, depth, taper: plain_wheel(
        flange_angle_deg=angle,
        flange_thickness_mm=thick,
        flange_depth_mm=depth,
        tread_taper_1_in=taper,
    ),
    st.floats(60, 90),
    st.floats(4, 8),
    st.floats(12, 25),
    st.sampled_from([0.0, 20.0]),
)


@given(steep)
def test_the_leg_hangs_only_behind_a_flange_worn_to_its_limit(new: WheelSpec) -> None:
    setting = setting_of(new)
    shape = upside_down(setting)
    limit = new.flange_thickness_mm - least_plate_mm(new)
    ring = section(new, "tread")
    assert overlap(shape, ring) < 1e-6
    assert overlap(shape, ring, y=-HAIR) > HAIR * new.tread_width_mm / 2
    high = new.flange_depth_mm / 4
    band = Polygon([(-1, high), (60, high), (60, high + 1), (-1, high + 1)])  # the nose's lower end

    def stands(off_mm: float) -> bool:
        return overlap(shape, worn_flange(setting, off_mm).intersection(band)) > 1e-9

    assert stands(0.0)
    assert stands(limit - 0.02)
    assert not stands(limit + 0.001)
    # the leg is drawn up to the back's inmost point, which is not worn
    back = section(new, "flange")
    inmost = back.bounds[2]
    leg = shape.intersection(Polygon([(inmost, -50), (90, -50), (90, 90), (inmost, 90)]))
    assert leg.area > 40
    assert leg.distance(back) < 1e-6
    lifted = stands_mm(new)
    assert overlap(shape, back, y=lifted - 0.01) > 1e-6
    assert overlap(shape, back, y=lifted + HAIR) < 1e-9
    leg_end = leg.bounds[1] + lifted  # on a new flange it is behind the inmost point as well
    behind = max(y for x, y in back.exterior.coords if x > inmost - 1e-9)
    assert leg_end == pytest.approx(behind - 4, abs=1e-6)
    ledge = across(shape, inmost - 0.01, upright=True)[0]
    assert ledge == pytest.approx(new.flange_depth_mm + 3)  # clear of the tip


@given(settings_drawn())
def test_the_limits_of_depth_and_hollow_are_on_the_plate(setting: Setting) -> None:
    try:
        gauge = wear_gauge(setting, STUFF)
    except SpecError:
        assume(False)
        raise
    shape, wheel = plate(gauge), setting.wheel
    ledge = across(shape, wheel.flange_depth_mm / math.tan(wheel.flange_angle), upright=True)[0]
    assert ledge == pytest.approx(most_depth_mm(setting))
    ring = section(wheel, "tread")
    assert overlap(shape, ring) < 1e-6
    assert overlap(shape, ring, y=-HAIR) > HAIR * wheel.tread_width_mm / 2  # all along the foot
    assert overlap(shape, section(wheel, "flange")) < 1e-6  # a new flange goes under the ledge
    root = -wheel.tread_width_mm * math.tan(wheel.taper_half_angle)
    left = across(shape, tongue_place_mm(setting) + root)[0]
    assert -wheel.tread_width_mm - left == pytest.approx(most_hollow_mm(setting))
    assert shape.bounds[0] == pytest.approx(left)


@pytest.mark.parametrize(("head", "place"), [(25.0, 18.0), (40.0, 24.0), (70.0, 36.0)])
def test_the_tongue_is_where_the_rail_runs(head: float, place: float) -> None:
    """Play of 8 mm, tread of 60: 4 and half the head, 0.3 to 0.6 of the tread."""
    assert tongue_place_mm(setting_of(track={"rail_head_width_mm": head})) == pytest.approx(place)


@pytest.mark.parametrize(("tread", "tongue"), [(60.0, 8.0), (42.0, 7.0)])
def test_the_tongue_is_a_sixth_of_a_narrow_tread_and_a_file_goes_in_beside_it(
    tread: float, tongue: float
) -> None:
    setting = setting_of(plain_wheel(tread_width_mm=tread))
    gauge = wear_gauge(setting, STUFF)
    low, high = across(plate(gauge), -tread - 0.5, upright=True)
    middle = tongue_place_mm(setting)
    assert (low, high) == pytest.approx((middle - tongue / 2, middle + tongue / 2))
    bites = [one for one in segments(gauge.blank.outline) if isinstance(one, Arc)]
    assert [2 * one.radius_mm for one in bites] == pytest.approx([1.5 * 1.7, 1.5 * 1.7])
    # the foot ends 3 mm before the root; there the ledge over the tip begins, 15 + 1 mm of wear
    assert across(plate(gauge), -2.9, upright=True)[0] == pytest.approx(16)
    assert across(plate(gauge), -3.1, upright=True)[0] < 1e-9


def test_sizes_of_the_wear_gauge_by_hand() -> None:
    """15 x 6 at 70 degrees, 1 mm of wear. The nose stands 3.75 high, where 1.5 of the 6 mm are
    worn, 3.75 / tan 70 + 1.5 / sin 70 = 2.96 from the root; the back is 15 / tan 70 + 6 sin 70
    = 11.10 from it."""
    gauge = wear_gauge(setting_of(), STUFF)
    assert [size.value for size in gauge.sizes] == pytest.approx([16, 4.5, 8.137, 1], abs=1e-3)
    nose = upside_down(setting_of()).intersection(box(0, 3.8, 9, 3.9))
    assert nose.bounds[2] == pytest.approx(2.961, abs=1e-3)


def test_limits_beside_published_ones() -> None:
    """Full-size wheels are condemned no sooner than ours of the same sizes: 49 CFR 230.113, flange
    higher than 1 1/2 in from 1 in new, hollow of 5/16 in (7.9 mm); EBO annex 6, flange of 36 mm
    from 28 new (from memory). Thickness by the 7.5 in wheel standard, undated: 75 % of new."""
    for depth, tallest in ((25.4, 38.1), (28.0, 36.0)):
        setting = setting_of(plain_wheel(flange_depth_mm=depth), wear_allowance_mm=20.0)
        assert depth < most_depth_mm(setting) <= tallest
        assert 2.0 < most_hollow_mm(setting) <= 7.9
    assert least_plate_mm(plain_wheel(flange_thickness_mm=8.0)) == 6.0


@pytest.mark.parametrize(
    ("depth", "wear", "deepest", "hollow"),
    [
        (10.0, 20.0, 12.0, 1.5),
        (15.0, 20.0, 18.0, 2.0),  # at most 2 mm for flanges to 15 mm
        (30.0, 20.0, 36.0, 4.0),
        (15.0, 1.0, 16.0, 1.0),  # the wear allowance ends the wheel before
    ],
)
def test_limits_by_hand(depth: float, wear: float, deepest: float, hollow: float) -> None:
    setting = setting_of(plain_wheel(flange_depth_mm=depth), wear_allowance_mm=wear)
    assert most_depth_mm(setting) == pytest.approx(deepest)
    assert most_hollow_mm(setting) == pytest.approx(hollow)


def test_small_limits_and_thin_flanges_have_no_wear_gauge() -> None:
    with pytest.raises(
        SpecError, match=r"try: wheel.flange_depth_mm = 2.7, or wear = false"
    ) as small:
        wear_gauge(setting_of(plain_wheel(flange_depth_mm=2.6)), STUFF)
    # 0.15 and 0.2 of 2.6
    assert "not a hollow of 0.39 and a flange 0.52 deeper" in str(small.value)
    thin = plain_wheel(flange_thickness_mm=2.0, flange_angle_deg=90.0, root_weld_mm=2.0)
    with pytest.raises(
        SpecError, match=r"a kerf of 1\.7 mm goes into; here one has edges of 0\.75 mm"
    ):
        wear_gauge(setting_of(thin), STUFF)
