"""Stress on the edge of a vent hole: small holes in wide plates, stretched and bent."""

from __future__ import annotations

import math
import random
from typing import Any

import pytest

from platewheel.parts.rating.static_limit import static_limits
from tests.parts.rating.made_response import CALM, Stress, made_response
from tests.parts.wheels import plain_wheel

ALLOWED = 235 / 1.5  # S235 up to 16 mm, EN 10025-2 table 7; 1.5 on yield, load-rating practice
EXTRA = 1.1  # neighbouring vents and the rim; our choice, no source
SPEC = plain_wheel(vent_count=4, vent_circle_mm=230.0, vent_diameter_mm=16.0)
FACES = {"field": (8.0, 14.0), "gauge": (46.0, 52.0)}  # insets of 8, plates of 6, tread of 60
ALONG = (5 + 3 * 0.3) / (3 + 0.3)  # Goodier 1936, steel: 1.788 of the stress bent along
ACROSS = 2 - ALONG


def in_disc(rr: float, tt: float, rt: float = 0.0) -> Stress:
    return rr, 0.0, tt, 0.0, 0.0, rt


def edge(
    below: Stress,
    above: Stress,
    *,
    side: str = "field",
    r: float = 115.0,
    quiet: float = 1e-6,
    corners: tuple[tuple[float, float], ...] = (),
    where: str | None = None,
) -> float:
    """Edge stress for 1 N, less the extra: the disc's two faces stressed at radius r alone."""
    points, mean = [], []
    for name, faces in FACES.items():
        for z, stress in zip(faces, (below, above), strict=True):
            for at in (106.0, 107.0, 111.0, 115.0, 119.0, 123.0, 124.0):
                points.append((f"disc-{name}", at, z))
                mean.append(stress if (name, at) == (side, r) else in_disc(quiet, quiet))
    order = random.Random(3).sample(range(len(points)), len(points))  # in no order at all
    found = made_response(
        SPEC, [points[i] for i in order], mean=[mean[i] for i in order], corners=corners
    )
    limit = static_limits(found, 0.0, 0.0)[1]
    assert (limit.name, limit.by) == ("vent holes", "fy / 1.5")
    assert where is None or limit.where == where
    return ALLOWED / limit.load_n / EXTRA


# Kirsch 1898: 3 s1 - s2 on the edge of a small hole in a wide plate.
@pytest.mark.parametrize(
    ("stress", "times"),
    [
        (in_disc(0.01, 0.0), 3.0),
        (in_disc(0.0, 0.01), 3.0),
        (in_disc(0.0, -0.01), 3.0),
        (in_disc(0.01, 0.01), 2.0),
        (in_disc(0.01, -0.01), 4.0),
        (in_disc(0.01, 0.005), 2.5),
        (in_disc(-0.01, -0.005), 2.5),
    ],
)
def test_a_stretched_disc(stress: Stress, times: float) -> None:
    assert edge(stress, stress) == pytest.approx(times * 0.01)
    assert edge(stress, stress, side="gauge") == pytest.approx(times * 0.01)


# Goodier 1936, thin plate: (5 + 3 nu) / (3 + nu) along, the rest of 2 across.
@pytest.mark.parametrize(
    ("rr", "tt", "times"),
    [(0.01, 0.0, ALONG), (0.0, 0.01, ALONG), (0.01, 0.01, 2.0), (0.01, -0.01, ALONG - ACROSS)],
)
def test_a_bent_disc(rr: float, tt: float, times: float) -> None:
    assert edge(in_disc(-rr, -tt), in_disc(rr, tt)) == pytest.approx(times * 0.01)
    assert edge(in_disc(rr, tt), in_disc(-rr, -tt)) == pytest.approx(times * 0.01)


def test_stretched_and_bent_add_up() -> None:
    """Faces 0.03 and 0.01: mean 0.02, bent 0.01; each by its own factor."""
    found = edge(in_disc(0.03, 0.0), in_disc(0.01, 0.0))
    assert found == pytest.approx(3 * 0.02 + ALONG * 0.01)


def test_principal_stresses_of_a_sheared_disc() -> None:
    """Mohr's circle: rr 0.02, tt -0.01, rt 0.02 sin: at the quarter turn, where only the shear
    is left of the swing, s = 0.005 +- sqrt(0.015^2 + 0.02^2) = 0.03 and -0.02: 3 s1 - s2 = 0.11."""
    points, mean, swing = [], [], []
    for name, faces in FACES.items():
        for z in faces:
            points.append((f"disc-{name}", 115.0, z))
            mean.append(in_disc(0.02, -0.01))
            swing.append(in_disc(0.0, 0.0, 0.02))
    found = made_response(SPEC, points, mean=mean, swing=swing)
    limit = static_limits(found, 0.0, 0.0)[1]
    assert ALLOWED / limit.load_n / EXTRA == pytest.approx(0.11, rel=1e-3)


# Vents 16 wide on a circle of 230: radii 107 to 123.
@pytest.mark.parametrize(
    ("r", "counts"),
    [(106.0, False), (107.0, True), (111.0, True), (119.0, True), (123.0, True), (124.0, False)],
)
def test_only_where_a_hole_may_stand(r: float, counts: bool) -> None:
    stress = in_disc(0.01, 0.0)
    assert edge(stress, stress, r=r) == pytest.approx(0.03 if counts else 2e-6)


@pytest.mark.parametrize("side", ["field", "gauge"])
def test_the_disc_is_named(side: Any) -> None:
    stress = in_disc(0.01, 0.0)
    edge(stress, stress, side=side, where=f"vent holes of disc-{side}")


@pytest.mark.parametrize("face", [8.0, 14.0])
def test_a_welds_notch_is_not_the_holes_edge(face: float) -> None:
    """A bead's corner 1 mm from either face's point takes the pair out, 3 mm off it does not."""
    stress = in_disc(0.01, 0.0)
    assert edge(stress, stress, corners=((115.0, face + 1),)) == pytest.approx(2e-6)
    assert edge(stress, stress, corners=((115.0, face + 3),)) == pytest.approx(0.03)


def test_a_wheel_without_vents_has_no_such_limit() -> None:
    spec = plain_wheel(vent_count=0)
    found = made_response(spec, [("disc-field", 100.0, 8.0)], mean=[in_disc(0.01, 0.0)])
    assert [limit.name for limit in static_limits(found, 0.0, 0.0)] == ["static strength"]


def test_points_between_the_faces_do_not_count() -> None:
    """Only the faces' points are an edge; what lies in the plate, or in the other disc, is not."""
    points = [(f"disc-{name}", 115.0, z) for name, faces in FACES.items() for z in faces]
    mean = [in_disc(0.01, 0.0)] * 4 + [in_disc(0.05, 0.0)] * 2
    points += [("disc-field", 115.0, 11.0), ("hub-tube", 115.0, 8.0)]
    found = made_response(SPEC, points, mean=mean, swing=[CALM] * 6)
    limit = static_limits(found, 0.0, 0.0)[1]
    assert ALLOWED / limit.load_n / EXTRA == pytest.approx(0.03)
    assert math.isclose(static_limits(found, 0.0, 0.0)[0].load_n, ALLOWED / 0.05)
