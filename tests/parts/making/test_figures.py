"""Cutting, rolling, fitting and welding in the workshop: each rule at its edge."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.base.cut_process import least_hole_mm
from platewheel.parts.checks.galvanizing.plate_webs import vent_beside_weld, vent_spacing, vent_web
from platewheel.parts.checks.making.cutting import hole_by_process
from platewheel.parts.checks.making.rolling import (
    flat_end_mm,
    ring_curvature,
    roll_diameter,
    roll_thickness,
    seam_peak,
)
from platewheel.parts.checks.making.tolerance import fit_allowance
from platewheel.parts.checks.making.weld_access import (
    fillet_gap,
    nozzle_room_mm,
    root_groove,
    seam_gap,
    torch_access,
)
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.setting.setting import Setting
from tests.parts.checks.settings import setting_of
from tests.parts.wheels import WHEELS


def found(result: CheckResult | None) -> CheckResult:
    assert result is not None
    return result


def wheel(**changes: Any) -> Setting:
    return setting_of(wheel=changes)


@pytest.mark.parametrize(
    ("process", "thickness", "hole"),
    [
        ("plasma", 6.0, 9.0),
        ("laser", 6.0, 6.0),
        ("laser", 0.8, 1.0),
        ("oxy-fuel", 6.0, 10.0),
        ("oxy-fuel", 10.0, 15.0),
        ("hand", 12.0, 3.0),
    ],
)
def test_least_hole(process: str, thickness: float, hole: float) -> None:
    """Shop guides: plasma 1.5 t, laser t and 1 mm; oxy-fuel and drill common practice."""
    assert least_hole_mm(process, thickness) == pytest.approx(hole)


def test_small_vents_are_drilled() -> None:
    assert hole_by_process(wheel(vent_diameter_mm=9.0)).verdict == "pass"
    result = hole_by_process(wheel(vent_diameter_mm=8.9))
    assert (result.value, result.verdict) == (8.9, "warn")
    assert "vents" in result.says
    laser = setting_of(wheel={"vent_diameter_mm": 8.9}, process="laser")
    assert hole_by_process(laser).verdict == "pass"
    no_vents = hole_by_process(wheel(vent_count=0))
    assert no_vents.value == pytest.approx(58)  # hub hole: tube 57 and clearance


@pytest.mark.parametrize(
    ("process", "web", "between"),
    [("plasma", 6.0, 9.0), ("laser", 9.0, 6.0), ("oxy-fuel", 9.0, 9.0), ("hand", 6.0, 6.0)],
)
def test_webs_by_process(process: str, web: float, between: float) -> None:
    setting = setting_of(process=process)
    assert found(vent_web(setting)).limit == pytest.approx(web)
    assert found(vent_spacing(setting)).limit == pytest.approx(between)


def test_webs_by_hand() -> None:
    """Disc 283, circle 240, vents 16: (283 - 240 - 16) / 2 = 13.5 mm; two vents 224 mm apart."""
    assert found(vent_web(wheel())).value == pytest.approx(13.5)
    assert found(vent_spacing(wheel())).value == pytest.approx(224)
    assert found(vent_web(wheel(vent_circle_mm=256.0))).verdict == "warn"
    crowd = wheel(vent_count=24, vent_diameter_mm=24.0)  # 240 sin 7.5 deg = 31.3
    assert found(vent_spacing(crowd)).verdict == "warn"
    assert vent_web(wheel(vent_count=0)) is None
    assert vent_spacing(wheel(vent_count=1)) is None


def test_vents_beside_the_beads() -> None:
    """Throat 3, leg 4.24: the vents' edge at least that far from rim and hub hole."""
    assert found(vent_beside_weld(wheel(vent_circle_mm=258.0))).verdict == "pass"  # 4.5 mm
    assert found(vent_beside_weld(wheel(vent_circle_mm=259.0))).verdict == "warn"  # 4.0 mm
    assert found(vent_beside_weld(wheel(vent_circle_mm=82.0))).verdict == "warn"  # 4 mm to hub
    free = wheel(vent_circle_mm=59.0, hub_tube_length_mm=0.0)  # 4 mm to a bore without weld
    assert found(vent_beside_weld(free)).verdict == "pass"
    assert vent_beside_weld(wheel(vent_count=0)) is None


@pytest.mark.parametrize(
    ("roll", "verdict"), [(180.0, "pass"), (200.0, "warn"), (250.0, "warn"), (262.0, "fail")]
)
def test_least_ring_of_a_roller(roll: float, verdict: str) -> None:
    """Ring 284 inside: 1.5 x 189 and 1.1 x 258."""
    setting = setting_of(wheel={"flange_angle_deg": 90.0}, shop={"roll_diameter_mm": roll})
    assert found(roll_diameter(setting)).verdict == verdict


def test_what_is_rolled() -> None:
    """The flange is rolled unless it is a washer; the ring unless it is a pipe."""
    eight = {"roll_most_thickness_mm": 8.0}
    assert found(roll_thickness(setting_of(shop=eight))).verdict == "pass"
    thick_flange = setting_of(shop=eight, wheel={"flange_thickness_mm": 9.0})
    result = found(roll_thickness(thick_flange))
    assert result.verdict == "fail"
    assert "flange_thickness_mm" in result.says
    washer = {"flange_thickness_mm": 9.0, "flange_angle_deg": 90.0}
    assert found(roll_thickness(setting_of(shop=eight, wheel=washer))).verdict == "pass"
    pipe = setting_of(wheel={"tread_from": "pipe", "flange_angle_deg": 90.0})
    assert roll_thickness(pipe) is None
    assert roll_diameter(pipe) is None
    assert seam_peak(pipe) is None
    assert ring_curvature(pipe) is None


