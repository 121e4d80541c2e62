"""Galvanizing: vents, hollows, thicknesses and zinc, each with the wheel that breaks the rule."""

from __future__ import annotations

import math
from typing import Any

import pytest

from platewheel.parts.checks.galvanizing.coating import (
    coated_area_mm2,
    coating_life,
    thinnest_mm,
    zinc_in_bore,
    zinc_mass_kg,
)
from platewheel.parts.checks.galvanizing.hollows import closed_hollows, overlap, sealed_hollow
from platewheel.parts.checks.galvanizing.thickness_ratio import thickness_ratio
from platewheel.parts.checks.galvanizing.vent_tables import vent_diagonal, vent_table
from platewheel.parts.checks.galvanizing.vents import vent_number, vent_place, vent_size
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.geometry.solid import one_solid
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_solids
from tests.parts.checks.settings import setting_of
from tests.parts.wheels import WHEELS, plain_wheel

ZINC_ONLY = (
    vent_size,
    vent_place,
    vent_table,
    vent_diagonal,
    sealed_hollow,
    overlap,
    thickness_ratio,
    coating_life,
    zinc_in_bore,
)


def found(result: CheckResult | None) -> CheckResult:
    assert result is not None
    return result


def wheel(**changes: Any) -> Setting:
    return setting_of(wheel=changes)


@pytest.mark.parametrize("check", ZINC_ONLY)
@pytest.mark.parametrize("coating", ["painted", "bare"])
def test_nothing_is_asked_of_a_wheel_that_is_not_dipped(check: Any, coating: str) -> None:
    assert check(setting_of(coating=coating)) is None
    assert check(setting_of()) is not None


def test_the_box_is_the_one_closed_hollow() -> None:
    """Bore 142, tube 28.5, 32 deep; and the 0.5 mm gaps at 6 mm discs, rim and tube."""
    (hollow,) = closed_hollows(plain_wheel())
    box = math.pi * (142**2 - 28.5**2) * 32
    gaps = 2 * math.pi * 6 * (142**2 - 141.5**2 + 29**2 - 28.5**2)
    assert hollow.volume_mm3 == pytest.approx(box + gaps, rel=1e-4)
    assert hollow.vented


@pytest.mark.parametrize("clearance", [0.0, 0.5, 1.5])
def test_a_sealed_box_explodes(clearance: float) -> None:
    result = found(sealed_hollow(wheel(vent_count=0, fit_clearance_mm=clearance)))
    assert (result.value, result.verdict) == (1, "fail")
    assert "EXPLODES" in result.says


def test_a_thin_box_is_a_hollow_too() -> None:
    """Discs 1 mm apart: thinner than the slit that counts as closed, but full of air."""
    thin = wheel(vent_count=0, disc_field_inset_mm=23.5, disc_gauge_inset_mm=23.5)
    result = found(sealed_hollow(thin))
    assert (result.value, result.verdict) == (1, "fail")


def test_open_hollows() -> None:
    assert found(sealed_hollow(wheel())).verdict == "pass"
    assert closed_hollows(WHEELS["no-tube-no-vents"]) == ()
    # flush discs have no fillet and a gap of 3 mm all round: open, also without vents
    flush = plain_wheel(disc_gauge_inset_mm=0.0, fit_clearance_mm=3.0, vent_count=0)
    assert closed_hollows(flush) == ()
    narrow = plain_wheel(disc_gauge_inset_mm=0.0, fit_clearance_mm=0.5, vent_count=0)
    assert [hollow.vented for hollow in closed_hollows(narrow)] == [False]


def test_number_of_vents() -> None:
    assert found(vent_number(wheel())).verdict == "pass"
    assert vent_number(wheel(vent_count=0)) is None  # told by sealed_hollow, once
    sealed = found(sealed_hollow(wheel(vent_count=0)))
    assert sealed.verdict == "fail"
    assert "EXPLODES" in sealed.says
    assert found(vent_number(wheel(vent_count=1))).verdict == "fail"
    assert found(vent_number(wheel(vent_count=3))).verdict == "warn"
    painted = found(vent_number(setting_of(coating="painted", wheel={"vent_count": 0})))
    assert painted.verdict == "warn"
    assert vent_number(setting_of(coating="painted")) is None
    open_hub = found(vent_number(wheel(vent_count=0, hub_tube_length_mm=0.0)))
    assert open_hub.verdict == "fail"
    assert "EXPLODES" not in open_hub.says


