"""Speed, cant, sliding and room in the curve by hand, a hair on either side of each verdict."""

from __future__ import annotations

import math

import pytest

from platewheel.parts.checks.running.curve import (
    axle_yaw,
    curve_room,
    fits_curve,
    lateral_room_mm,
    middle_axle,
    room_given_mm,
    sagitta_mm,
    steepest_clear_deg,
)
from platewheel.parts.checks.running.speed import cant_deficiency, cant_standing, overturning
from platewheel.parts.checks.running.steering import curve_slide, tightest_steered_mm
from platewheel.parts.loads.travel import corner_ride_mm, travel_mm
from platewheel.parts.wagon.curving import (
    equilibrium_cant_mm,
    half_base_mm,
    overturning_speed_m_s,
    slide_share,
)
from tests.parts.checks.running.settings import PLAY_MM, running_setting

HAIR = 1e-4
SPACING = 625.0  # gauge 600, head 25


@pytest.mark.parametrize(
    ("speed", "verdict", "says"),
    [(0.999 / 1.5, "pass", "it would tip at"), (1.001 / 1.5, "warn", "little reserve"),
     (0.999, "warn", "little reserve"), (1.001, "fail", "it tips at the speed allowed")],
)  # fmt: skip
def test_tipping_turns_at_two_thirds_of_its_speed_and_at_it(
    speed: float, verdict: str, says: str
) -> None:
    """sqrt(9.81 x 10 x 312.5 / 1000) m/s, 1 m high; cant of 50 mm leans it asin(50 / 625)."""
    for cant in (0.0, 50.0):
        lean = math.atan(312.5 / 1000) + math.asin(cant / SPACING)
        tips = 3.6 * math.sqrt(9.81 * 10 * math.tan(lean))
        keys = {"centre_of_gravity_mm": 1000.0, "cant_mm": cant, "max_speed_km_h": speed * tips}
        result = overturning(running_setting(**keys))
        assert result.value == pytest.approx(tips)
        assert result.limit == pytest.approx(1.5 * speed * tips)
        assert result.verdict == verdict
        assert says in result.says


def test_cant_steeper_than_the_rails_are_apart_is_upright() -> None:
    """Gauge 100, head 25: 130 mm of cant on 125 stands on end, asin at most 1; told, not broken."""
    keys = {"gauge_mm": 100.0, "cant_mm": 130.0, "centre_of_gravity_mm": 300.0}
    result = overturning(running_setting(**keys))
    assert (result.verdict, result.value) == ("pass", None)
    assert result.says == "the cant alone holds the wagon on the outer side, at any speed"


def test_lacking_cant_turns_at_a_fifteenth_of_the_spacing() -> None:
    """G V2 / (127 R) less cant: 41.67 mm may lack on 625 mm (100 on 1500)."""
    for lacks, verdict in ((SPACING / 15 - HAIR, "pass"), (SPACING / 15 + HAIR, "warn")):
        speed = math.sqrt((lacks + 20) * 127 * 10 / SPACING)
        result = cant_deficiency(running_setting(max_speed_km_h=speed, cant_mm=20.0))
        assert (result.verdict, result.value) == (verdict, pytest.approx(lacks))
        assert result.limit == pytest.approx(SPACING / 15)
    for cant, says in ((1.0, "the outward push at this speed is slight"), (60.0, "all the cant")):
        assert says in cant_deficiency(running_setting(cant_mm=cant)).says


@pytest.mark.parametrize(
    ("cant", "height", "verdict"),
    [(62.5, None, "pass"), (62.5 + HAIR, None, "warn"), (62.5, 1000.0, "pass"),
     (62.5 + HAIR, 1000.0, "warn")],
)  # fmt: skip
def test_standing_on_cant_turns_at_a_tenth_of_the_spacing(
    cant: float, height: float | None, verdict: str
) -> None:
    result = cant_standing(running_setting(cant_mm=cant, centre_of_gravity_mm=height))
    assert result is not None
    assert (result.verdict, result.limit) == (verdict, pytest.approx(62.5))
    assert ("wagons lean inwards" in result.says) == (verdict == "warn")


def test_standing_on_cant_turns_before_it_tips() -> None:
    """3 m high it tips at 625 sin(atan(312.5 / 3000)); two thirds of that are allowed."""
    tips = SPACING * math.sin(math.atan(312.5 / 3000))
    for cant, verdict, says in (
        (tips / 1.5 - HAIR, "pass", "stands safely"),
        (tips / 1.5 + HAIR, "warn", "lean inwards; lower the outer rail, track.cant_mm = 43"),
        (tips - HAIR, "warn", f"lower the outer rail, track.cant_mm = {math.floor(tips / 1.5)}"),
        (tips, "fail", "tips inwards"),
    ):
        result = cant_standing(running_setting(cant_mm=cant, centre_of_gravity_mm=3000.0))
        assert result is not None
        assert (result.verdict, result.limit) == (verdict, pytest.approx(tips / 1.5))
        assert says in result.says


