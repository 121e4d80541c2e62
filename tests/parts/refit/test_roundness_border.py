"""One border for roundness: whoever measures more is never worse off within it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.checks.making.tolerance import fit_allowance
from platewheel.parts.making.figures import ring_limits_mm
from platewheel.parts.making.ring_roundness import (
    disc_gap_range_mm,
    drawn_disc_takes_mm,
    gap_spread_mm,
    roundness_limit,
)
from platewheel.parts.making.springback import round_force_n
from platewheel.parts.refit.measured_ring import MeasuredRing, ring_faults, ring_spec
from platewheel.parts.refit.plan import plan_refit
from platewheel.parts.refit.ring_windows import left_uneven_mm
from platewheel.parts.refit.shared_blanks import disc_window
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from tests.parts.refit.rings import setting
from tests.parts.wheels import plain_wheel


def shape(lobes: dict[int, tuple[float, float]]) -> tuple[float, float, float]:
    """Circumference, largest and smallest diameter of a ring whose width across turns with the
    even lobes given (lobes: size, phase), sampled; the tape by the length of the curve itself.

    Support function h = 150 + sum a cos(n t + p): width h(t) + h(t + pi), radius of curvature
    h + h'' (any text on convex curves), which is its line element.
    """
    turn = [2 * math.pi * k / 720 for k in range(720)]
    h = [150 + sum(a * math.cos(n * t + p) for n, (a, p) in lobes.items()) for t in turn]
    bend = [
        150 + sum(a * (1 - n * n) * math.cos(n * t + p) for n, (a, p) in lobes.items())
        for t in turn
    ]
    assert min(bend) > 0  # convex
    across = [h[k] + h[(k + 360) % 720] for k in range(720)]
    return sum(bend) * 2 * math.pi / 720, max(across), min(across)


LOBES = st.fixed_dictionaries(
    {
        n: st.tuples(st.floats(0, most), st.floats(0, 6))
        for n, most in ((2, 1.5), (3, 1.0), (4, 0.3))
    }
)
OFF = st.floats(-0.3, 0.3)  # of a tape's or calliper's reading, mm of diameter


@given(LOBES, OFF, OFF, OFF, st.sampled_from(["both", "largest", "smallest"]))
def test_true_readings_never_make_a_ring_refused(
    lobes: dict[int, tuple[float, float]], tape: float, most: float, least: float, which: str
) -> None:
    """Cauchy: the mean width lies between the greatest and the least, so no reading that is right
    to 0.3 mm contradicts the tape. Within the border or beyond it, the ring stays usable."""
    outside, largest, smallest = shape(lobes)
    drawn = plain_wheel()
    bare = MeasuredRing(ring="1", outside_circumference_mm=outside + math.pi * tape)
    assert ring_faults(drawn, bare) == []
    low, high = sorted((smallest + least, largest + most))
    more = {"smallest_diameter_mm": low, "largest_diameter_mm": high}
    if which != "both":
        more = {f"{which}_diameter_mm": more[f"{which}_diameter_mm"]}
    measured = MeasuredRing(
        ring="1", outside_circumference_mm=bare.outside_circumference_mm, **more
    )
    assert ring_faults(drawn, measured) == []
    found = measured.out_of_round_mm
    assert found is not None
    assert found >= 0
    plan_refit(setting(), [measured])  # a plan comes of it


def test_two_diameters_a_millimetre_apart_are_as_good_as_their_mean() -> None:
    """A case of the past: refused, where the mean alone passed."""
    mean = MeasuredRing(ring="1", outside_circumference_mm=300 * math.pi)
    both = MeasuredRing(
        ring="1",
        outside_circumference_mm=300 * math.pi,
        largest_diameter_mm=300.5,
        smallest_diameter_mm=299.5,
    )
    assert not roundness_limit(setting()).passed_by(both.out_of_round_mm)
    assert ring_faults(plain_wheel(), both) == ring_faults(plain_wheel(), mean) == []
    assert [len(plan_refit(setting(), [ring]).discs) for ring in (mean, both)] == [1, 1]


def test_one_diameter_alone_tells_the_other_by_the_tape() -> None:
    """Ellipse of 301 and 299 mm; its circumference by Ramanujan's second formula (1914)."""
    a, b = 150.5, 149.5
    h = ((a - b) / (a + b)) ** 2
    round_mm = math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))
    for key, value in (("largest", 301.0), ("smallest", 299.0)):
        ring = MeasuredRing(
            ring="1", outside_circumference_mm=round_mm, **{f"{key}_diameter_mm": value}
        )
        assert ring.out_of_round_mm == pytest.approx(2.0, abs=0.01)
    within = MeasuredRing(ring="1", outside_circumference_mm=round_mm, largest_diameter_mm=299.7)
    assert within.out_of_round_mm == 0.0  # what a calliper errs