def test_size_and_place_of_vents() -> None:
    assert found(vent_size(wheel(vent_diameter_mm=10.0))).verdict == "pass"
    assert found(vent_size(wheel(vent_diameter_mm=9.9))).verdict == "fail"
    # bore 142, vents 16: edge 10 mm off the wall on a circle of 2 (142 - 10) - 16
    assert found(vent_place(wheel(vent_circle_mm=248.0))).verdict == "pass"
    assert found(vent_place(wheel(vent_circle_mm=247.0))).verdict == "warn"
    # a plate of 14 mm wants 14 of web, and half a millimetre to strike it
    for circle, verdict in ((238.0, "pass"), (237.8, "warn")):
        thick = wheel(vent_circle_mm=circle, disc_thickness_mm=14.0, vent_diameter_mm=16.0)
        assert found(vent_place(thick)).verdict == verdict


def test_table_of_holes_takes_the_box_depth() -> None:
    """32 mm between the discs, row of 40: one hole 14, two 12 mm."""
    assert found(vent_table(wheel())).limit == 12
    assert found(vent_table(wheel(vent_count=1))).limit == 14
    assert found(vent_table(wheel(vent_diameter_mm=11.0))).verdict == "fail"
    deep = setting_of(wheel={"tread_width_mm": 400.0, "hub_tube_length_mm": 390.0})
    assert found(vent_table(deep)).limit == 150  # 372 mm, row of 400, two holes
    assert found(vent_table(deep)).verdict == "fail"
    assert vent_table(wheel(vent_count=0)) is None


def test_stricter_rule_takes_the_diagonal() -> None:
    """32 deep, 142 - 28.5 wide: 25 % of 117.9; two vents high, one in each disc, count as one."""
    result = found(vent_diagonal(wheel()))
    assert result.limit == pytest.approx(0.25 * math.hypot(32, 113.5))
    assert result.value == pytest.approx(16 * math.sqrt(2))
    assert result.verdict == "warn"
    assert found(vent_diagonal(wheel(vent_count=4))).value == pytest.approx(32)
    assert found(vent_diagonal(wheel(vent_count=4))).verdict == "pass"
    needed = float(result.says.split("vent_diameter_mm = ")[1].split(" ")[0])
    assert found(vent_diagonal(wheel(vent_diameter_mm=needed))).verdict == "pass"


def test_overlap_of_thick_discs() -> None:
    """Disc 283 across: 400 cm2 are 45 mm thick, so only a large wheel comes near."""
    assert found(overlap(wheel())).value == pytest.approx(math.pi * 28.3 * 0.6)
    large = wheel(
        tread_diameter_mm=1000.0,
        tread_width_mm=100.0,
        disc_thickness_mm=15.0,
        vent_circle_mm=900.0,
        hub_tube_length_mm=100.0,
    )
    assert found(overlap(large)).verdict == "warn"


@pytest.mark.parametrize(
    ("wall", "verdict"), [(6.0, "pass"), (14.9, "pass"), (15.1, "warn"), (24.1, "fail")]
)
def test_thickness_ratio(wall: float, verdict: str) -> None:
    """Over plates of 6 mm; tube wall 11."""
    changes = {"tread_thickness_mm": wall, "vent_circle_mm": 200.0}
    assert found(thickness_ratio(wheel(**changes))).verdict == verdict


@pytest.mark.parametrize("name", ["plain", "tapered", "pipe", "washer"])
def test_coated_area_by_the_modeller(name: str) -> None:
    """Fused by the solid modeller, without seams: the same surface inside and out."""
    spec = WHEELS[name].model_copy(update={"seam_gap_mm": 0.0, "flange_segments": 1})
    solids = [solid for _, solid in wheel_solids(spec)]
    fused = one_solid(solids[0].fuse(*solids[1:]), "wheel")
    assert coated_area_mm2(spec) == pytest.approx(fused.Area(), rel=1e-4)


def test_zinc_of_a_wheel() -> None:
    """Thinnest part 6 mm: 505 g/m2; 70 um lose 2.1 a year."""
    spec = plain_wheel()
    assert thinnest_mm(spec) == 6
    assert zinc_mass_kg(spec) == pytest.approx(coated_area_mm2(spec) * 505e-9)
    result = found(coating_life(setting_of(use={"years": 33.0})))
    assert result.value == pytest.approx(70 / 2.1)
    assert result.verdict == "pass"
    assert found(coating_life(setting_of(use={"years": 34.0}))).verdict == "warn"


def test_the_bore_is_left_open_to_say() -> None:
    result = found(zinc_in_bore(setting_of()))
    assert result.verdict == "not-assessed"
    assert result.value is None
    assert "0.17 mm" in result.says