def test_wagon_in_the_curve_by_hand() -> None:
    """Ride of a 70 degree face on a corner of 4: 4 (1 - tan 35); travel of play 10, widening 5 and
    both rides; 9 km/h on 625 mm in 10 m; three points leave a quarter of the spacing."""
    ride = 4 * (1 - math.tan(math.radians(35)))
    assert corner_ride_mm(4.0, math.radians(70)) == pytest.approx(ride)
    assert corner_ride_mm(4.0, math.pi / 2) == pytest.approx(0)
    keys = {"rail_corner_radius_mm": 4.0, "gauge_widening_mm": 5.0, "tread_taper_1_in": 30.0}
    setting = running_setting(**keys)
    assert travel_mm(setting) == pytest.approx(15 + 2 * ride)
    assert slide_share(setting) == pytest.approx((0.0625 - (15 + 2 * ride) / 30 / 150) / 2)
    tight = running_setting(back_to_back_mm=590.0, tread_taper_1_in=30.0)
    assert travel_mm(tight) < 0
    assert slide_share(tight) == pytest.approx(0.0625 / 2)
    assert equilibrium_cant_mm(625, 9, 10) == pytest.approx(625 * 81 / 1270)
    assert half_base_mm(setting) == 312.5
    assert half_base_mm(running_setting(suspension="three-point")) == 156.25
    assert overturning_speed_m_s(300, 600, 10) == pytest.approx(math.sqrt(9.81 * 10 / 2))
    upright = math.pi / 2 - math.atan(0.5)
    assert overturning_speed_m_s(300, 600, 10, upright) == math.inf
    assert math.isfinite(overturning_speed_m_s(300, 600, 10, upright - 1e-6))


def test_what_tapers_steer() -> None:
    """r s / (lambda travel); half a millimetre steers little, none nothing."""
    assert tightest_steered_mm(150, 625, 1 / 20, 0.5) == pytest.approx(150 * 625 * 20 / 0.5)
    assert tightest_steered_mm(150, 625, 1 / 20, 10) == pytest.approx(150 * 625 * 2)
    for taper, travel in ((0.0, 10.0), (1 / 20, 0.0), (1 / 20, -1.0)):
        assert tightest_steered_mm(150, 625, taper, travel) == math.inf


def test_drag_turns_at_half_the_push() -> None:
    """0.5 x 800 kg x 9.81 x 3.125 % of sliding; taper told with its radius."""
    drag = 0.5 * 800 * 9.81 * 0.03125
    for push, verdict in ((2 * drag + HAIR, "pass"), (2 * drag - HAIR, "warn")):
        result = curve_slide(running_setting(push_force_n=push))
        assert (result.verdict, result.value) == (verdict, pytest.approx(drag))
        assert "fixed wheels slide 3.1 % of the way, no taper steers them; " in result.says
    steered = curve_slide(running_setting(tread_taper_1_in=20.0))
    radius = 150 * 625 * 20 / travel_mm(running_setting()) / 1000
    assert f"the taper steers down to a radius of {radius:.1f} m" in steered.says
    loose = curve_slide(running_setting(wheels_on_axle="loose"))
    assert loose.says == "loose wheels turn each at their own speed and do not slide along the rail"
    assert "loose wheels would avoid it" in steered.says
    assert steered.verdict == "pass"


def test_versine_of_a_chord() -> None:
    """3, 4, 5: a chord of 6 in a circle of 5 stands 1 off; of a diameter, the radius."""
    assert sagitta_mm(6, 5) == pytest.approx(1)
    assert sagitta_mm(10, 5) == 5
    with pytest.raises(ValueError, match="math domain"):
        sagitta_mm(10.1, 5)


def test_yaw_of_an_axle_by_hand() -> None:
    """asin(600 / 20000) and the travel over the wheelbase; below 45 degrees it fits."""
    setting = running_setting()
    travel = PLAY_MM + 6 * (1 - math.tan(math.radians(35)))
    assert axle_yaw(setting) == pytest.approx(math.asin(0.03) + travel / 600)
    none = running_setting(back_to_back_mm=600.0)
    assert axle_yaw(none) == pytest.approx(math.asin(0.03))
    base = 2000 * math.sin(math.pi / 4)  # in a curve of 1 m, no travel: 45 degrees
    for wheelbase, fits in ((base - 0.01, True), (base + 0.01, False), (2000.0, False)):
        keys = {"min_curve_radius_m": 1.0, "wheelbase_mm": wheelbase, "back_to_back_mm": 600.0}
        assert fits_curve(running_setting(**keys)) == fits


