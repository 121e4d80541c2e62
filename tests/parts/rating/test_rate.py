"""What the rating makes of its limits: the patch, the contact, the play."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from platewheel.parts.loads.wheel_load import flange_push_n, wheel_load_n
from platewheel.parts.rating import rate as rate_module
from platewheel.parts.rating.endurance import endurances
from platewheel.parts.rating.fatigue_limit import root_details, throat_limit
from platewheel.parts.rating.limit import Limit
from platewheel.parts.rating.rate import (
    Rating,
    borne_n,
    contact_patch_mm,
    least_place_mm,
    rate,
)
from platewheel.parts.rating.seam_limit import seam_details
from platewheel.parts.rating.slip_torque import slip_details
from platewheel.parts.rating.static_limit import regular_points
from platewheel.parts.rating.vent_edge import vent_details
from platewheel.parts.rating.vented_disc import give_factor
from platewheel.parts.setting.least_wheel import least_wheel
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.section_mesh import section_mesh
from platewheel.parts.stress.turn import angles
from tests.parts.checks.settings import setting_of
from tests.parts.stress.made_response import HARMONICS, made_response

MODULUS = 210_000 / (2 * (1 - 0.3**2))  # Johnson: steel on steel, 1/E* = 2 (1 - nu^2) / E
STATIC = Limit("static strength", 9000.0, "tread", "fy / 1.5")
WEAK = Limit("weld roots", 8000.0, "rim", "FAT 36", 0.5)
WEAKER = Limit("weld toes", 7000.0, "toe", "FAT 90", 0.7)


def shaken(setting: Setting, **wagon: Any) -> Setting:
    return replace(setting, wagon=setting.wagon.model_copy(update=wagon))


def test_words_of_a_rating() -> None:
    endless = Limit("weld roots", math.inf, "", "FAT 36")
    new, worn = Rating((WEAKER, WEAK, STATIC, endless), 0.0), Rating((WEAK,), 0.5)
    assert (new.state, worn.state) == ("new", "worn")
    assert new.biting == (WEAKER, WEAK, STATIC)
    assert new.governs is WEAKER
    assert new.load_n == 7000.0
    assert new.first_crack is None


def test_patch_on_a_flat_rail() -> None:
    """Hertz, line: b = sqrt(2 F d / (pi l E*)); flat 36 - 2 x 3 mm of the head, at 10 kN; of a
    taper the diameter at its field edge, 300 - 2 x 60 / 20."""
    assert contact_patch_mm(setting_of(10_000.0)) == pytest.approx(
        (30.0, math.sqrt(2 * 10_000 * 300 / (math.pi * 30 * MODULUS)))
    )
    tapered = setting_of(10_000.0, wheel={"tread_taper_1_in": 20.0})
    assert contact_patch_mm(tapered)[1] == pytest.approx(
        math.sqrt(2 * 10_000 * 294 / (math.pi * 30 * MODULUS))
    )


def test_patch_on_a_crown_as_round_as_the_wheel() -> None:
    """Hertz, circle: a^3 = 3 F R' / (4 E*) with 1/R' = 1/150, two equal crossed cylinders."""
    crowned = setting_of(10_000.0, track={"rail_head_radius_mm": 150.0})
    radius = (3 * 10_000 * 150 / (4 * MODULUS)) ** (1 / 3)
    assert contact_patch_mm(crowned) == pytest.approx((2 * radius, radius), rel=1e-4)


@pytest.mark.parametrize(("crown", "across_is_long"), [(400.0, True), (60.0, False)])
def test_patch_is_long_along_what_is_flatter(crown: float, across_is_long: bool) -> None:
    """Shape for F -> axes a >= b: a flat crown makes it wide, a sharp one long along the rail;
    crown and tread exchanged, the axes change places."""
    setting = setting_of(10_000.0, track={"rail_head_radius_mm": crown})
    width, along = contact_patch_mm(setting)
    assert (width / 2 > along) == across_is_long
    other = setting_of(
        10_000.0,
        track={"rail_head_radius_mm": 150.0},
        wheel={"tread_diameter_mm": 2 * crown, "vent_count": 0, "hub_tube_outside_mm": 45.0},
    )
    assert contact_patch_mm(other) == pytest.approx((2 * along, width / 2))


def test_patch_is_no_wider_than_head_and_tread() -> None:
    """A flat crown under 100 kN: Hertz's 22.5 mm is more than a head of 20 mm, or a tread of 22."""
    flat = {"rail_head_radius_mm": 1000.0}
    full = contact_patch_mm(setting_of(100_000.0, track=flat))
    assert 22.0 < full[0] < 36.0
    narrow_head = setting_of(100_000.0, track=flat | {"rail_head_width_mm": 20.0})
    assert contact_patch_mm(narrow_head) == (20.0, full[1])
    wheel = {"tread_width_mm": 22.0, "disc_thickness_mm": 3.0, "hub_tube_length_mm": 30.0}
    wheel |= {"disc_field_inset_mm": 4.0, "disc_gauge_inset_mm": 4.0}
    narrow_tread = setting_of(100_000.0, track=flat, wheel=wheel)
    assert contact_patch_mm(narrow_tread) == (22.0, full[1])


