"""Static limit: single points under known stress, the spots left out, a hole's edge in a plate."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.rating.static_limit import static_limits
from platewheel.parts.stress.load_series import PLACES
from tests.parts.stress.made_response import CALM, Stress, made_response
from tests.parts.wheels import plain_wheel

ALLOWED = 235 / 1.5  # S235 up to 16 mm, EN 10025-2 table 7; 1.5 on yield, load-rating practice
# A point that is never left out, and stressed by 0.001: what is left when another one is.
QUIET = ("disc-field", 100.0, 11.0)
LITTLE: Stress = (0.0005, 0.0, 0.0, 0.0, 0.0, 0.0)
PLAIN = plain_wheel(vent_count=0, flange_thickness_mm=7.0)  # wall 8, disc 6, tube 11 mm thick
LONG_MM = 4.2  # half length of the patch: angles at multiples of 1.05 mm on the tread


def hoop(value: float) -> Stress:
    return (0.0, 0.0, value, 0.0, 0.0, 0.0)


def strongest(
    part: str, r: float, z: float, *, spec: Any = PLAIN, share: float = 0.0, **kind: Any
) -> float:
    """Von Mises stress for 1 N that governs, with 0.025 (1 + cos) of hoop stress in one point:
    0.05 under the patch, nothing opposite."""
    half = [LITTLE, hoop(0.025)]
    points = [QUIET, (part, r, z)]
    found = made_response(spec, points, mean=half, swing=half, half_length_mm=LONG_MM, **kind)
    return ALLOWED / static_limits(found, share, share)[0].load_n


def beyond(step: int) -> float:
    """The same stress at an angle further on."""
    return 0.025 * (1 + math.cos(step * LONG_MM / 4 / 150))


@pytest.mark.parametrize(
    ("stress", "equal"),
    [
        ((0.03, 0.0, 0.0, 0.0, 0.0, 0.0), 0.03),
        ((0.0, 0.03, 0.0, 0.0, 0.0, 0.0), 0.03),
        ((0.03, 0.03, 0.0, 0.0, 0.0, 0.0), 0.03),  # plane: s1^2 - s1 s2 + s2^2
        ((0.03, -0.03, 0.0, 0.0, 0.0, 0.0), 0.03 * math.sqrt(3)),
        ((0.05, 0.05, 0.02, 0.0, 0.0, 0.0), 0.03),  # even stress adds nothing
        ((0.0, 0.0, 0.0, 0.02, 0.0, 0.0), 0.02 * math.sqrt(3)),
    ],
)
def test_one_point_under_the_patch(stress: Stress, equal: float) -> None:
    """Closed forms of von Mises; half steady, half with the angle: the most is under the patch."""
    half: Stress = tuple(s / 2 for s in stress)  # type: ignore[assignment]
    point = ("tread", 143.0, 30.0)
    found = made_response(PLAIN, [QUIET, point], mean=[LITTLE, half], swing=[LITTLE, half])
    (limit,) = static_limits(found, 0.0, 0.0)
    assert limit.load_n == pytest.approx(ALLOWED / equal)
    assert limit.where == "tread at r 143, z 30 mm, 0 deg from the rail"
    assert (limit.name, limit.by) == ("static strength", "fy / 1.5")


@pytest.mark.parametrize("at", [4, 5])
def test_shear_round_the_wheel_is_largest_a_quarter_turn_away(at: int) -> None:
    """Closed form: tau sin: von Mises sqrt 3 tau at 90 degrees (angles there: 2 degrees apart)."""
    shear = [0.0] * 6
    shear[at] = 0.02
    found = made_response(PLAIN, [("tread", 143.0, 30.0)], swing=[tuple(shear)])  # type: ignore[list-item]
    (limit,) = static_limits(found, 0.0, 0.0)
    assert ALLOWED / limit.load_n == pytest.approx(0.02 * math.sqrt(3), rel=1e-3)
    assert float(limit.where.split()[-5]) == pytest.approx(90, abs=2)


def test_the_push_adds_its_share() -> None:
    """0.05 of the patch and 0.4 x 0.02 of the push, in the same point; calm it is the first."""
    push = [CALM, hoop(0.02)]
    assert strongest("tread", 143.0, 30.0, push=push) == pytest.approx(0.05)
    assert strongest("tread", 143.0, 30.0, push=push, share=0.4) == pytest.approx(0.058)


def test_the_weaker_steel_of_two_thicknesses_counts() -> None:
    """EN 10025-2 table 7, S235: 225 N/mm2 over 16 mm. Wherever the stress is, in whatever part
    is so thick: wall, disc, flange, tube."""
    thick = {
        "tread": {"tread_thickness_mm": 17.0, "vent_circle_mm": 200.0},
        "disc-gauge": {"disc_thickness_mm": 17.0, "disc_gauge_inset_mm": 4.0},
        "flange": {"flange_thickness_mm": 17.0},
        "hub-tube": {"hub_bore_mm": 20.0, "hub_tube_outside_mm": 57.0},
    }
    for part, changes in thick.items():
        spec = plain_wheel(vent_count=0, **changes)
        points = [(part, 90.0, 30.0), ("weld-root", 200.0, 200.0)]
        found = made_response(spec, points, swing=[hoop(0.05), CALM])
        assert static_limits(found, 0.0, 0.0)[0].load_n == pytest.approx(225 / 1.5 / 0.05), part
    thin = plain_wheel(vent_count=0, hub_tube_outside_mm=66.8)  # wall 15.9 mm
    found = made_response(thin, [("hub-tube", 30.0, 30.0)], swing=[hoop(0.05)])
    assert static_limits(found, 0.0, 0.0)[0].load_n == pytest.approx(ALLOWED / 0.05)


@pytest.mark.parametrize(
    ("part", "thickness"),
    [("tread", 8.0), ("disc-field", 6.0), ("disc-gauge", 6.0), ("flange", 7.0), ("hub-tube", 11.0)],
)
@pytest.mark.parametrize("way", [(0.6, 0.8), (-0.8, 0.6), (1.0, 0.0), (0.0, -1.0)])
def test_near_a_weld_toe_stress_has_no_limit(
    part: str, thickness: float, way: tuple[float, float]
) -> None:
    """Left out within 0.4 thicknesses of a bead's corner, the first reading point of IIW."""
    corners = ((110.0, 40.0), (80.0, 35.0))
    for share, counts in ((0.39, False), (0.41, True)):
        away = share * thickness
        at = 80.0 + way[0] * away, 35.0 + way[1] * away
        found = strongest(part, *at, corners=corners)
        assert found == pytest.approx(0.05 if counts else 0.001), (share, way)