def test_room_turns_at_half_the_play_and_widening() -> None:
    """Steepest flange that clears passes, half a degree more grinds; square in the curve without
    skew it has room yet, so it warns; too little for that fails."""
    keys = {"min_curve_radius_m": 4.0, "flange_angle_deg": 72.0}
    for play, widening in ((6.0, 0.0), (5.0, 1.0)):
        back = 600 - 2 * running_setting(**keys).flange_reach_mm - play
        setting = running_setting(**keys, back_to_back_mm=back, gauge_widening_mm=widening)
        assert room_given_mm(setting) == pytest.approx(3)
    need = {}
    for play in (0.25 * k for k in range(1, 40)):
        back = 600 - 2 * running_setting(**keys).flange_reach_mm - play
        setting = running_setting(**keys, back_to_back_mm=back)
        result = curve_room(setting)
        args = (150.0, 15.0, math.radians(72))
        skewed = lateral_room_mm(*args, axle_yaw(setting), 4000)
        square = lateral_room_mm(*args, math.asin(600 / 8000), 4000)
        assert result.value == pytest.approx(skewed)
        expected = "fail" if square > play / 2 else "warn" if skewed > play / 2 else "pass"
        assert result.verdict == expected
        need[expected] = result.says
    assert set(need) == {"pass", "warn", "fail"}
    assert need["fail"].startswith("the axle jams: track.gauge_widening_mm = ")
    assert need["warn"].startswith("both flanges of an axle grind when the wagon skews")
    assert need["pass"].startswith("the axle passes at ")


def test_an_axle_jams_where_it_has_no_room_square_in_the_curve() -> None:
    """Half the play just above and below what asin(600 / 8000) of yaw needs without any skew."""
    keys = {"min_curve_radius_m": 4.0, "flange_angle_deg": 80.0}
    need = lateral_room_mm(150.0, 15.0, math.radians(80), math.asin(600 / 8000), 4000)
    assert need > 1
    for share, verdict in ((1 + 1e-4, "warn"), (1 - 1e-4, "fail")):
        back = 600 - 2 * running_setting(**keys).flange_reach_mm - 2 * need * share
        assert curve_room(running_setting(**keys, back_to_back_mm=back)).verdict == verdict


@pytest.mark.parametrize(
    ("keys", "steepest", "says"),
    [
        ({}, 90.0, "any flare clears"),
        ({"back_to_back_mm": 577.7, "min_curve_radius_m": 3.0}, None, "no flare clears"),
        ({"min_curve_radius_m": 1.0, "wheelbase_mm": 3000.0}, None, ""),
    ],
)
def test_what_flare_clears(keys: dict[str, float], steepest: float | None, says: str) -> None:
    assert steepest_clear_deg(running_setting(**keys)) == steepest
    assert says in curve_room(running_setting(**keys)).says


@pytest.mark.parametrize(("axles", "inner"), [(3, 0.0), (4, 1 / 3), (5, 0.0), (6, 1 / 5)])
def test_middle_axles_lie_on_the_versine(axles: int, inner: float) -> None:
    """The two nearest the middle of an even number are a spacing apart: less by its versine."""
    radius, base = 10_000.0, 1400.0

    def versine(chord: float) -> float:
        return radius - math.sqrt(radius**2 - (chord / 2) ** 2)

    offset = versine(base) - versine(inner * base)
    for widening, verdict in ((offset - PLAY_MM + HAIR, "pass"), (offset - PLAY_MM - HAIR, None)):
        result = middle_axle(
            running_setting(wheelbase_mm=base, axles=axles, gauge_widening_mm=widening)
        )
        assert result is not None
        assert result.value == pytest.approx(offset, rel=1e-9)
        assert result.limit == pytest.approx(PLAY_MM + widening)
        assert result.verdict == (verdict or ("fail" if axles == 3 else "warn"))


def test_a_middle_axle_in_a_curve_as_tight_as_its_wheelbase() -> None:
    for wheelbase, value in ((2000.0, None), (1999.0, pytest.approx(968.4, abs=0.1))):
        keys = {"min_curve_radius_m": 1.0, "wheelbase_mm": wheelbase, "axles": 3}
        result = middle_axle(running_setting(**keys))
        assert result is not None
        assert (result.verdict, result.value) == ("fail", value)


@pytest.mark.parametrize(("allowed", "told"), [(11.202, "11.2"), (11.198, "11.1")])
def test_the_speed_for_the_cant_there_is_told_rounded_down(allowed: float, told: str) -> None:
    """V2 = 127 R (cant + 1/15 of the spacing) / spacing, turned round for the cant."""
    cant = allowed**2 * SPACING / (127 * 10) - SPACING / 15
    says = cant_deficiency(running_setting(max_speed_km_h=20.0, cant_mm=cant)).says
    assert says.endswith(f"or run slower there, wagon.max_speed_km_h = {told}")
