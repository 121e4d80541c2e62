"""Stress on the edge of a vent hole: small holes in wide plates, stretched and bent."""

from __future__ import annotations

import math
import random
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from platewheel.parts.loads.spectrum import Block
from platewheel.parts.rating.detail import cycles_of
from platewheel.parts.rating.static_limit import regular_points, static_limits
from platewheel.parts.rating.vent_edge import vent_details
from platewheel.parts.stress.turn import angles
from tests.parts.stress.made_response import CALM, Stress, made_response
from tests.parts.wheels import plain_wheel

ALLOWED = 235 / 1.5  # S235 up to 16 mm, EN 10025-2 table 7; 1.5 on yield, load-rating practice
SPEC = plain_wheel(vent_count=4, vent_circle_mm=230.0, vent_diameter_mm=16.0)
EXTRA = 1.1 + 0.22 * 16 / (230 * math.sqrt(0.5) - 16)  # of the study; a hole over its web
FACES = {"field": (8.0, 14.0), "gauge": (46.0, 52.0)}  # insets of 8, plates of 6, tread of 60
ALONG = (5 + 3 * 0.3) / (3 + 0.3)  # Goodier 1936, steel: 1.788 of the stress bent along
ACROSS = 2 - ALONG
IN, OUT = 107.0, 123.0  # radii of a vent's nearest and farthest point


def in_disc(rr: float, tt: float, rt: float = 0.0) -> Stress:
    return rr, 0.0, tt, 0.0, 0.0, rt


def normal(r: float) -> float:
    """From the axle's radius to the hole's at the edge's point of radius r, both by coordinates:
    hole of 8 round (115, 0)."""
    x = (r * r + 115.0**2 - 8.0**2) / (2 * 115.0)
    y = math.sqrt(max(r * r - x * x, 0.0))
    return math.atan2(y, x - 115.0) - math.atan2(y, x)


def along_edge(r: float, rr: float, tt: float, rt: float, most: float) -> float:
    """Mohr's circle in the hole's directions: `most` of what is along the edge and the rest of 2
    (of 4 for shear, both taken off) across it. Kirsch: 3 and -1; Goodier: 1.788 and 0.212."""
    a = normal(r)
    c, s = math.cos(a), math.sin(a)
    out = rr * c * c + tt * s * s + 2 * rt * s * c
    along = rr * s * s + tt * c * c - 2 * rt * s * c
    return most * along + (2 - most) * out


def made(
    below: Stress, above: Stress, *, side: str = "field", r: float = 115.0, quiet: float = 1e-6
) -> tuple[list[Any], list[Stress]]:
    """Points of both discs in no order at all, and their stress: one radius of one disc alone."""
    points, found = [], []
    for name, faces in FACES.items():
        for z, stress in zip(faces, (below, above), strict=True):
            for at in (106.0, IN, 111.0, 115.0, 119.0, OUT, 124.0):
                points.append((f"disc-{name}", at, z))
                found.append(stress if (name, at) == (side, r) else in_disc(quiet, quiet))
    order = random.Random(3).sample(range(len(points)), len(points))
    return [points[i] for i in order], [found[i] for i in order]


def edge(
    below: Stress,
    above: Stress,
    *,
    corners: tuple[tuple[float, float], ...] = (),
    where: str | None = None,
    **kind: Any,
) -> float:
    """Edge stress for 1 N, less the factor: the disc's two faces stressed at radius r alone."""
    points, mean = made(below, above, **kind)
    found = made_response(SPEC, points, mean=mean, corners=corners)
    limit = static_limits(found, 0.0, 0.0)[1]
    assert (limit.name, limit.by) == ("vent holes", "fy / 1.5")
    assert where is None or limit.where == where
    return ALLOWED / limit.load_n / EXTRA


