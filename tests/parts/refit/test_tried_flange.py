"""A flange that came out short or long: seams, trims, inserts and the next blank."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.checks.making.weld_access import seam_gap_range_mm
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.refit.shared_blanks import flange_of_size
from platewheel.parts.refit.tried_flange import sweep_correction_deg, tried_flange
from platewheel.parts.wheel.flange import flange_blank, segment_turn, slant_radii_mm
from tests.parts.wheels import plain_wheel

ONE = plain_wheel(seam_gap_mm=2.0)  # flange 6 mm thick, one seam: 1 to 4 mm
THREE = plain_wheel(seam_gap_mm=2.0, flange_segments=3)


def mid_length_mm(blank: Blank) -> float:
    """Arc at the middle of the depth."""
    middle = (blank.sizes["inner_radius_mm"] + blank.sizes["outer_radius_mm"]) / 2
    return math.radians(blank.sizes["sweep_deg"]) * middle


@pytest.mark.parametrize(
    ("segments", "seam_mm", "remedy", "root_mm", "trim_mm", "insert_mm"),
    [  # plain sums: gap 2 mm wanted in each seam, 1 to 4 mm can be welded, plate 6 mm
        (1, 2.0, "weld", 2.0, 0.0, 0.0),
        (1, 3.5, "weld", 3.5, 0.0, 0.0),
        (1, 0.4, "trim", 2.0, 1.6, 0.0),
        (1, -3.0, "trim", 2.0, 5.0, 0.0),
        (1, 15.0, "insert", 2.0, 0.0, 11.0),  # 15 = 2 + 11 + 2
        (1, 6.0, "insert", 2.0, 4.0, 6.0),  # 6 + 4 = 2 + 6 + 2
        (3, 7.0, "weld", 11 / 3, 0.0, 0.0),  # 7 + 2 + 2 over three seams
        (3, -1.0, "weld", 1.0, 0.0, 0.0),  # -1 + 2 + 2 over three seams
        (3, -2.0, "trim", 2.0, 4.0, 0.0),
    ],
)
def test_seams(
    segments: int, seam_mm: float, remedy: str, root_mm: float, trim_mm: float, insert_mm: float
) -> None:
    spec = ONE if segments == 1 else THREE
    found = tried_flange(spec, spec, seam_mm)
    assert (found.remedy, found.root_gap_mm) == (remedy, pytest.approx(root_mm))
    assert (found.trim_mm, found.insert_mm) == pytest.approx((trim_mm, insert_mm))


@given(st.floats(-20, 40), st.sampled_from([ONE, THREE]))
def test_what_is_found_adds_up(seam_mm: float, spec: object) -> None:
    assert isinstance(spec, type(ONE))
    found = tried_flange(spec, spec, seam_mm)
    open_before = seam_mm + (spec.flange_segments - 1) * spec.seam_gap_mm
    seams = spec.flange_segments + (found.insert_mm > 0)
    assert open_before + found.trim_mm == pytest.approx(seams * found.root_gap_mm + found.insert_mm)
    least, most = seam_gap_range_mm(spec)
    assert least - 1e-6 <= found.root_gap_mm <= most + 1e-6
    assert min(found.trim_mm, found.insert_mm) >= 0
    # the next blank, longer by the correction, closes to the job's gap
    blank = flange_blank(spec)
    middle = sum(slant_radii_mm(spec)) / 2
    longer = math.radians(found.sweep_correction_deg) * middle * spec.flange_segments
    assert open_before - longer == pytest.approx(spec.flange_segments * spec.seam_gap_mm)
    assert mid_length_mm(blank) == pytest.approx(math.radians(blank.sizes["sweep_deg"]) * middle)


def test_a_perfect_blank_on_a_larger_ring_blames_the_ring_alone() -> None:
    ring = flange_of_size(THREE, 301.0)
    wider = math.pi * 1.0  # a ring 1 mm larger is pi longer round
    found = tried_flange(THREE, ring, 2.0 + wider)
    assert found.from_ring_mm == pytest.approx(wider)
    assert found.from_blank_mm == pytest.approx(0.0, abs=1e-9)
    drawn, wanted = flange_blank(THREE), flange_blank(ring)
    longer = mid_length_mm(wanted) - mid_length_mm(drawn)
    assert found.sweep_correction_deg == pytest.approx(sweep_correction_deg(THREE, longer))
    assert segment_turn(ring) < 2 * math.pi / 3