def test_beads_are_left_to_their_throats() -> None:
    assert strongest("weld-disc-field", 100.0, 30.0) == pytest.approx(0.001)


# The contact itself: outer half of the wall, within one wall (8 mm) of the patch, which is 20 mm
# wide at 30 mm from the field edge and 2 x 4.2 mm long.
@pytest.mark.parametrize(
    ("r", "z", "counts"),
    [
        (146.1, 30.0, False),
        (145.9, 30.0, True),
        (150.0, 12.1, False),
        (150.0, 11.9, True),
        (150.0, 47.9, False),
        (150.0, 48.1, True),
    ],
)
def test_the_contact_itself_is_left_out(r: float, z: float, counts: bool) -> None:
    """Where it is left out the most is the first angle beyond: 12 x 1.05 mm > 4.2 + 8 mm."""
    under = 0.05 if counts else beyond(12)
    assert strongest("tread", r, z) == pytest.approx(under, rel=1e-9)
    assert strongest("disc-field", r, z) == pytest.approx(0.05)


def test_the_contact_follows_a_tapered_tread() -> None:
    """1 in 20: the outside falls 1 mm in 20 mm to the field edge; places lie along the slope."""
    spec = plain_wheel(vent_count=0, tread_taper_1_in=20.0)
    places = (50.0,) * PLACES
    middle = 50.0 * math.cos(math.atan(1 / 20))
    outside = 150.0 - (60 - 50) / 20
    left_out = beyond(12)
    for r, z, most in (
        (outside - 3.98, 50.0, left_out),
        (outside - 4.02, 50.0, 0.05),
        (149.0, middle - 17.98, left_out),
        (149.0, middle - 18.02, 0.05),
        (149.0, middle - 10.0, left_out),
    ):
        found = strongest("tread", r, z, spec=spec, places_mm=places)
        assert found == pytest.approx(most, rel=1e-9), (r, z)


def test_the_contact_is_where_the_patch_stands() -> None:
    """The last place is the worst, the first has 0.4 of it: a point in the way of the one counts
    when the patch is on the other."""
    places = (10.0, *(50.0,) * (PLACES - 1))
    assert strongest("tread", 150.0, 10.0, places_mm=places) == pytest.approx(0.05)
    shifted = (*(50.0,) * (PLACES - 1), 10.0)
    assert strongest("tread", 150.0, 10.0, places_mm=shifted) == pytest.approx(
        0.05 * 0.9975, rel=2e-3
    )


ALONG = math.sin(math.radians(70)), math.cos(math.radians(70))  # up the flange's rail-side face
INTO = -ALONG[1], ALONG[0]  # into its plate


@pytest.mark.parametrize(
    ("up", "deep", "counts"),
    [(5.0, 3.4, False), (5.0, 3.6, True), (11.9, 0.0, False), (12.1, 0.0, True), (0.0, 0.1, False)],
)
def test_the_push_itself_is_left_out(up: float, deep: float, counts: bool) -> None:
    """Rail-side half of the plate up to 12 mm, within 10 + 7 mm: the first angle beyond is that
    of 17 x 1.05 mm. Without a push it counts, and so does any other part."""
    at = 150 + up * ALONG[0] + deep * INTO[0], 60 + up * ALONG[1] + deep * INTO[1]
    push = [CALM, hoop(0.05)]
    calm = strongest("flange", *at, push=push)
    assert calm == pytest.approx(0.05)
    most = 0.1 if counts else beyond(17) + 0.05 * math.cos(17 * LONG_MM / 4 / 150)
    assert strongest("flange", *at, push=push, share=1.0) == pytest.approx(most, rel=1e-9)
    assert strongest("disc-gauge", *at, push=push, share=1.0) == pytest.approx(0.1)
