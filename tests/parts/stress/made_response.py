"""A response made by hand: a few points whose stresses over one turn are known outright.

For 1 N at any place the patch makes `mean + swing cos(angle)` (zt and rt: `swing sin(angle)`), the
push `push cos(angle)`; each case's share by place is in `SHARES`, so that the last place is worst.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.stress.load_series import PLACES, LoadSeries
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.section_mesh import SectionMesh, Toe
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from platewheel.parts.stress.section_mesh import Leg

HARMONICS = 4
SHARES = np.linspace(0.4, 1.0, PLACES)  # of the stress given, from the first place to the last
TANGENTIAL = 0.75  # of the swing; the radial load makes the rest
Stress = tuple[float, float, float, float, float, float]  # rr, zz, tt, rz, zt, rt
CALM: Stress = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


def made_response(
    spec: WheelSpec,
    points: Sequence[tuple[str, float, float]],
    *,
    mean: Sequence[Stress] = (),
    swing: Sequence[Stress] = (),
    push: Sequence[Stress] = (),
    toes: tuple[Toe, ...] = (),
    legs: tuple[Leg, ...] = (),
    corners: tuple[tuple[float, float], ...] = (),
    bead_forces: Mapping[str, NDArray[np.float64]] | None = None,
    places_mm: tuple[float, ...] = (30.0,) * PLACES,
    half_length_mm: float = 4.0,
    tip: NDArray[np.float64] | None = None,
) -> Response:
    """`points` are (part, r, z), one stress of each kind for each of them, left out where 0."""
    series = LoadSeries(np.arange(HARMONICS), HARMONICS, half_length_mm / 150, 10 / 150)
    none = [CALM] * len(points)
    steady, swung, pushed = (np.array(list(s or none)).T for s in (mean, swing, push))
    unit = np.zeros((2 * PLACES + 1, HARMONICS, 6, len(points)))
    radial, tangential = series.patch
    for place, share in enumerate(SHARES):
        unit[place, 0] = share * steady / radial[0]
        unit[place, 1] = share * (1 - TANGENTIAL) * swung / radial[1]
        unit[PLACES + place, 1] = share * TANGENTIAL * swung / tangential[1]
    unit[-1, 1] = pushed / series.push[1]
    parts = tuple(part for part, _, _ in points)
    nodes = np.array([(r, z) for _, r, z in points]).reshape(-1, 2)
    mesh = SectionMesh(nodes, np.zeros((0, 3), dtype=np.int64), (), toes, legs, corners)
    return Response(
        spec,
        mesh,
        parts,
        np.arange(len(points)),
        series,
        unit,
        np.zeros((HARMONICS, 3, PLACES + 1)) if tip is None else tip,
        places_mm,
        20.0,
        half_length_mm,
        dict(bead_forces or {}),
    )
