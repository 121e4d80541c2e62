"""A disc of one's own in a wheel: it fits or is refused by name; solids weigh what outlines say."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from platewheel.parts.base.faults import SpecError
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Arc, Circle, moved, polygon, reversed_loop
from platewheel.parts.wheel.assembly import wheel_mass_kg, wheel_parts, wheel_sections, wheel_solids
from platewheel.parts.wheel.hub_disc import disc_blank, disc_volume_mm3
from platewheel.parts.wheel.own_disc import (
    as_disc,
    as_fitted_faults,
    most_gap_mm,
    own_solids,
    reach_mm,
)
from platewheel.parts.wheel.part import Part
from platewheel.parts.wheel.spec import WheelSpec
from tests.parts.settings import demo_setting

SPEC = demo_setting().wheel
PLAIN = disc_blank(SPEC)
HUB = PLAIN.holes[-1]
SLOT = polygon([(60.0, -15.0), (110.0, -25.0), (110.0, 25.0), (60.0, 15.0)])
SLOTS = tuple(moved(SLOT, 0.0, 0.0, 72.0 * k) for k in range(5))


def _radius(part: Part) -> float:
    assert part.blank is not None
    assert isinstance(part.blank.outline, Circle)
    return part.blank.outline.radius_mm


def disc(**other: object) -> Blank:
    return replace(
        Blank("own", "disc", SPEC.disc_thickness_mm, PLAIN.outline, (HUB, *SLOTS)), **other
    )  # type: ignore[arg-type]


WRONG = {
    "thickness": ({"thickness_mm": 5.0}, "own.thickness_mm", "6 mm"),
    "too wide": ({"outline": Circle((0.0, 0.0), 142.1)}, "own.outline", "ring bore"),
    "too small": ({"outline": Circle((0.0, 0.0), 140.0)}, "own.outline", "ring bore"),
    "beside the axis": ({"outline": Circle((0.5, 0.0), 141.0)}, "own.outline", "the axis"),
    "not round": (
        {"outline": polygon([(-130.0, -130.0), (130.0, -130.0), (0.0, 190.0)]), "holes": (HUB,)},
        "own.outline",
        "one circle",
    ),
    "no hub hole": ({"holes": SLOTS}, "own.holes", "for the hub"),
    "small hub hole": ({"holes": (Circle((0.0, 0.0), 28.0),)}, "own.holes[0]", "fits the hub"),
    "wide hub hole": ({"holes": (Circle((0.0, 0.0), 31.0),)}, "own.holes[0]", "fits the hub"),
    "square hub hole": (
        {"holes": (polygon([(-29.0, -29.0), (29.0, -29.0), (29.0, 29.0), (-29.0, 29.0)]),)},
        "own.holes[0]",
        "one circle",
    ),
    "hub hole off the axis": (
        {"holes": (Circle((0.3, -0.4), HUB.radius_mm),)},
        "own.holes[0]",
        r"centre 0\.5 mm off.*middle of the rim.*move it by \(-0\.3, 0\.4\) mm",
    ),
    "slot in the bead": ({"holes": (HUB, Circle((125.0, 0.0), 12.0))}, "own.holes[1]", "beads"),
    "slot at the hub": ({"holes": (HUB, Circle((40.0, 0.0), 6.0))}, "own.holes[1]", "beads"),
}


@pytest.mark.parametrize("why", WRONG)
def test_a_disc_that_does_not_fit_is_refused(why: str) -> None:
    other, key, words = WRONG[why]
    with pytest.raises(SpecError, match=words) as told:
        wheel_parts(SPEC, disc=disc(**other))
    assert [fault.key for fault in told.value.faults] == [key]


def test_the_plain_disc_is_one_that_fits() -> None:
    own = replace(PLAIN, name="own")
    assert wheel_mass_kg(SPEC, disc=own) == pytest.approx(wheel_mass_kg(SPEC), rel=1e-12)


def test_solids_weigh_what_the_outlines_say() -> None:
    """Slots of 50 x (30 + 50) / 2 = 2000 mm2 each, five in a disc; either way round."""
    own = disc(holes=(HUB, *map(reversed_loop, SLOTS)))
    edge = math.pi * (282.5**2 - 58.5**2) / 4
    assert own.area_mm2 == pytest.approx(edge - 5 * 2000.0)
    solids = dict(wheel_solids(SPEC, welds=False, disc=own))
    for side in ("field", "gauge"):
        assert solids[f"disc-{side}"].Volume() == pytest.approx(own.volume_mm3, rel=1e-9)
    plain = dict(wheel_solids(SPEC, welds=False))
    assert solids["disc-gauge"].BoundingBox().zmax == plain["disc-gauge"].BoundingBox().zmax
    less = 2 * (disc_volume_mm3(SPEC, "field") - own.volume_mm3) * 7.85e-6
    assert wheel_mass_kg(SPEC, disc=own) == pytest.approx(wheel_mass_kg(SPEC) - less)


def test_a_tapered_bore_has_the_rim_of_each_side() -> None:
    """From sheet the bore narrows to the field: one drawing, two rims, the slots the same."""
    tapered = WheelSpec(
        **(SPEC.model_dump() | {"tread_taper_1_in": 20.0, "tread_from": "sheet", "vent_count": 0})
    )
    sides = {p.name: p for p in wheel_parts(tapered) if p.name.startswith("disc")}
    own = replace(disc(), name="disc", outline=Circle((0.0, 0.0), _radius(sides["disc-field"])))
    parts = {part.name: part for part in wheel_parts(tapered, disc=own)}
    assert [_radius(parts[name]) for name in sides] == pytest.approx(
        [_radius(part) for part in sides.values()]
    )
    assert parts["disc-gauge"].blank.holes == own.holes  # type: ignore[union-attr]
    drawn, plain = (dict(wheel_sections(tapered, one)) for one in (own, None))
    for name in sides:
        assert drawn[name] == tuple(pytest.approx(corner) for corner in plain[name])


def test_another_gap_than_the_wheels_is_told() -> None:
    assert [*as_fitted_faults(SPEC, disc())] == []
    wide = disc(outline=Circle((0.0, 0.0), 141.1), holes=(Circle((0.0, 0.0), 29.0), *SLOTS))
    told = {fault.key: fault.value for fault in as_fitted_faults(SPEC, wide)}
    assert told == {"own.outline": 282.2, "own.holes[0]": 58.0}


def test_a_rim_of_arcs_is_a_circle() -> None:
    """As CAD writes one: two half turns whose ends are rounded."""
    halves = (Arc((0.0, 0.0), 141.25, 0.0, 180.0), Arc((0.0, 0.0), 141.25, 180.0, 180.0))
    rough = replace(halves[1], centre=(0.0004, 0.0), radius_mm=141.2502)
    for rim in (halves, (halves[0], rough)):
        found = as_disc(disc(outline=rim))
        assert found.outline == Circle((0.0, 0.0), 141.25)
        assert found.sizes == {"diameter_mm": 282.5, "hub_hole_diameter_mm": 58.5}


def test_a_gap_that_a_fillet_bridges() -> None:
    """ISO 5817, no. 617, level C: 0.5 mm + 0.2 x 4 mm."""
    assert most_gap_mm(SPEC) == pytest.approx(1.3)


@given(st.floats(-200, 200), st.floats(-200, 200), st.floats(1.0, 100.0))
def test_reach_of_a_circle(x: float, y: float, radius: float) -> None:
    near, far = reach_mm(Circle((x, y), radius))
    out = math.hypot(x, y)
    assert near == pytest.approx(abs(out - radius), abs=1e-6)
    assert far == pytest.approx(out + radius, abs=1e-6)


def test_a_disc_asked_for_again_is_the_same_and_shares_nothing() -> None:
    """Its mesh is its own, so that no file hangs on what was drawn before it."""
    (name, one), _ = own_solids(SPEC, disc())
    one.tessellate(0.5)
    (again, other), _ = own_solids(SPEC, disc())
    assert (name, one.Volume()) == (again, pytest.approx(other.Volume(), rel=1e-12))
    assert not one.wrapped.IsPartner(other.wrapped)