def test_least_place_off_the_flange() -> None:
    """Tread 60, head 36: 42 mm from the field edge at the flange; play of 8 mm and widening move
    the wheel off, no further than half a patch from the edge; no play is no move."""
    for widening, width, middle in ((0.0, 20.0, 34.0), (5.0, 20.0, 29.0), (5.0, 63.0, 31.5)):
        setting = setting_of(track={"gauge_widening_mm": widening})
        assert setting.play_mm == pytest.approx(8.0)
        assert least_place_mm(setting, width) == pytest.approx(middle)
    tight = setting_of(track={"gauge_widening_mm": 3.0}, axle={"back_to_back_mm": 460.0})
    assert tight.play_mm < 0
    assert least_place_mm(tight, 20.0) == pytest.approx(39.0)


TIP = np.zeros((HARMONICS, 3, PLACES + 1))
TIP[:2, 2, PLACES] = -5e-6, 2e-6  # the push moves the tip by -3e-6 mm/N along the axle ...
TIP[:, 2, :PLACES] = 7e-3  # ... whatever the patch does
TIP[:, :2, PLACES] = 9e-3


def made_rating(setting: Setting, monkeypatch: pytest.MonkeyPatch) -> tuple[Rating, dict[str, Any]]:
    """The rating of a made response, and what was asked for."""
    asked: dict[str, Any] = {}
    bead = np.zeros((HARMONICS, 4, PLACES + 1))
    bead[1, 0] = 40.0
    legs = section_mesh(setting.wheel, size_mm=12.0).legs
    made = made_response(
        setting.wheel,
        [("disc-field", 100.0, 11.0), *(("disc-gauge", 120.0, z) for z in (46.0, 52.0))]
        + [("disc-field", 120.0, z) for z in (8.0, 14.0)],
        mean=[(0.02, 0.0, 0.0, 0.0, 0.0, 0.0)] * 5,
        legs=legs,
        bead_forces={"weld-root": bead},
        tip=TIP,
    )

    def respond(wheel: Any, **kind: Any) -> Any:
        asked.update(kind, wheel=wheel)
        return made

    monkeypatch.setattr(rate_module, "respond", respond)
    rating, response = rate(setting, worn_mm=0.5, size_mm=3.0, more_harmonics=2.0)
    assert response is made
    return rating, asked


