"""What tape and calliper tell of a ring, and what is refused."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.refit.measured_ring import (
    MeasuredRing,
    drawn_circumferences_mm,
    inside_diameter_mm,
    ring_faults,
    ring_spec,
    wall_mm,
)
from platewheel.parts.wheel.hub_disc import disc_diameter_mm
from tests.parts.wheels import WHEELS, plain_wheel

DRAWN = plain_wheel()  # 300 mm, wall 8, fit clearance 0.5


def ring(outside_mm: float, **more: Any) -> MeasuredRing:
    return MeasuredRing(ring="1", outside_circumference_mm=outside_mm, **more)


# Geometry: a circle of 955 mm round is 303.986 mm across; Ludolph's number to ten places.
def test_diameters_from_both_tapes() -> None:
    measured = ring(955.0, inside_circumference_mm=905.0)
    spec = ring_spec(DRAWN, measured)
    assert spec.tread_diameter_mm == pytest.approx(955 / 3.1415926536, abs=1e-6)
    assert inside_diameter_mm(spec) == pytest.approx(905 / 3.1415926536, abs=1e-6)
    assert disc_diameter_mm(spec, "gauge") == pytest.approx(905 / 3.1415926536 - 1.0, abs=1e-6)


# Closed form: a wall of w takes 2 pi w off the circumference.
@given(st.floats(900, 985), st.floats(6.5, 9.9))
def test_wall_and_inside_tape_tell_the_same(outside_mm: float, wall: float) -> None:
    by_wall = ring(outside_mm, wall_mm=wall)
    by_tape = ring(outside_mm, inside_circumference_mm=outside_mm - 2 * math.pi * wall)
    assert ring_faults(DRAWN, by_wall) == ring_faults(DRAWN, by_tape) == []
    assert wall_mm(DRAWN, by_tape) == pytest.approx(wall)
    both = ring(outside_mm, wall_mm=wall, inside_circumference_mm=by_tape.inside_circumference_mm)
    assert ring_faults(DRAWN, both) == []


@pytest.mark.parametrize("name", WHEELS)
def test_a_ring_as_drawn_gives_the_drawn_wheel(name: str) -> None:
    drawn = WHEELS[name]
    outside, inside = drawn_circumferences_mm(drawn)
    measured = ring(outside, inside_circumference_mm=inside)
    assert ring_faults(drawn, measured) == []
    spec = ring_spec(drawn, measured)
    assert spec.tread_diameter_mm == pytest.approx(drawn.tread_diameter_mm)
    assert spec.tread_thickness_mm == pytest.approx(drawn.tread_thickness_mm)


@pytest.mark.parametrize(
    ("bad", "columns"),
    [
        (ring(942.5 * 1.06), ["outside_circumference_mm"]),
        (ring(942.5 * 0.94), ["outside_circumference_mm"]),
        (ring(300.0), ["outside_circumference_mm"]),  # the diameter in the wrong column
        (ring(942.5, wall_mm=160.0), ["wall_mm"]),  # more than the radius
        (ring(942.5, wall_mm=0.8), ["wall_mm"]),
        (ring(942.5, inside_circumference_mm=950.0), ["inside_circumference_mm"]),
        (ring(942.5, wall_mm=9.0, inside_circumference_mm=892.2), ["wall_mm"]),
        (ring(942.5, largest_diameter_mm=298.5), ["largest_diameter_mm"]),  # below the mean
        (ring(942.5, smallest_diameter_mm=280.0), ["smallest_diameter_mm"]),
        (
            ring(942.5, largest_diameter_mm=305.0, smallest_diameter_mm=302.0),
            ["smallest_diameter_mm"],  # both above what the tape tells
        ),
        (
            ring(942.5, largest_diameter_mm=299.8, smallest_diameter_mm=300.2),
            ["smallest_diameter_mm"],
        ),
        (ring(942.5, flange_seam_mm=60.0), ["flange_seam_mm"]),
        (
            ring(942.5, wall_mm=2.0, smallest_diameter_mm=302.5, flange_seam_mm=-60.0),
            ["wall_mm", "smallest_diameter_mm", "flange_seam_mm"],  # all at once
        ),
    ],
)
def test_impossible_rings_are_refused(bad: MeasuredRing, columns: list[str]) -> None:
    faults = ring_faults(DRAWN, bad)
    assert [fault.key for fault in faults] == columns
    assert all(fault.allowed and fault.advice for fault in faults)


def test_a_ring_that_makes_no_wheel_is_refused_with_the_wheels_own_words() -> None:
    drawn = plain_wheel(vent_circle_mm=264.0)  # vents end 1.5 mm within the disc's rim
    small = ring(930.0)  # 296 mm: the vents would cut the rim
    assert [fault.key for fault in ring_faults(drawn, small)] == [
        "wheel made of this ring.vent_circle_mm"
    ]


def test_out_of_round_is_told_by_the_diameters() -> None:
    assert ring(942.5).out_of_round_mm is None  # the tape alone does not
    uneven = ring(942.5, largest_diameter_mm=300.75, smallest_diameter_mm=299.5)
    assert uneven.out_of_round_mm == 1.25
