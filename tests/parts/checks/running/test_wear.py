"""Where the flange touches, and what wears: by hand, and a hair on either side of each verdict."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from platewheel.cli.job.job import read_job
from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.running.flange_contact import (
    flange_life_km,
    flange_lost_mm2,
    flange_touch,
    flange_wear,
    wear_mm2_per_km,
)
from platewheel.parts.checks.running.wear import hollow_tread, thin_flange
from platewheel.parts.loads.flange_contact import attack, contact_in_curve, lowest_contact
from platewheel.parts.loads.wheel_load import frame_in_curve, push_shares
from platewheel.parts.setting.wear import (
    flange_wear_mm,
    least_flange_mm,
    most_depth_mm,
    most_hollow_mm,
    unworn_band_mm,
    wear_faults,
)
from tests.cli.jobs import job_text
from tests.parts.checks.running.settings import running_setting


def test_contact_turns_at_six_tenths_and_on_the_tip() -> None:
    seen = {}
    for tenth in range(600, 901, 2):
        setting = running_setting(flange_angle_deg=tenth / 10, rail_corner_radius_mm=0.0)
        result, lowest = flange_touch(setting), lowest_contact(setting)
        assert result is not None
        share = lowest.down_mm / 15
        expected = "fail" if lowest.tip else "warn" if share > 0.6 else "pass"
        assert (result.verdict, result.limit) == (expected, 0.6)
        assert result.value == pytest.approx(share)
        seen[expected] = result.says
    assert set(seen) == {"pass", "warn", "fail"}
    assert "rides on its tip" in seen["fail"]
    assert "touches low" in seen["warn"]
    own = contact_in_curve(running_setting())
    told = flange_touch(running_setting())
    assert told is not None
    assert f"{own.ahead_mm:.0f} mm ahead of the axle" in told.says
    # contact advance of the textbooks on a sharp corner: psi / cos delta, 0.0467 / cos 70 = 14 %
    sharp = flange_touch(running_setting(rail_corner_radius_mm=0.0))
    assert sharp is not None
    assert sharp.says.endswith("and slides 14 % of the way")
    assert flange_touch(running_setting(min_curve_radius_m=1.0, wheelbase_mm=3000.0)) is None


def test_wear_law_by_hand() -> None:
    """T gamma of 50, 150 and 220 N on 300 mm: 12.5 / 300, 25 / 300, 107.8 / 300 mm2 a km; the
    steps meet at 100 N and near 150 N, (1.19 x 150.4 - 154) = 25."""
    assert wear_mm2_per_km(500, 0.1, 300) == pytest.approx(12.5 / 300)
    assert wear_mm2_per_km(1000, 0.15, 300) == pytest.approx(25 / 300)
    assert wear_mm2_per_km(1000, 0.22, 300) == pytest.approx(107.8 / 300)
    assert wear_mm2_per_km(1000, 0.1, 300) == pytest.approx(
        wear_mm2_per_km(999.999, 0.1, 300), rel=1e-5
    )
    for low, high in ((99.0, 101.0), (149.0, 151.0), (199.0, 201.0)):
        assert wear_mm2_per_km(low, 1, 300) <= wear_mm2_per_km(high, 1, 300) + 1e-12


def test_a_flange_s_life_by_hand() -> None:
    """The assumed way, of which a share is in the tightest curve; half of it leading outside, the
    mean of loaded and empty; friction x push / sin of the angle there, times its sliding."""
    setting = running_setting(flange_wear_mm=1.0)
    frame = frame_in_curve(setting, 10.0)
    touch = contact_in_curve(setting)
    slides = math.hypot(
        math.hypot(math.tan(frame.attack), touch.ahead_mm / 150), touch.below_mm / 150
    )
    mean = (200 + 300) * 9.81 / 4
    force = 0.5 * push_shares(setting, 10.0)[0] * mean / math.sin(touch.angle)
    lost = 0.25 * force * slides / 300
    assert force * slides < 100
    assert flange_lost_mm2(setting, 10.0, frame, mean) == pytest.approx(lost)
    share = sum(piece.share or 0.0 for piece in setting.pieces if piece.radius_m == 10.0)
    assert flange_life_km(setting) == pytest.approx(1.0 * 15 / (lost * share * 0.5), rel=0.02)
    assert attack(setting) == frame.attack


def test_flange_wear_turns_at_the_years_asked() -> None:
    life = flange_life_km(running_setting())
    for share, verdict in ((0.999, "pass"), (1.001, "warn")):
        result = flange_wear(running_setting(km_per_year=100.0, years=share * life / 100))
        assert result is not None
        assert result.verdict == verdict


def test_face_lost_is_told_over_a_thousand_km() -> None:
    """So many mm2 a km, loaded, off a face 15 mm deep; at least so much where it warns."""
    setting = running_setting()
    lost = flange_lost_mm2(setting, 10.0, frame_in_curve(setting, 10.0), 1962.0)
    good = flange_wear(running_setting(km_per_year=1.0, years=0.1))
    bad = flange_wear(running_setting(km_per_year=10000.0))
    assert good is not None
    assert bad is not None
    assert f"loses {lost:.2g} mm2 a km" in good.says
    assert f"loaded, {1000 * lost / 15:.2g} mm of its face in 1000 km" in good.says
    told = float(bad.says.split("loaded: ")[1].split(" mm of its face in 1000 km")[0])
    assert 0 <= told - 1000 * lost / 15 <= 0.1


def test_more_wear_is_advised_up_to_scrap_alone() -> None:
    """1 mm of wear lasts the life told; so many times the years ask for as many mm, of the 1.6 mm
    (a quarter of 6, over sin 70) that scrap leaves."""
    setting = running_setting(flange_wear_mm=1.0)
    life = flange_life_km(setting) / 100
    there = setting.flange_reach_mm - least_flange_mm(setting)
    for asked, told in ((there - 0.15, True), (there - 0.05, False), (there + 1.0, False)):
        keys = {"flange_wear_mm": 1.0, "km_per_year": 100.0, "years": asked * life}
        result = flange_wear(running_setting(**keys))
        assert result is not None
        assert result.verdict == "warn"
        said = f"{math.ceil(10 * asked) / 10:g}"
        assert (f"flange_wear_mm = {said}, " in result.says) == told
        assert ("flange_wear_mm" in result.says) == told


def test_scrap_limits() -> None:
    """7.5 in wheel standard: 0.117 in of 0.156 is three quarters; hollows and depth by judgement,
    with nothing beyond what 49 CFR condemns: 7.9 mm and 38.1 on flanges from 25.4."""
    assert pytest.approx(0.75) == 0.117 / 0.156
    setting = running_setting()
    lost = 0.25 * 6 / math.sin(math.radians(70))
    assert least_flange_mm(setting) == pytest.approx(setting.flange_reach_mm - lost)
    assert flange_wear_mm(setting) == pytest.approx(1 / math.sin(math.radians(70)))
    assert flange_wear_mm(running_setting(flange_wear_mm=2.5)) == 2.5
    assert most_depth_mm(setting) == pytest.approx(18)
    for depth, hollow in ((10.0, 1.5), (15.0, 2.0), (25.4, 2 * 25.4 / 15), (30.0, 4.0)):
        assert most_hollow_mm(running_setting(flange_depth_mm=depth)) == pytest.approx(hollow)
        assert hollow < 7.9


def test_a_flange_turns_at_three_quarters_and_at_half_of_that() -> None:
    limit, reach = least_flange_mm(running_setting()), running_setting().flange_reach_mm
    for wear, verdict in (
        (reach - limit - 1e-4, "pass"),
        (reach - limit + 1e-4, "warn"),
        (reach - limit / 2 - 1e-4, "warn"),
        (reach - limit / 2 + 1e-4, "fail"),
    ):
        assert thin_flange(running_setting(flange_wear_mm=wear)).verdict == verdict


def test_a_hollow_needs_a_band_that_no_rail_reaches() -> None:
    """60 mm of tread less 25 of head, 10 of play and 4 of widening: 21 mm stay unworn."""
    setting = running_setting(gauge_widening_mm=4.0)
    assert unworn_band_mm(setting) == pytest.approx(21)
    loose = {"gauge_tolerance_mm": (0.0, 7.0), "back_to_back_tolerance_mm": (-2.0, 0.0)}
    back = setting.back_to_back_mm
    assert unworn_band_mm(running_setting(**loose, back_to_back_mm=back)) == pytest.approx(16)
    for wear, verdict in ((2.0, "pass"), (2.01, "warn")):
        assert hollow_tread(running_setting(wear_allowance_mm=wear)).verdict == verdict
    level = hollow_tread(running_setting(wear_allowance_mm=5.0, rail_head_width_mm=60.0))
    assert (level.verdict, level.value) == ("pass", 0.0)
    assert "wears level" in level.says


def test_wear_of_more_than_there_is_is_refused_by_key(tmp_path: Path) -> None:
    setting = running_setting(wear_allowance_mm=8.0, flange_wear_mm=9.0, flange_thickness_mm=6.0)
    keys = [fault.key for fault in wear_faults(setting.wheel, setting.use)]
    assert keys == ["use.wear_allowance_mm", "use.flange_wear_mm"]
    sound = running_setting(wear_allowance_mm=7.9, flange_wear_mm=6.0, flange_thickness_mm=6.0)
    assert list(wear_faults(sound.wheel, sound.use)) == []
    job = tmp_path / "job.toml"
    job.write_text(job_text({"use.flange_wear_mm": "19"}), encoding="utf-8")
    with pytest.raises(SpecError, match=r"use\.flange_wear_mm: found 19"):
        read_job(job)
