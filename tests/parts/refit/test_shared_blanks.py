"""As few sizes as possible, each of them fitting: against brute force and plain geometry."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import Blank, MarkText
from platewheel.parts.geometry.outline import Circle
from platewheel.parts.making.ring_roundness import disc_gap_range_mm
from platewheel.parts.refit.shared_blanks import (
    Window,
    disc_of_size,
    disc_window,
    fewest_sizes,
    flange_of_size,
    flange_seam_on_mm,
    flange_window,
    seam_gap_range_mm,
    shared_disc,
    shared_flange,
)
from platewheel.parts.wheel.flange import flange_blank, segment_turn
from platewheel.parts.wheel.hub_disc import disc_blank, disc_diameter_mm
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.refit.rings import setting
from tests.parts.wheels import WHEELS, plain_wheel

WINDOWS = st.builds(
    lambda low, below, above: Window(low / 10, (low + below) / 10, (low + below + above) / 10),
    st.integers(0, 40),
    st.integers(0, 8),
    st.integers(0, 8),
)


def fewest_by_brute_force(windows: list[Window]) -> int:
    """Least number of tenths of a mm that meet every window, by trying all sets."""
    tenths = sorted({round(10 * w.greatest_mm) for w in windows})
    spans = [(round(10 * w.least_mm), round(10 * w.greatest_mm)) for w in windows]
    for count in range(len(tenths) + 1):
        for points in combinations(tenths, count):
            if all(any(low <= p <= high for p in points) for low, high in spans):
                return count
    raise AssertionError("the greatest sizes of all windows meet all windows")


@given(st.lists(WINDOWS, max_size=8))
def test_no_smaller_number_of_sizes_fits(windows: list[Window]) -> None:
    sizes, chosen = fewest_sizes(windows)
    assert len(sizes) == fewest_by_brute_force(windows)
    assert set(chosen) == set(range(len(sizes)))  # each size is used
    assert list(sizes) == sorted(set(sizes))
    for window, k in zip(windows, chosen, strict=True):
        assert window.least_mm - 1e-9 <= sizes[k] <= window.greatest_mm + 1e-9
        assert sizes[k] * 10 == pytest.approx(round(sizes[k] * 10))


def test_each_ring_takes_the_nearest_size_and_each_size_the_nearest_step() -> None:
    """Worked by hand: the first two rings meet at 1.0 to 1.2 and want 1.04 in the middle; a ring
    that both sizes fit takes the one 0.3 off, not the one 1.1 off; of two equally far the first."""
    windows = [Window(0.4, 1.0, 1.2), Window(1.0, 1.08, 1.4), Window(2.0, 2.6, 3.0)]
    assert fewest_sizes(windows) == ((1.0, 2.6), (0, 0, 1))
    both = [*windows, Window(0.9, 1.5, 2.8), Window(0.9, 2.2, 2.8)]
    assert fewest_sizes(both) == ((1.2, 2.6), (0, 0, 1, 0, 1))  # 2.2 draws the first up to 1.2
    tie = [Window(0.5, 1.0, 1.0), Window(2.0, 2.0, 3.0), Window(0.9, 1.5, 2.5)]
    assert fewest_sizes(tie) == ((1.0, 2.0), (0, 1, 0))
    near = [Window(1.2, 1.2, 1.2), Window(1.9, 1.9, 1.9), Window(1.0, 1.6, 2.0)]
    assert fewest_sizes(near) == ((1.2, 1.9), (0, 1, 1))
    # of two windows that end alike the wider one goes with the smaller size, and draws it down
    alike = [Window(0.1, 0.3, 0.4), Window(0.9, 0.9, 1.0), Window(0.1, 0.1, 1.0)]
    assert fewest_sizes(alike) == ((0.2, 0.9), (0, 1, 0))


def test_a_size_stays_in_every_window_however_far_off_the_wish_lies() -> None:
    """Wishes at the windows' ends: the middle 1.5 of 1.0 and 2.0 is out of reach of 0.9 to 1.2."""
    assert fewest_sizes([Window(0.9, 1.0, 1.2), Window(0.2, 2.0, 2.0)]) == ((1.2,), (0, 0))
    assert fewest_sizes([Window(1.8, 2.0, 2.2), Window(1.0, 1.0, 1.9)]) == ((1.8,), (0, 0))


def test_a_step_at_the_windows_end_is_in_it() -> None:
    """Ends that are tenths but for the last digits of binary fractions; a micrometre is not."""
    assert fewest_sizes([Window(0.3 + 1e-9, 0.3, 0.3 + 1e-9)]) == ((0.3,), (0,))
    assert fewest_sizes([Window(0.1 + 0.2, 0.5, 0.7 - 1e-9)]) == ((0.5,), (0,))
    assert fewest_sizes([Window(0.3001, 0.31, 0.3999)]) == ((0.3,), (0,))
    split = [Window(0.1, 0.2, 0.3), Window(0.3001, 0.35, 0.5)]
    assert len(fewest_sizes(split)[0]) == 2


