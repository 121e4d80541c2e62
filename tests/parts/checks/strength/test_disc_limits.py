"""Discs, hub and load sharing on a wheel of odd sizes, by hand; and where each check turns."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.checks.strength.disc_buckling import (
    disc_buckling,
    disc_rim_stress,
    loaded_length_mm,
    patch_resistance_n,
)
from platewheel.parts.checks.strength.disc_load import (
    disc_spacing_mm,
    greatest_disc_share,
    rail_positions_mm,
    rim_spread_mm,
    slip_torque_n_mm,
)
from platewheel.parts.checks.strength.hub_strength import (
    bore_pressure,
    edge_pressure_n_mm2,
    hub_tube_bending,
    tube_modulus_mm3,
)
from tests.parts.checks.settings import setting_of
from tests.parts.checks.strength.limits import most_load_n, share_told
from tests.parts.checks.strength.odd_wheel import ODD

FIT = {"fit_clearance_mm": 0.7}


def odd(load_n: float, **more: Any) -> Any:
    """The odd wheel under a load; head of 30 mm, all play of 8 mm as set."""
    track = {"rail_head_width_mm": 30.0} | more.pop("track", {})
    return setting_of(load_n, wheel=ODD | FIT | more.pop("wheel", {}), track=track, **more)


def test_where_the_rail_lies_under_the_tread() -> None:
    """Flange to the rail: middle of the head at 65 - 15 = 50; play and widening to the field."""
    assert disc_spacing_mm(odd(1e3)) == 44
    assert rail_positions_mm(odd(1e3)) == pytest.approx((50, 42))
    assert rail_positions_mm(odd(1e3, track={"gauge_widening_mm": 5.0})) == pytest.approx((50, 37))
    assert greatest_disc_share(odd(1e3)) == pytest.approx((50 - 11.5) / 44)
    wide = odd(1e3, track={"gauge_widening_mm": 40.0})
    assert rail_positions_mm(wide) == pytest.approx((50, 2))
    assert greatest_disc_share(wide) == pytest.approx(1 + (11.5 - 2) / 44)


@pytest.mark.parametrize(("widening", "away"), [(49.2, 0.0), (41.6, 0.4), (42.5, 0.0)])
def test_a_rail_off_the_tread_bears_at_its_edge(widening: float, away: float) -> None:
    """50 mm less 8 of play less the widening, at least 0: the tread ends there."""
    positions = rail_positions_mm(odd(1e3, track={"gauge_widening_mm": widening}))
    assert positions == pytest.approx((50, away))


def test_a_head_wider_than_twice_the_tread_bears_at_the_edge() -> None:
    """Tread 30 wide, head 62: its middle would lie at -1; discs of 3 mm at 8.5 and 20.5."""
    narrow = {"tread_width_mm": 30.0, "disc_thickness_mm": 3.0, "disc_field_inset_mm": 7.0}
    setting = setting_of(wheel=narrow, track={"rail_head_width_mm": 62.0})
    assert rail_positions_mm(setting) == (0.0, 0.0)


def test_no_play_takes_the_rail_nowhere() -> None:
    """Wheels set too wide have no play, not less than none."""
    reach = odd(1e3).flange_reach_mm
    for play in (-3.0, 0.5):
        set_so = odd(1e3, axle={"back_to_back_mm": 457 - 2 * reach - play})
        assert rail_positions_mm(set_so) == pytest.approx((50, 50 - max(play, 0)))


def test_loose_wheels_slip_before_they_turn_the_axle() -> None:
    use = {"friction_high": 0.45}
    assert slip_torque_n_mm(odd(2e3, use=use)) == pytest.approx(0.45 * 2e3 * 155.5)
    assert slip_torque_n_mm(odd(2e3, use=use, axle={"wheels_on_axle": "loose"})) == 0


SPREAD = 3.25 * (32.5 * 7**3 / 12 / 5) ** (1 / 3)  # EN 1993-6, table 5.1: half the ring's width
SHARE = (50 - 11.5) / 44


def test_compression_under_the_ring() -> None:
    """Share of the load over the spread length and 5 mm of disc; limit 275 / 1.5."""
    assert rim_spread_mm(odd(1e3)) == pytest.approx(SPREAD)
    result = disc_rim_stress(odd(9e3))
    assert result.value == pytest.approx(SHARE * 9e3 / (SPREAD * 5))
    assert result.limit == pytest.approx(275 / 1.5)
    most = 275 / 1.5 * SPREAD * 5 / SHARE
    assert share_told(disc_rim_stress(odd(0.97 * most))) == 97
    assert most_load_n(lambda load: disc_rim_stress(odd(load))) == pytest.approx(most)


def test_thickness_that_stands_it() -> None:
    """At 1.5 times the limit the spread, which goes with t^(-1/3), asks 5 x 1.5^1.5 = 9.19 mm."""
    most = 275 / 1.5 * SPREAD * 5 / SHARE
    assert "disc_thickness_mm = 9.2," in disc_rim_stress(odd(1.5 * most)).says


def patch_by_hand(t: float, fy: float, tread_mm: float = 7.0) -> float:
    """EN 1993-1-5, 6.2 to 6.5, type b, k = 3.5, no stiff bearing, m2 = 0: web of the disc from
    hub hole (55 + 2 x 0.7) to rim (311 - 14 - 1.4), flange of half the ring, at most 15 eps tf on
    each side; F = fy l t / 1.1 times 0.5 / slenderness where that is below 1."""
    height = (295.6 - 56.4) / 2
    flange = min(32.5, 30 * math.sqrt(235 / fy) * tread_mm)
    length = 2 * tread_mm * (1 + math.sqrt(flange / t))
    critical = 0.9 * 3.5 * 210e3 * t**3 / height
    squash = length * t * fy
    return squash * min(1.0, 0.5 / math.sqrt(squash / critical)) / 1.1


@pytest.mark.parametrize("t", [1.0, 2.0, 5.0])
def test_patch_load_on_the_odd_wheel(t: float) -> None:
    setting = odd(3e3, wheel={"disc_thickness_mm": t})
    share = greatest_disc_share(setting)
    result = disc_buckling(setting)
    assert result.value == pytest.approx(1.5 * share * 3e3)
    assert result.limit == pytest.approx(patch_by_hand(t, 275))

    def at(load: float) -> CheckResult:
        return disc_buckling(odd(load, wheel={"disc_thickness_mm": t}))

    most = patch_by_hand(t, 275) / (1.5 * share)
    assert most_load_n(at) == pytest.approx(most)
    assert share_told(at(0.8 * most)) == 80


@pytest.mark.parametrize("steel", ["S235", "S275", "S355"])
def test_a_thin_ring_spreads_over_fifteen_times_its_thickness(steel: str) -> None:
    """1 mm of ring under 65 mm: 30 eps tf is 26 to 30 mm, below the 32.5 of half the ring."""
    fy = {"S235": 235, "S275": 275, "S355": 355}[steel]  # EN 10025-2, up to 16 mm
    thin = odd(1e3, wheel={"tread_thickness_mm": 1.0, "disc_thickness_mm": 3.0, "steel": steel})
    height = (311 - 2 - 1.4 - 56.4) / 2
    length = 2 * 1 * (1 + math.sqrt(30 * math.sqrt(235 / fy) / 3))
    squash, critical = length * 3 * fy, 0.9 * 3.5 * 210e3 * 27 / height
    expected = squash * min(1, 0.5 / math.sqrt(squash / critical)) / 1.1
    assert disc_buckling(thin).limit == pytest.approx(expected)


def test_steel_of_the_thicker_plate() -> None:
    """Disc of 17 mm, or ring of 18: above 16 mm S275 has 265 N/mm2 (EN 10025-2)."""
    thick = odd(1e3, wheel={"disc_thickness_mm": 17.0})
    assert disc_buckling(thick).limit == pytest.approx(patch_by_hand(17.0, 265))
    assert disc_rim_stress(thick).limit == pytest.approx(265 / 1.5)
    ring = odd(1e3, wheel={"tread_thickness_mm": 18.0, "vent_circle_mm": 200.0})
    flange = 32.5
    length = 2 * 18 * (1 + math.sqrt(flange / 5))
    critical = 0.9 * 3.5 * 210e3 * 125 / ((311 - 36 - 1.4 - 56.4) / 2)
    squash = length * 5 * 265
    expected = squash * min(1, 0.5 / math.sqrt(squash / critical)) / 1.1
    assert disc_buckling(ring).limit == pytest.approx(expected)


def test_least_disc_that_does_not_buckle_is_told_in_halves() -> None:
    """From 1 mm up in steps of 0.5, at most 40, the first that the patch formula passes."""
    load = 9e3
    setting = odd(load, wheel={"disc_thickness_mm": 1.0})
    need = 1.5 * greatest_disc_share(setting) * load
    first = next(t for t in (1 + i / 2 for i in range(79)) if patch_by_hand(t, 275) >= need)
    assert f"disc_thickness_mm = {first:g}," in disc_buckling(setting).says
    crooked = {"disc_thickness_mm": 1.0, "disc_field_inset_mm": 40.0}
    crushed = odd(9.9e4, wheel=crooked, track={"gauge_widening_mm": 60.0})
    assert 1.5 * greatest_disc_share(crushed) * 9.9e4 > patch_by_hand(40.0, 265)
    assert "disc_thickness_mm = 40," in disc_buckling(crushed).says


def test_endless_panel() -> None:
    """Closed forms with numbers that divide badly."""
    assert loaded_length_mm(4.0, 7.0, 30.0) == pytest.approx(14 * (1 + math.sqrt(7.5)))
    slender = patch_resistance_n(1.5, 333.0, 7.0, 30.0, 275.0)
    length = 14 * (1 + math.sqrt(20))
    by_hand = 0.5 * math.sqrt(length * 1.5 * 275 * 0.9 * 3.5 * 210e3 * 1.5**3 / 333) / 1.1
    assert slender == pytest.approx(by_hand)


def test_bending_of_the_odd_tube() -> None:
    """0.4 x 8 kN x 155.5 over pi (55^4 - 33^4) / (32 x 55); wall 11 mm, 275 / 1.5."""
    result = hub_tube_bending(odd(8e3))
    modulus = math.pi * (55**4 - 33**4) / (32 * 55)
    assert result is not None
    assert result.value == pytest.approx(0.4 * 8e3 * 155.5 / modulus)
    assert result.limit == pytest.approx(275 / 1.5)
    most = 275 / 1.5 * modulus / 155.5 / 0.4
    assert share_told(hub_tube_bending(odd(0.97 * most))) == 97
    assert most_load_n(lambda load: hub_tube_bending(odd(load))) == pytest.approx(most)


def test_a_tube_wall_of_the_last_listed_thickness_is_judged() -> None:
    """EN 10025-2 lists up to 150 mm: 195 N/mm2 for S235."""
    big = {"tread_diameter_mm": 600.0, "vent_circle_mm": 500.0}
    judged = hub_tube_bending(setting_of(wheel=big | {"hub_tube_outside_mm": 335.0}))
    beyond = hub_tube_bending(setting_of(wheel=big | {"hub_tube_outside_mm": 336.0}))
    assert judged is not None
    assert beyond is not None
    assert judged.limit == pytest.approx(195 / 1.5)
    assert beyond.verdict == "not-assessed"
    assert beyond.says.startswith("no yield strength is listed for a tube's wall of 150.5 mm")


def test_the_tube_advised_is_the_first_whole_millimetre() -> None:
    """Bore 33 in 36.5 mm: the first whole outside from 37 on whose modulus carries the moment
    at the limit of the wall that there is."""
    result = hub_tube_bending(odd(8e3, wheel={"hub_tube_outside_mm": 36.5}))
    assert result is not None
    need = 0.4 * 8e3 * 155.5 / (275 / 1.5)
    first = next(d for d in range(37, 200) if math.pi * (d**4 - 33**4) / (32 * d) >= need)
    assert f"hub_tube_outside_mm = {first} or more" in result.says
    assert tube_modulus_mm3(first, 33) >= need > tube_modulus_mm3(first - 1, 33)


def test_pressure_in_the_odd_bore() -> None:
    """F / (33 x 75) + 6 M / (33 x 75^2), limit 0.6 x 275; without a tube the share of the load
    and the couple of the moment on 44 mm, on 33 x 5 mm of one disc."""
    moment = 0.4 * 8e3 * 155.5
    result = bore_pressure(odd(8e3))
    assert result.value == pytest.approx(8e3 / (33 * 75) + 6 * moment / (33 * 75**2))
    assert edge_pressure_n_mm2(8e3, moment, 33, 75) == pytest.approx(result.value)
    assert result.limit == pytest.approx(0.6 * 275)
    bare = odd(8e3, wheel={"hub_tube_length_mm": 0.0, "hub_tube_outside_mm": 0.0})
    told = bore_pressure(bare)
    assert told.value == pytest.approx((SHARE * 8e3 + moment / 44) / (33 * 5))
    times = (SHARE * 24e3 + 3 * moment / 44) / (33 * 5) / (0.6 * 275)
    bad = bore_pressure(odd(24e3, wheel={"hub_tube_length_mm": 0.0, "hub_tube_outside_mm": 0.0}))
    plate = math.ceil(10 * times * 5) / 10
    assert f"disc_thickness_mm = {plate:g}, or a hub tube" in bad.says
