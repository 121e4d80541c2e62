"""Fillets, root bead and flange of odd sizes by hand; the least and the most throat."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.base.steel import STEELS
from platewheel.parts.checks.strength.flange_strength import (
    flange_bending,
    groove_throat_mm,
    lever_mm,
    needed_throat_mm,
    push_n,
    root_weld_strength,
)
from platewheel.parts.checks.strength.weld_size import throat_least, throat_most
from platewheel.parts.checks.strength.weld_strength import (
    circle_bending_mm2,
    circle_length_mm,
    circle_polar_mm3,
    fillet_strength_n_mm2,
    fillet_throat_mm,
    rim_force_n_mm,
    rim_weld,
    tube_force_n_mm,
    tube_weld,
)
from tests.parts.checks.settings import setting_of
from tests.parts.checks.strength.limits import most_load_n, share_told
from tests.parts.checks.strength.odd_wheel import ODD

# the rail's middle is at 50 of 65 and, less the play, at 42
SHARE = (50 - 11.5) / 44  # lever rule
SPREAD = 3.25 * (32.5 * 7**3 / 12 / 5) ** (1 / 3)  # EN 1993-6, table 5.1
STRENGTH = 410 / (math.sqrt(3) * 0.85 * 1.25)  # EN 1993-1-8, 4.5.3.3: S275, beta_w 0.85


def odd(load_n: float, **more: Any) -> Any:
    wheel = ODD | more.pop("wheel", {})
    return setting_of(load_n, wheel=wheel, track={"rail_head_width_mm": 30.0}, **more)


@pytest.mark.parametrize(
    ("steel", "fu", "beta"), [("S235", 360, 0.8), ("S275", 410, 0.85), ("S355", 470, 0.9)]
)
def test_a_fillet_is_as_strong_as_the_directional_method_says(
    steel: str, fu: float, beta: float
) -> None:
    """EN 1993-1-8, 4.5.3.2: sqrt(s^2 + 3 (t1^2 + t2^2)) = fu / (beta_w 1.25). A force along the
    weld alone is t2 = fw, which is where the simplified method is exact; across it the throat,
    at 45 degrees, has s = t1 = F / sqrt 2, and F sqrt 2 is allowed, which is more."""
    fw = fillet_strength_n_mm2(STEELS[steel])
    assert math.sqrt(3 * fw**2) == pytest.approx(fu / (beta * 1.25))
    across = fw / math.sqrt(2)
    assert math.sqrt(across**2 + 3 * across**2) < fu / (beta * 1.25)


def test_circles_as_line_welds() -> None:
    """Sums over a thousand short pieces of the circle: length, y^2 over its radius, and r^2."""
    d, n = 53.0, 1000
    piece = math.pi * d / n
    heights = [d / 2 * math.sin(2 * math.pi * (i + 0.5) / n) for i in range(n)]
    assert circle_length_mm(d) == pytest.approx(n * piece)
    assert circle_bending_mm2(d) == pytest.approx(sum(y * y for y in heights) * piece / (d / 2))
    assert circle_polar_mm3(d) == pytest.approx(n * piece * (d / 2) ** 2)


def rim_by_hand(load: float, circle: float, lateral: float = 0.4, friction: float = 0.5) -> float:
    """Radial share over the spread; H / (2 pi d) and H R / (2 pi d^2 / 4) sideways; around
    T (d / 2) / (2 pi d^3 / 4); all x 1.5."""
    axial = lateral * load / (2 * math.pi * circle)
    axial += lateral * load * 155.5 / (2 * math.pi * circle**2 / 4)
    around = friction * load * 155.5 * (circle / 2) / (2 * math.pi * circle**3 / 4)
    return 1.5 * math.hypot(SHARE * load / SPREAD, axial, around)


def test_rim_of_the_odd_wheel() -> None:
    """Bore 311 - 14 = 297. Throat 3 mm, all legs with room."""
    assert rim_force_n_mm(odd(7e3)) == pytest.approx(rim_by_hand(7e3, 297))
    result = rim_weld(odd(7e3))
    assert (result.value, result.limit) == (
        pytest.approx(3),
        pytest.approx(rim_by_hand(7e3, 297) / STRENGTH),
    )
    assert share_told(result) == round(100 * rim_by_hand(7e3, 297) / STRENGTH / 3)
    most = 3 * STRENGTH / rim_by_hand(1.0, 297)
    assert most_load_n(lambda load: rim_weld(odd(load))) == pytest.approx(most)


def test_the_smaller_circle_of_a_tapered_bore() -> None:
    """1 in 5: at the field disc's outer face, z = 9, the tread is 155.5 - 56 / 5 = 144.3 and the
    wall 7 / cos(atan(1 / 5))."""
    circle = 2 * (144.3 - 7 * math.hypot(1, 0.2))
    tapered = odd(7e3, wheel={"tread_taper_1_in": 5.0, "vent_circle_mm": 200.0})
    assert rim_force_n_mm(tapered) == pytest.approx(rim_by_hand(7e3, circle), rel=1e-9)


def test_tube_of_the_odd_wheel() -> None:
    """55 mm: as a couple (F + H R / 44) / (pi d) with H / (2 pi d) sideways, or bent H / (2 pi d)
    + H R / (2 pi d^2 / 4), each with the torque around; the larger x 1.5."""
    d, load = 55.0, 7e3
    lateral, moment = 0.4 * load, 0.4 * load * 155.5
    around = 0.5 * load * 155.5 * (d / 2) / (2 * math.pi * d**3 / 4)
    couple = math.hypot(
        (SHARE * load + moment / 44) / (math.pi * d), lateral / (2 * math.pi * d), around
    )
    bent = math.hypot(
        SHARE * load / (math.pi * d),
        lateral / (2 * math.pi * d) + moment / (2 * math.pi * d**2 / 4),
        around,
    )
    assert tube_force_n_mm(odd(load)) == pytest.approx(1.5 * max(couple, bent))
    result = tube_weld(odd(load))
    assert result is not None
    assert result.limit == pytest.approx(1.5 * max(couple, bent) / STRENGTH)


def test_discs_wide_apart_are_worse_bent() -> None:
    """Plain wheel, 240 mm wide, discs 221 apart: the couple is small."""
    wide = setting_of(7e3, wheel={"tread_width_mm": 240.0, "hub_tube_length_mm": 240.0})
    d, moment = 57.0, 0.4 * 7e3 * 150
    share = max((222 - 11) / 218, 1 - (222 - 8 - 11) / 218)
    bent = math.hypot(
        share * 7e3 / (math.pi * d),
        0.4 * 7e3 / (2 * math.pi * d) + moment / (2 * math.pi * d**2 / 4),
        0.5 * 7e3 * 150 * (d / 2) / (2 * math.pi * d**3 / 4),
    )
    assert tube_force_n_mm(wide) == pytest.approx(1.5 * bent)


@pytest.mark.parametrize(("inset", "throat"), [(0.1, 0.0), (0.11, 0.10993)])
def test_a_leg_of_a_tenth_is_no_bead(inset: float, throat: float) -> None:
    """Legs 0.11 and 3 sqrt 2: height of the right triangle on its longest side."""
    assert fillet_throat_mm(odd(1e3, wheel={"disc_gauge_inset_mm": inset}), "disc") == (
        pytest.approx(throat, abs=1e-4)
    )


def test_the_cure_depends_on_whether_room_or_throat_is_short() -> None:
    """Load that asks 3.94 mm: full legs of 3 mm throat want a larger throat; a full throat of 6
    cut to 3 by the inset wants room; one cut to 3 mm of 3.5 cannot be told by throat either."""
    load = 3.94 * STRENGTH / rim_by_hand(1.0, 297)
    weak = rim_weld(odd(load))
    assert weak.says.startswith("the fillets are too weak: wheel.weld_throat_mm = 4")
    leg = 3.0 * 6 * math.sqrt(2) / math.sqrt(72 - 9)  # its triangle with a leg of 6 sqrt 2: 3 high
    hemmed = odd(load, wheel={"weld_throat_mm": 6.0, "disc_gauge_inset_mm": leg})
    assert fillet_throat_mm(hemmed, "disc") == pytest.approx(3)
    needs = math.ceil(10 * rim_force_n_mm(hemmed) / STRENGTH) / 10
    assert rim_weld(hemmed).says == (
        f"the fillets are too weak: its legs lack room, wheel.weld_throat_mm = {needs:g} and "
        "wheel.disc_gauge_inset_mm = 6"
    )
    light = odd(100.0, wheel={"disc_gauge_inset_mm": 0.0})
    # EN 1993-1-8, 4.5.2(2); legs of 3 sqrt 2 ask for 5 mm
    assert rim_weld(light).says.endswith("throat_mm = 3 and wheel.disc_gauge_inset_mm = 5")


def test_push_and_lever_of_the_flange() -> None:
    """Face at 60 degrees: force H / sin 60, square to it; lever half the depth over sin 60, or
    the rail's corner where that is more, never beyond the depth."""
    sine = math.sqrt(3) / 2
    steep = odd(5e3, wheel={"flange_angle_deg": 60.0})
    assert push_n(steep) == pytest.approx(2e3 / sine)
    for depth, radial in ((15.0, 7.5), (5.0, 3.0), (2.0, 2.0)):  # rail's corner: 3 mm
        setting = odd(5e3, wheel={"flange_angle_deg": 60.0, "flange_depth_mm": depth})
        assert lever_mm(setting) == pytest.approx(radial / sine)