def test_no_ring_needs_no_size() -> None:
    assert fewest_sizes([]) == ((), ())


# Seams: least 1 mm over 3 mm of plate, else none, common practice, no source; greatest 4 mm, EN
# ISO 9692-1, from memory; the job's own gap is always in.
@pytest.mark.parametrize(
    ("plate", "gap", "wanted"),
    [
        (6.0, 2.0, (1.0, 4.0)),
        (3.1, 2.0, (1.0, 4.0)),
        (3.0, 2.0, (0.0, 4.0)),
        (6.0, 0.5, (0.5, 4.0)),
        (6.0, 5.0, (1.0, 5.0)),
    ],
)
def test_the_range_of_seam_gaps(plate: float, gap: float, wanted: tuple[float, float]) -> None:
    spec = plain_wheel(flange_thickness_mm=plate, seam_gap_mm=gap)
    assert seam_gap_range_mm(spec) == wanted


def test_flange_windows_in_numbers() -> None:
    """n seams share pi d: with n = 3 and a gap of 2 in 1 to 4 mm, 3 x 2 / pi below and 3 x 1 / pi
    above; a seam opens by pi / 3 for a mm of diameter. Washers with a gap have a window."""
    spec = plain_wheel(flange_segments=3, seam_gap_mm=2.0)
    window = flange_window(spec)
    found = (window.least_mm, window.wanted_mm, window.greatest_mm)
    assert found == pytest.approx((300 - 6 / math.pi, 300.0, 300 + 3 / math.pi))
    assert flange_seam_on_mm(spec, 299.0) == pytest.approx(2 + math.pi / 3)
    assert flange_seam_on_mm(spec, 301.5) == pytest.approx(2 - math.pi / 2)
    open_washer = plain_wheel(flange_angle_deg=90.0, seam_gap_mm=1.0)
    assert flange_window(open_washer).least_mm < 300.0
    halves = plain_wheel(flange_angle_deg=90.0, seam_gap_mm=0.0, flange_segments=2)
    assert flange_window(halves).least_mm == pytest.approx(300 - 2 * 4 / math.pi)


def test_only_the_name_of_a_shared_blank_changes() -> None:
    """Size text and marks stay; `longer_mm` goes to the flange's length."""
    spec = plain_wheel(flange_segments=3)
    own, shared = disc_blank(spec, "gauge"), shared_disc(spec, "gauge", 283.0, "disc-4")
    texts = [mark.text for mark in shared.marks if isinstance(mark, MarkText)]
    assert texts == ["disc-4", "d 283.0"]
    assert shared.outline == own.outline
    assert len(shared.marks) == len(own.marks)
    flange = shared_flange(spec, 300.0, "flange-9", 1.5)
    assert flange.sizes == pytest.approx(flange_blank(spec, 1.5).sizes)
    assert shared_flange(spec, 300.0, "f").sizes == pytest.approx(flange_blank(spec).sizes)
    told = [mark.text for mark in flange.marks if isinstance(mark, MarkText)]
    assert told == ["flange-9", "seam"]


def test_a_window_without_a_tenth_takes_the_looser_one() -> None:
    assert fewest_sizes([Window(281.33, 281.36, 281.38)]) == ((281.3,), (0,))


def test_the_size_lies_in_the_middle_of_what_is_wanted() -> None:
    windows = [Window(w - 1, w, w + 1) for w in (281.0, 281.4, 282.0)]
    assert fewest_sizes(windows) == ((281.5,), (0, 0, 0))


@pytest.mark.parametrize("name", WHEELS)
def test_discs_of_every_size_in_the_window_keep_the_gap(name: str) -> None:
    spec = WHEELS[name]
    gaps = (spec.fit_clearance_mm - min(0.2, spec.fit_clearance_mm), spec.fit_clearance_mm + 0.5)
    for side in ("field", "gauge"):
        window = disc_window(spec, side, gaps)
        bore = disc_diameter_mm(spec, side) + 2 * spec.fit_clearance_mm
        assert (bore - window.greatest_mm) / 2 == pytest.approx(gaps[0])
        assert (bore - window.least_mm) / 2 == pytest.approx(gaps[1])
        size = window.least_mm
        assert disc_diameter_mm(disc_of_size(spec, side, size), side) == pytest.approx(size)
        blank = shared_disc(spec, side, size, "disc-7")
        assert blank.bounds == pytest.approx((-size / 2, -size / 2, size / 2, size / 2))
        texts = [mark.text for mark in blank.marks if hasattr(mark, "text")]
        assert blank.name == "disc-7"
        assert "disc-7" in texts


# Geometry: the gap between a disc and an ellipse runs between those at its two axes.
def test_a_ring_out_of_round_keeps_its_narrowest_and_widest_gap_in_range() -> None:
    spec, gaps, uneven = plain_wheel(), (0.3, 1.1), 0.8
    bore = disc_diameter_mm(spec, "gauge") + 2 * spec.fit_clearance_mm
    window = disc_window(spec, "gauge", gaps, uneven)
    least = (bore - uneven / 2 - window.greatest_mm) / 2
    greatest = (bore + uneven / 2 - window.least_mm) / 2
    assert (least, greatest) == pytest.approx(gaps)