# Kirsch 1898: 3 along and -1 across on the edge of a small hole in a wide plate.
@pytest.mark.parametrize("r", [IN, 111.0, 115.0, 119.0, OUT])
@pytest.mark.parametrize(
    ("rr", "tt"), [(0.01, 0.0), (0.0, 0.01), (0.0, -0.01), (0.01, 0.01), (0.01, -0.01)]
)
def test_a_stretched_disc(rr: float, tt: float, r: float) -> None:
    stress = in_disc(rr, tt)
    wanted = abs(along_edge(r, rr, tt, 0.0, 3.0))
    for side in FACES:
        assert edge(stress, stress, r=r, side=side) == pytest.approx(wanted, rel=1e-6)


def test_hoop_stress_counts_three_times_at_the_nearest_and_farthest_point() -> None:
    """And radial stress once, pushed; at the sides of the hole it is the other way round."""
    for r in (IN, OUT):
        assert edge(in_disc(0.0, 0.01), in_disc(0.0, 0.01), r=r) == pytest.approx(0.03)
        assert edge(in_disc(0.01, 0.0), in_disc(0.01, 0.0), r=r) == pytest.approx(0.01)
    assert edge(in_disc(0.01, 0.0), in_disc(0.01, 0.0)) == pytest.approx(0.03, rel=0.003)
    assert edge(in_disc(0.0, 0.01), in_disc(0.0, 0.01)) == pytest.approx(0.01, rel=0.01)


# Goodier 1936, thin plate: (5 + 3 nu) / (3 + nu) along, the rest of 2 across.
@pytest.mark.parametrize("r", [IN, 111.0, 115.0, 119.0, OUT])
@pytest.mark.parametrize(("rr", "tt"), [(0.01, 0.0), (0.0, 0.01), (0.01, 0.01), (0.01, -0.01)])
def test_a_bent_disc(rr: float, tt: float, r: float) -> None:
    wanted = abs(along_edge(r, rr, tt, 0.0, ALONG))
    for one, other in ((-1, 1), (1, -1)):
        found = edge(in_disc(one * rr, one * tt), in_disc(other * rr, other * tt), r=r)
        assert found == pytest.approx(wanted, rel=1e-6)


def test_stretched_and_bent_add_up() -> None:
    """Faces 0.03 and 0.01: mean 0.02, bent 0.01; each by its own factor."""
    found = edge(in_disc(0.03, 0.0), in_disc(0.01, 0.0))
    stretched, bent = (along_edge(115.0, s, 0.0, 0.0, k) for s, k in ((0.02, 3.0), (0.01, ALONG)))
    assert found == pytest.approx(stretched + bent)


@pytest.mark.parametrize("r", [111.0, 119.0])
def test_a_sheared_disc(r: float) -> None:
    """rr 0.02, tt -0.01, rt 0.02 sin: over the turn the largest of both sides of the hole."""
    points, mean = made(in_disc(0.02, -0.01), in_disc(0.02, -0.01), r=r)
    _, swing = made(in_disc(0.0, 0.0, 0.02), in_disc(0.0, 0.0, 0.02), r=r, quiet=0.0)
    found = made_response(SPEC, points, mean=mean, swing=swing)
    limit = static_limits(found, 0.0, 0.0)[1]
    wanted = max(
        abs(along_edge(r, 0.02, -0.01, 0.02 * sine, 3.0)) for sine in np.linspace(-1, 1, 41)
    )
    assert ALLOWED / limit.load_n / EXTRA == pytest.approx(wanted, rel=1e-3)


# Vents 16 wide on a circle of 230: radii 107 to 123.
@pytest.mark.parametrize(
    ("r", "counts"),
    [(106.0, False), (IN, True), (111.0, True), (119.0, True), (OUT, True), (124.0, False)],
)
def test_only_where_a_hole_may_stand(r: float, counts: bool) -> None:
    stress = in_disc(0.0, 0.01)
    wanted = abs(along_edge(r, 0.0, 0.01, 0.0, 3.0)) if counts else 2e-6
    assert edge(stress, stress, r=r) == pytest.approx(wanted)


@pytest.mark.parametrize("side", ["field", "gauge"])
def test_the_disc_is_named(side: Any) -> None:
    stress = in_disc(0.01, 0.0)
    edge(stress, stress, side=side, where=f"vent holes of disc-{side}")