def bending(load: float, angle_deg: float, thick: float) -> float:
    sine = math.sin(math.radians(angle_deg))
    lever = 7.5 / sine
    return 6 * 0.4 * load / sine * lever / ((20 + 2 * lever) * thick**2)


def test_where_the_flange_bends() -> None:
    """6 F l / ((20 + 2 l) t^2) = 275 / 1.5; at twice the load sqrt 2 the thickness."""
    most = 275 / 1.5 / bending(1.0, 70, 6)
    assert most_load_n(lambda load: flange_bending(odd(load))) == pytest.approx(most)
    assert share_told(flange_bending(odd(0.73 * most))) == 73
    assert "flange_thickness_mm = 8.5 or more" in flange_bending(odd(2 * most)).says


def root_by_hand(load: float, angle_deg: float = 70.0) -> float:
    """Throat a of q / a + 6 m / a^2 = f, q = 1.5 F / (20 + 2 l), m = q l."""
    sine = math.sin(math.radians(angle_deg))
    lever = 7.5 / sine
    q = 1.5 * 0.4 * load / sine / (20 + 2 * lever)
    return (q + math.sqrt(q * q + 24 * STRENGTH * q * lever)) / (2 * STRENGTH)


@pytest.mark.parametrize("tapered", [False, True])
@pytest.mark.parametrize("made_from", ["sheet", "pipe"])
def test_root_bead_of_the_odd_wheel(made_from: str, tapered: bool) -> None:
    """Equal legs of 5 mm at 70 degrees, less the slope of a tapered ring; a pipe's end is square
    to its axis: throat 5 cos of half the angle."""
    wheel = {"tread_from": made_from, "tread_taper_1_in": 20.0 if tapered else 0.0}
    result = root_weld_strength(odd(3e3, wheel=wheel))
    slope = math.atan(1 / 20) if tapered and made_from == "sheet" else 0.0
    half = (math.radians(70) - slope) / 2
    assert result.value == pytest.approx(5 * math.cos(half))
    assert result.limit == pytest.approx(root_by_hand(3e3))
    assert share_told(result) == round(100 * root_by_hand(3e3) / (5 * math.cos(half)))
    bad = root_weld_strength(odd(9e3, wheel=wheel))
    leg = math.ceil(10 * root_by_hand(9e3) / math.cos(half)) / 10
    assert 7 < leg <= 8  # flange of 6 and ring of 7; a dealer has 8
    plates = " and wheel.flange_thickness_mm = 8 and wheel.tread_thickness_mm = 8"
    assert bad.says == f"the flange tears off at its root: wheel.root_weld_mm = {leg:g}{plates}"