# EN ISO 5817, quality C, from memory: gap under a fillet 0.5 + 0.2 a, at most 3 mm.
# ISO 9013:2017: class 2, 6 mm plate, 125 to 315 mm: +-1.1 mm; half of it on the radius.
def test_the_range_of_disc_gaps_is_that_of_the_checks() -> None:
    wheel = plain_wheel(weld_throat_mm=4.0, fit_clearance_mm=0.75, tread_from="bar")
    low, high = disc_gap_range_mm(setting(of=wheel))
    assert high == pytest.approx(0.5 + 0.2 * 4)
    assert low == pytest.approx(1.1 / 2 + 1.0 / (2 * math.pi))
    hand = setting("hand", of=wheel)
    assert disc_gap_range_mm(hand)[0] == 0.2  # ground to its line and tried: common practice
    thin = plain_wheel(fit_clearance_mm=0.75, disc_thickness_mm=3.0)  # none of its table's rows
    assert disc_gap_range_mm(setting(of=thin))[0] == 0.75
    loose = plain_wheel(weld_throat_mm=3.0, fit_clearance_mm=2.0)
    assert disc_gap_range_mm(setting(of=loose))[1] == 2.0


def seams_by_angles(cut_for: WheelSpec, on: WheelSpec) -> float:
    """Gap of each seam when segments, their length unchanged, are bent round another ring."""
    mean = on.tread_radius_mm + cut_for.flange_depth_mm / 2
    mean -= cut_for.flange_thickness_mm / 2 * math.cos(cut_for.flange_angle)
    mean_cut = mean - on.tread_radius_mm + cut_for.tread_radius_mm
    covered = segment_turn(cut_for) * mean_cut  # arc at the middle of the depth
    return 2 * math.pi * mean / cut_for.flange_segments - covered


@pytest.mark.parametrize("name", ["plain", "three-segments", "tapered", "flat-flare"])
def test_flange_on_another_ring(name: str) -> None:
    spec = WHEELS[name]
    window = flange_window(spec)
    least, greatest = seam_gap_range_mm(spec)
    for size, gap in ((window.least_mm, greatest), (window.greatest_mm, least)):
        assert flange_seam_on_mm(spec, size) == pytest.approx(gap)
        by_angles = seams_by_angles(flange_of_size(spec, size), spec)
        assert by_angles == pytest.approx(gap, abs=0.002)
    blank = shared_flange(spec, window.least_mm, "flange-2")
    assert blank.name == "flange-2"
    assert (
        blank.sizes["inner_radius_mm"]
        < shared_flange(spec, window.greatest_mm, "f").sizes["inner_radius_mm"]
    )


def test_a_washer_without_a_seam_fits_its_own_size() -> None:
    window = flange_window(WHEELS["washer"])
    assert window == Window(300.0, 300.0, 300.0)


@settings(max_examples=20)
@given(st.lists(st.floats(299.0, 301.5), min_size=1, max_size=30))
def test_many_rings_all_get_discs_that_fit(diameters: list[float]) -> None:
    specs = [plain_wheel(tread_diameter_mm=d) for d in diameters]
    gaps = (0.45, 1.1)
    sizes, chosen = fewest_sizes([disc_window(spec, "gauge", gaps) for spec in specs])
    for spec, k in zip(specs, chosen, strict=True):
        gap = (spec.tread_diameter_mm - 2 * spec.tread_thickness_mm - sizes[k]) / 2
        assert gaps[0] - 1e-6 <= gap <= gaps[1] + 1e-6


def test_a_disc_of_ones_own_gets_another_rim_alone() -> None:
    spec = plain_wheel(vent_count=0)
    inner, outer = spec.hub_hole_diameter_mm, disc_diameter_mm(spec, "gauge")
    slot = Circle(((inner + outer) / 4, 0.0), 5.0)
    hub = Circle((0.0, 0.0), inner / 2)
    own = Blank("disc", "disc", spec.disc_thickness_mm, Circle((0.0, 0.0), outer / 2), (hub, slot))
    less = shared_disc(spec, "gauge", outer - 1.2, "disc-3", own)
    assert less.name == "disc-3"
    assert less.holes == own.holes
    assert less.outline == Circle((0.0, 0.0), outer / 2 - 0.6)
    near = replace(own, holes=(hub, Circle((outer / 2 - 5.2 - spec.weld_leg_mm, 0.0), 5.0)))
    assert shared_disc(spec, "gauge", outer, "disc-1", near).holes == near.holes
    told = rf"^disc: found 'cut to {outer - 1.2:g} mm for a ring.*clear of the beads.*larger ring$"
    with pytest.raises(SpecError, match=told):
        shared_disc(spec, "gauge", outer - 1.2, "disc-2", near)