# Geometry: the gap of a round disc in an ellipse; 0.5 % of the diameter: common practice, no source
def test_the_border_is_the_lesser_of_what_a_disc_fits_and_what_runs_smooth() -> None:
    wide = setting(weld_throat_mm=4.0, fit_clearance_mm=0.75, tread_from="bar")
    least, greatest = disc_gap_range_mm(wide)
    limit = roundness_limit(wide)
    assert limit.limit_mm == pytest.approx(2 * (1.3 - (0.55 + 1 / (2 * math.pi))))
    middle = (least + greatest) / 2
    assert middle - gap_spread_mm(limit.limit_mm) == pytest.approx(least)
    assert middle + gap_spread_mm(limit.limit_mm) == pytest.approx(greatest)
    by_hand = setting("hand", weld_throat_mm=8.0, fit_clearance_mm=0.2)
    assert roundness_limit(by_hand).limit_mm == pytest.approx(1.5)  # of 300 mm
    assert roundness_limit(by_hand).why == "the wheel hammers"


def test_beyond_the_border_a_ring_is_trued_and_counts_as_round() -> None:
    limit = roundness_limit(setting()).limit_mm
    for found, left in ((limit - 0.01, limit - 0.01), (limit, limit), (limit + 0.01, 0.0)):
        ring = MeasuredRing(
            ring="1",
            outside_circumference_mm=300 * math.pi,
            largest_diameter_mm=300 + found / 2,
            smallest_diameter_mm=300 - found / 2,
        )
        assert left_uneven_mm(setting(), ring) == pytest.approx(left)
    bare = MeasuredRing(ring="1", outside_circumference_mm=300 * math.pi)
    assert left_uneven_mm(setting(), bare) == 0.0
    assert round_force_n(plain_wheel(), limit) > 0


def test_the_drawn_disc_takes_no_more_than_the_border() -> None:
    for throat, fit in ((4.0, 0.2), (4.0, 0.75), (4.0, 1.2), (8.0, 1.0)):
        one = setting("hand", weld_throat_mm=throat, fit_clearance_mm=fit)
        takes = drawn_disc_takes_mm(one)
        assert takes <= roundness_limit(one).limit_mm
        assert fit - gap_spread_mm(takes) >= -1e-9  # goes in
        assert fit + gap_spread_mm(takes) <= min(3.0, 0.5 + 0.2 * throat) + 1e-9  # is filled
    jams = setting("hand", weld_throat_mm=4.0, fit_clearance_mm=0.2)
    assert drawn_disc_takes_mm(jams) == pytest.approx(0.8)
    # 0.5 + 0.2 x 4 = 1.3 mm is filled, 0.1 more than the gap: four times that of the diameters
    gapes = setting("plasma", weld_throat_mm=4.0, fit_clearance_mm=1.2)
    assert drawn_disc_takes_mm(gapes) == pytest.approx(0.4)
    assert roundness_limit(gapes).limit_mm > 0.5


@pytest.mark.parametrize("process", ["plasma", "laser", "hand"])
@given(st.floats(0, 1), st.sampled_from([0.2, 0.5, 0.75, 1.5]))
def test_step_check_and_refit_have_one_border_for_drawn_discs(
    process: str, share: float, clearance: float
) -> None:
    """The step's tape, the window of the refit, and the check's least gap, for a ring anywhere
    within the border and a little beyond both its ends."""
    one = setting(process, fit_clearance_mm=clearance, weld_throat_mm=4.0)
    low, drawn, high = ring_limits_mm(one)
    disc = disc_diameter_mm(one.wheel, "gauge")
    for tape, fits in ((low + share * (high - low), True), (low - 0.1, False), (high + 0.1, False)):
        ring = MeasuredRing(ring="1", outside_circumference_mm=tape)
        window = disc_window(ring_spec(one.wheel, ring), "gauge", disc_gap_range_mm(one))
        assert (window.least_mm - 1e-9 <= disc <= window.greatest_mm + 1e-9) is fits
    needed = fit_allowance(one).limit
    assert needed is not None
    least = (low / math.pi - drawn / math.pi) / 2 + clearance
    assert least == pytest.approx(min(needed, clearance))