def test_straight_ends() -> None:
    """Maker's guide to plate rolls: 0.8 to 5 thicknesses; a flat B stands out B^2 / (2 R)."""
    assert flat_end_mm(10, prebend=True) == pytest.approx(8)
    assert flat_end_mm(10, prebend=False) == pytest.approx(50)
    plain = found(seam_peak(setting_of(shop={"prebend": False})))
    assert plain.value == pytest.approx(40**2 / (2 * 146))
    assert plain.verdict == "warn"
    assert "80 mm longer" in plain.says
    assert found(seam_peak(setting_of())).verdict == "pass"


def test_ring_too_tight_for_its_development() -> None:
    """Mid radius over wall below 5: radius 30, wall 6 gives 4.5."""
    assert found(ring_curvature(wheel())).verdict == "pass"
    tight = wheel(
        tread_diameter_mm=60.0,
        tread_thickness_mm=6.0,
        hub_tube_length_mm=0.0,
        hub_bore_mm=10.0,
        vent_count=0,
    )
    assert found(ring_curvature(tight)).value == pytest.approx(4.5)
    assert found(ring_curvature(tight)).verdict == "warn"


def test_disc_goes_into_the_ring() -> None:
    """Plasma, disc 6 x 283: +-1.1; strip 8 x 915: +-1.5 mm of length, / 2 pi on the radius."""
    needed = 1.1 / 2 + 1.5 / (2 * math.pi)
    result = fit_allowance(wheel())
    assert result.limit == pytest.approx(needed)
    assert result.verdict == "warn"
    said = float(result.says.split("fit_clearance_mm = ")[1].split(",")[0])
    assert fit_allowance(wheel(fit_clearance_mm=said)).verdict == "pass"
    laser = fit_allowance(setting_of(process="laser"))
    assert laser.limit == pytest.approx(0.30 / 2 + 0.45 / (2 * math.pi))
    assert laser.verdict == "pass"
    bar = fit_allowance(wheel(tread_from="bar"))
    assert bar.limit == pytest.approx(1.1 / 2 + 1 / (2 * math.pi))
    assert fit_allowance(wheel(tread_from="pipe")).limit == pytest.approx(1.1 / 2)


def test_discs_cut_by_hand_are_tried() -> None:
    """0.2 mm on the radius: common practice, no source."""
    for clearance, verdict in ((0.2, "pass"), (0.19, "warn")):
        wide = {"fit_clearance_mm": clearance}
        assert fit_allowance(setting_of(process="hand", wheel=wide)).verdict == verdict


def test_no_row_of_the_table_no_verdict() -> None:
    thin = fit_allowance(wheel(disc_thickness_mm=3.0))
    assert thin.verdict == "not-assessed"
    assert "thickness of disc" in thin.says


def test_nozzle_in_the_recess() -> None:
    """Bore 142, tube 28.5, tube end 13 mm out: (113.5 - 13) sqrt 2."""
    assert nozzle_room_mm(WHEELS["plain"]) == pytest.approx(100.5 * math.sqrt(2))
    assert torch_access(setting_of()).verdict == "pass"
    small = {
        "tread_diameter_mm": 110.0,
        "hub_tube_outside_mm": 50.0,
        "vent_count": 0,
        "hub_tube_length_mm": 44.0,
    }
    room = math.sqrt(2) * (47 - 25 - 8)  # ring edges, 8 mm high, stand opposite
    assert nozzle_room_mm(wheel(**small).wheel) == pytest.approx(room)
    assert torch_access(wheel(**small)).verdict == "warn"
    slim = setting_of(wheel=small, shop={"weld_reach_mm": 19.0})
    assert torch_access(slim).verdict == "pass"


def test_groove_at_the_root() -> None:
    assert root_groove(wheel(flange_angle_deg=60.0)).verdict == "pass"
    assert root_groove(wheel(flange_angle_deg=59.0)).verdict == "warn"
    # the ring's end leans with its taper, but a pipe's is square
    taper = {"tread_taper_1_in": 20.0, "flange_angle_deg": 62.0}
    assert root_groove(wheel(**taper)).verdict == "warn"
    assert root_groove(wheel(**taper, tread_from="pipe")).verdict == "pass"


@pytest.mark.parametrize(
    ("gap", "verdict"), [(0.0, "warn"), (0.9, "warn"), (1.0, "pass"), (4.0, "pass"), (4.1, "warn")]
)
def test_gap_of_seams(gap: float, verdict: str) -> None:
    assert seam_gap(wheel(seam_gap_mm=gap)).verdict == verdict


def test_thin_seams_close_without_gap() -> None:
    thin = {"seam_gap_mm": 0.0, "tread_thickness_mm": 3.0, "flange_thickness_mm": 3.0}
    assert seam_gap(wheel(**thin)).verdict == "pass"


def test_gap_under_fillets() -> None:
    """EN ISO 5817 C, from memory: 0.5 + 0.2 a = 1.1 mm for a throat of 3."""
    assert fillet_gap(wheel(fit_clearance_mm=1.1)).verdict == "pass"
    assert fillet_gap(wheel(fit_clearance_mm=1.2)).verdict == "warn"
