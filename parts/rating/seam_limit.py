"""Butt seams of ring and flange: hoop stress across them, which passes the rail once a turn.

A seam lies in a plane through the axis, so the stress square to it is the hoop stress, and every
place across the ring's width and the flange's depth is a place of the seam.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.rating.detail import Detail
from platewheel.parts.rating.detail_class import DetailClass, seam_class
from platewheel.parts.rating.static_limit import contact_mask, push_mask, regular_points
from platewheel.parts.stress.cells import on_edge
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.turn import angles
from platewheel.parts.wheel.flange import flange_section, seam_length_mm
from platewheel.parts.wheel.tread_ring import tread_plates

if TYPE_CHECKING:
    from numpy.typing import NDArray

HOOP = 2  # in COMPONENTS
FLANGE_SEAMS = "flange seams"


@dataclass(frozen=True)
class SeamHistory:
    """Stress across a seam over half a turn, the other half being its mirror, N/mm2 for 1 N.

    `where`: each point in words. `vertical` (PLACES, angles, points): of a patch at each of its
    places; `push` (angles, points): of the push on the flange. A load's history is their sum.
    Close under the patch and the push, where the contact itself is the stress and other limits
    judge it, a point keeps the value of the nearest angle outside.
    """

    name: str
    where: tuple[str, ...]
    detail: DetailClass
    vertical: NDArray[np.float64]
    push: NDArray[np.float64]


def seam_histories(response: Response) -> list[SeamHistory]:
    """Of each kind of seam that the wheel has, at both faces of its plate."""
    spec, found = response.spec, []
    if spec.tread_from != "pipe":
        found.append(_history(response, "ring seam", "tread", "ring"))
    if seam_length_mm(spec):
        found.append(_history(response, FLANGE_SEAMS, "flange", "flange"))
    return found


def seam_details(response: Response) -> list[Detail]:
    """Every point of every seam; the flange's feel the push."""
    return [
        Detail(
            history.name,
            history.where[i],
            history.detail.fat_n_mm2,
            history.vertical[..., i, None],
            history.push[:, i, None],
            feels_push=history.name == FLANGE_SEAMS,
        )
        for history in seam_histories(response)
        for i in range(len(history.where))
    ]


def _history(response: Response, name: str, part: str, word: str) -> SeamHistory:
    rows = _faces(response, part)
    unit = response.unit[:, :, HOOP][..., rows]
    turns = angles(response)
    (radial, _), (tangential, _), (push, _) = response.series.weights(turns)
    vertical = np.stack(
        [radial @ unit[place] + tangential @ unit[PLACES + place] for place in range(PLACES)]
    )
    pushed = push @ unit[-1]
    if part == "tread":
        for place in range(PLACES):
            _hold(vertical[place], contact_mask(response, place, turns)[:, rows])
    else:
        _hold(pushed, push_mask(response, turns)[:, rows])
    places = response.points[rows]
    where = tuple(f"{word} at r {r:.0f}, z {z:.0f} mm" for r, z in places)
    return SeamHistory(name, where, seam_class(response.spec), vertical, pushed)


def _faces(response: Response, part: str) -> NDArray[np.int64]:
    """Stress points on both faces of a plate, clear of toes and roots. The worn tread's face is
    where its outermost points are."""
    spec, points = response.spec, response.points
    corners = tread_plates(spec)[0][1] if part == "tread" else flange_section(spec)
    a, _, c, d = (np.asarray(corner) for corner in corners)
    through = (d - a) / np.linalg.norm(d - a)
    mine = np.array([one == part for one in response.part_of]) & regular_points(response)
    rows = np.nonzero(mine)[0]
    if not len(rows):
        return rows
    depth = (points[rows] - a) @ through
    outer = depth < depth.min() + 1e-6
    inner = np.array([on_edge(point, d, c) for point in points[rows]])
    return np.asarray(rows[outer | inner])


def _hold(stress: NDArray[np.float64], hidden: NDArray[np.bool_]) -> None:
    """Angles (rows) that a point is hidden at, from 0 on, get its value where it comes out."""
    for point in np.nonzero(hidden.any(axis=0))[0]:
        first = int(np.argmin(hidden[:, point]))
        stress[:first, point] = stress[first, point]