def test_the_limits_of_a_made_response(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each limit by its closed form, and what the analysis was asked for."""
    setting = shaken(setting_of(2000.0, use={"lateral_share": 0.4}), shock_factor=1.5)
    share = flange_push_n(setting) / wheel_load_n(setting)
    rating, asked = made_rating(setting, monkeypatch)
    width, half_length = contact_patch_mm(setting)
    assert asked == {
        "wheel": least_wheel(setting).wheel,
        "contact_width_mm": width,
        "half_length_mm": half_length,
        "least_place_mm": least_place_mm(setting, width),
        "worn_mm": 0.5,
        "size_mm": 3.0,
        "more_harmonics": 2.0,
    }
    assert rating.worn_mm == 0.5
    loads = {limit.name: limit for limit in rating.limits}
    assert [limit.load_n for limit in rating.limits] == sorted(x.load_n for x in rating.limits)
    # von Mises 0.02 under 1 N against fy / 1.5
    assert loads["static strength"].load_n == pytest.approx(235 / 1.5 / 0.02)
    # the tip gives 3e-6 mm per N of push; a tenth of the play of 8 mm is allowed (our choice)
    stiff = loads["flange stiffness"]
    more = give_factor(setting.wheel)  # what the vents add
    assert stiff.load_n == pytest.approx(0.1 * 8 / (3e-6 * share * more))
    assert (stiff.where, stiff.by) == ("flange tip", "a tenth of the play")
    # Johnson 1985, 9.2: p0 = sqrt(F E* / (pi l R)) to 4 fy / sqrt 3: F = p0^2 pi l R / E*
    shakedown = 4 * 235 / math.sqrt(3)
    contact = loads["contact pressure"]
    assert contact.load_n == pytest.approx(shakedown**2 * math.pi * 30 * 150 / MODULUS)
    assert (contact.where, contact.by) == ("tread on rail", "shakedown, 4 k")
    # fatigue and throats as their own modules have them; all of the first kind have a damage
    _, response = rate(setting)
    assert (asked["worn_mm"], asked["size_mm"], asked["more_harmonics"]) == (0.0, 2.0, 1.0)
    details = [
        *root_details(response),
        *vent_details(response, setting.process, regular_points(response)),
        *seam_details(response),
        *slip_details(response, setting),
    ]
    lasting = endurances(details, setting, angles(response))
    wanted = [one.limit(wheel_load_n(setting)) for one in lasting]
    assert {limit.name for limit in wanted} == {
        *("weld roots", "opened weld roots", "weld roots, full range"),
        "vent edges",
    }
    for limit in [*wanted, throat_limit(response, share, share)]:
        assert loads[limit.name] == limit
    assert {limit.name for limit in rating.limits if limit.damage is not None} == {
        limit.name for limit in wanted
    }
    assert rating.first_crack is not None
    assert rating.first_crack.damage == max(limit.damage or 0.0 for limit in wanted if limit.judged)


def test_a_rated_load_as_the_mean_load_it_stands_for() -> None:
    """Design 1.2 x 1.5 times the mean of 2000 N: rated 5400 N are 3000 N in the mean."""
    setting = shaken(setting_of(2000.0), load_unevenness=1.2, shock_factor=1.5)
    assert borne_n(setting, 5400.0) == pytest.approx(3000.0)


@pytest.mark.parametrize(
    ("changes", "gone"),
    [
        ({"use": {"lateral_share": 0.0}, "track": {"cant_mm": 100.0}}, "flange stiffness"),
        ({"axle": {"back_to_back_mm": 460.0}}, "flange stiffness"),
        ({"track": {"rail_head_radius_mm": 150.0}}, "contact pressure"),
    ],
)
def test_limits_that_do_not_apply(
    changes: dict[str, Any], gone: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No push, no play to lose, no line of contact: no such limit; the other one stays."""
    rating, _ = made_rating(setting_of(2000.0, **changes), monkeypatch)
    names = {limit.name for limit in rating.limits}
    assert {"flange stiffness", "contact pressure"} - names == {gone}


@pytest.mark.parametrize(("less_mm", "rated"), [(0.0, False), (0.5, False), (-0.5, True)])
def test_a_wheelset_without_play_has_none_to_lose(
    less_mm: float, rated: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Back to back so wide that the flanges just fill the gauge, or half a mm more or less."""
    wide = 457.0 - 2 * setting_of().flange_reach_mm + less_mm
    setting = setting_of(2000.0, axle={"back_to_back_mm": wide})
    assert setting.play_mm == pytest.approx(-less_mm) if less_mm else setting.play_mm == 0.0
    rating, _ = made_rating(setting, monkeypatch)
    loads = {limit.name: limit.load_n for limit in rating.limits}
    assert ("flange stiffness" in loads) == rated
    if rated:
        share = flange_push_n(setting) / wheel_load_n(setting) * give_factor(setting.wheel)
        assert loads["flange stiffness"] == pytest.approx(0.05 / (3e-6 * share))


def test_contact_of_a_thick_tapered_tread(monkeypatch: pytest.MonkeyPatch) -> None:
    """S235 over 16 mm: 225 N/mm2 (EN 10025-2 table 7); the least diameter, at the field edge."""
    wheel = {"tread_thickness_mm": 17.0, "vent_circle_mm": 220.0, "tread_taper_1_in": 20.0}
    setting = setting_of(2000.0, wheel=wheel | {"vent_count": 0})
    rating, _ = made_rating(setting, monkeypatch)
    found = next(limit.load_n for limit in rating.limits if limit.name == "contact pressure")
    shakedown = 4 * 225 / math.sqrt(3)
    assert found == pytest.approx(shakedown**2 * math.pi * 30 * 147 / MODULUS)