@pytest.mark.parametrize("face", [8.0, 14.0])
def test_a_welds_notch_is_not_the_holes_edge(face: float) -> None:
    """A bead's corner 1 mm from either face's point takes the pair out, 3 mm off it does not."""
    stress = in_disc(0.0, 0.01)
    there = {"r": OUT}
    assert edge(stress, stress, corners=((OUT, face + 1),), **there) == pytest.approx(2e-6)
    assert edge(stress, stress, corners=((OUT, face + 3),), **there) == pytest.approx(0.03)


def test_a_wheel_without_vents_has_no_such_limit() -> None:
    spec = plain_wheel(vent_count=0)
    found = made_response(spec, [("disc-field", 100.0, 8.0)], mean=[in_disc(0.01, 0.0)])
    assert [limit.name for limit in static_limits(found, 0.0, 0.0)] == ["static strength"]
    assert vent_details(found, "plasma", regular_points(found)) == []


def test_points_between_the_faces_do_not_count() -> None:
    """Only the faces' points are an edge; what lies in the plate, or in the other disc, is not."""
    points = [(f"disc-{name}", OUT, z) for name, faces in FACES.items() for z in faces]
    mean = [in_disc(0.0, 0.01)] * 4 + [in_disc(0.05, 0.0)] * 2
    points += [("disc-field", OUT, 11.0), ("hub-tube", OUT, 8.0)]
    found = made_response(SPEC, points, mean=mean, swing=[CALM] * 6)
    limit = static_limits(found, 0.0, 0.0)[1]
    assert ALLOWED / limit.load_n / EXTRA == pytest.approx(0.03)
    assert math.isclose(static_limits(found, 0.0, 0.0)[0].load_n, ALLOWED / 0.05)


def ranges(steady: Stress, swing: Stress, r: float, process: str = "plasma") -> Any:
    points, mean = made(steady, steady, r=r, quiet=0.0)
    _, swung = made(swing, swing, r=r, quiet=0.0)
    found = made_response(SPEC, points, mean=mean, swing=swung)
    details = vent_details(found, process, regular_points(found))
    assert {one.name for one in details} == {"vent edges"}
    block = Block("straight", "loaded", 1.0, 1.0, 1.0, 0.0, 0.0, 0.0)
    sizes = [cycles_of(one, (block,), angles(found)).ranges[:, 0].max() for one in details]
    worst = int(np.argmax(sizes))
    assert details[worst].where == "vent holes of disc-field"
    return SimpleNamespace(range_per_n=float(sizes[worst]), fat_n_mm2=details[worst].fat_n_mm2)


def test_a_point_of_the_edge_feels_the_swing_of_one_turn() -> None:
    """0.01 cos: from -0.01 to 0.01 at its point; what stands still is no range."""
    limit = ranges(in_disc(0.0, 0.05), in_disc(0.0, 0.01), OUT)
    assert limit.range_per_n / EXTRA == pytest.approx(3 * 0.02)


def test_shear_turns_its_sign_over_the_other_half_of_the_turn() -> None:
    """0.01 sin: 0 to 0.01 in one half of the turn, 0 to -0.01 in the other."""
    limit = ranges(CALM, in_disc(0.0, 0.0, 0.01), 111.0)
    wanted = 2 * abs(along_edge(111.0, 0.0, 0.0, 0.01, 3.0))
    assert limit.range_per_n / EXTRA == pytest.approx(wanted, rel=1e-3)


# EN 1993-1-9:2005, table 8.1, from memory; by hand: our choice.
@pytest.mark.parametrize(
    ("process", "fat"), [("plasma", 125), ("laser", 125), ("oxy-fuel", 125), ("hand", 100)]
)
def test_the_class_is_that_of_the_cut(process: str, fat: int) -> None:
    limit = ranges(CALM, in_disc(0.0, 0.01), OUT, process)
    assert limit.fat_n_mm2 == fat