def test_a_plate_as_thick_as_the_leg_is_thick_enough() -> None:
    """The least leg told at 5 kN is also the thickness of the flange."""
    bad = root_weld_strength(odd(5e3, wheel={"root_weld_mm": 2.0}))
    leg = float(bad.says.split("root_weld_mm = ")[1].split(" ")[0])
    for thick, named in ((leg, False), (leg - 0.1, True)):
        wheel = {"root_weld_mm": 2.0, "flange_thickness_mm": thick}
        assert ("flange_thickness_mm = " in root_weld_strength(odd(5e3, wheel=wheel)).says) == named


@pytest.mark.parametrize(("legs", "angle_deg"), [((3.0, 7.0), 80.0), ((6.0, 4.0), 65.0)])
def test_throat_of_a_slanted_groove(legs: tuple[float, float], angle_deg: float) -> None:
    """Twice the triangle's area over its third side; coordinates, not the cosine rule."""
    tip = (
        legs[1] * math.cos(math.radians(angle_deg)),
        legs[1] * math.sin(math.radians(angle_deg)),
    )
    height = legs[0] * tip[1] / math.dist((legs[0], 0.0), tip)
    assert groove_throat_mm(*legs, math.radians(angle_deg)) == pytest.approx(height)
    assert groove_throat_mm(*legs[::-1], math.radians(angle_deg)) == pytest.approx(height)


def test_a_face_that_stands_square_on_the_short_leg_is_where_the_foot_leaves_it() -> None:
    """Legs 2 and 4 at 60 degrees: 4 cos 60 = 2, the foot of the height is the leg's tip."""
    assert groove_throat_mm(2.0, 4.0, math.pi / 3) == pytest.approx(2)
    assert groove_throat_mm(2.0, 3.9, math.pi / 3) < 2


def test_throat_for_a_force_without_moment() -> None:
    assert needed_throat_mm(150.0, 0.0, 200.0) == pytest.approx(0.75)


@pytest.mark.parametrize(
    ("wheel", "throat", "limit", "says"),
    [
        ({}, 3.0, 4.2, ""),  # discs of 6 mm
        ({"hub_tube_outside_mm": 80.0}, 3.0, 4.2, ""),  # wall of 22.5 mm
        ({"tread_thickness_mm": 5.0}, 4.0, 3.5, "3.5 or less, or wheel.tread_thickness_mm = 5.8"),
        ({"hub_tube_outside_mm": 42.0}, 4.0, 2.45, "hub tube wall of 5.8 mm"),
        ({"disc_thickness_mm": 3.0}, 2.2, 2.1, "2.1 or less, or wheel.disc_thickness_mm = 3.2"),
        ({"hub_tube_outside_mm": 42.0, "hub_tube_length_mm": 0.0}, 4.0, 4.2, ""),
    ],
)
def test_most_throat_of_the_thinnest_plate(
    wheel: dict[str, float], throat: float, limit: float, says: str
) -> None:
    """0.7 of the plate, common practice; the tube's wall is half of outside less bore of 35."""
    result = throat_most(setting_of(wheel=wheel | {"weld_throat_mm": throat}))
    assert result.limit == pytest.approx(limit)
    assert result.verdict == ("warn" if says else "pass")
    assert says in result.says


def test_the_least_throat_that_counts() -> None:
    """EN 1993-1-8, 4.5.2(2): 3 mm."""
    for throat, verdict in ((3.0, "pass"), (2.999, "warn")):
        result = throat_least(setting_of(wheel={"weld_throat_mm": throat}))
        assert (result.verdict, result.limit, result.value) == (verdict, 3.0, throat)
