"""Static limit: von Mises stress outside the singular spots, and beside the vent holes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.rating.limit import Limit, Worst
from platewheel.parts.rating.vent_edge import vent_edge
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.turn import angles, stress_fields, von_mises
from platewheel.parts.wheel.hub_disc import SIDES
from platewheel.parts.wheel.kinds import kind_of
from platewheel.parts.wheel.part import Role
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import TREAD

if TYPE_CHECKING:
    from numpy.typing import NDArray

SAFETY = 1.5  # on yield; load-rating practice for a static check with dynamic factors in the load
SINGULAR_SHARE = 0.4  # of the plate thickness round weld toes and roots (IIW reading distance)


def static_limits(response: Response, side_share: float, push_share: float) -> list[Limit]:
    """Load at which von Mises stress reaches fy / 1.5: plates, and vent edges.

    Side force and push over the vertical load: the flange feels the push, all else the side force.
    """
    spec = response.spec
    kept = regular_points(response)
    in_tread = _in_role(response, "runs on the rail")
    in_flange = _in_role(response, "guides")
    plates, vents = Worst(), Worst()
    turns = angles(response)
    flange = np.nonzero(in_flange & kept)[0].tolist()
    clear = ~push_mask(response, turns)[:, flange]
    for case, stress in stress_fields(response, push_share, flange) if flange else ():
        field = von_mises(stress)
        if case.lateral_share:
            field *= clear
        i, j = np.unravel_index(int(field.argmax()), field.shape)
        plates.offer(float(field[i, j]), _where(response, flange[int(j)], float(turns[i])))
    for case, stress in stress_fields(response, side_share):
        field = von_mises(stress) * (kept & ~in_flange)[None]
        field[contact_mask(response, case.place, turns) & in_tread[None]] = 0.0
        i, j = np.unravel_index(int(field.argmax()), field.shape)
        plates.offer(float(field[i, j]), _where(response, int(j), float(turns[i])))
        if spec.vent_count:
            for side in SIDES:
                vents.offer(*vent_edge(response, side, stress, kept))
    yields = {part: spec.grade.fy_n_mm2(_thickness(spec, part)) for part in set(response.part_of)}
    allowed = min(yields.values()) / SAFETY
    limits = [Limit("static strength", allowed / plates.value, plates.where, "fy / 1.5")]
    if spec.vent_count:
        limits.append(Limit("vent holes", allowed / vents.value, vents.where, "fy / 1.5"))
    return limits


def _in_role(response: Response, role: Role) -> NDArray[np.bool_]:
    """Which points lie in parts of a role."""
    kinds = [kind_of(part) for part in response.part_of]
    return np.array([kind is not None and kind.role == role for kind in kinds])


def _thickness(spec: WheelSpec, part: str) -> float:
    """Of a part's plate; a bead counts as the ring."""
    return (kind_of(part) or TREAD).thickness_mm(spec)


def regular_points(response: Response) -> NDArray[np.bool_]:
    """False near weld toes and roots, where the stress of a sharp corner has no limit."""
    points, kept = response.points, np.ones(len(response.part_of), dtype=bool)
    spec = response.spec
    reach = np.array([SINGULAR_SHARE * _thickness(spec, part) for part in response.part_of])
    for corner in response.mesh.corners:
        kept &= np.hypot(points[:, 0] - corner[0], points[:, 1] - corner[1]) > reach
    beads = np.array([part.startswith("weld") for part in response.part_of])
    return np.asarray(kept & ~beads)  # beads are judged by their throat


def contact_mask(response: Response, place: int, turns: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Outer half of the wall within one wall of the patch: the contact itself, (angles, points)."""
    spec, points = response.spec, response.points
    wall = spec.tread_thickness_mm
    outside = spec.tread_radius_mm - (spec.tread_width_mm - points[:, 1]) * np.tan(
        spec.taper_half_angle
    )
    outer = outside - points[:, 0] < wall / 2
    middle = response.places_mm[place] * np.cos(spec.taper_half_angle)
    beside = np.abs(points[:, 1] - middle) < response.patch_width_mm / 2 + wall
    under = turns * spec.tread_radius_mm < response.half_length_mm + wall
    return np.asarray(under[:, None] & (outer & beside)[None])


def push_mask(response: Response, turns: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Rail-side half of the flange plate near the push, (angles, points)."""
    spec, points = response.spec, response.points
    along = np.array([np.sin(spec.flange_angle), np.cos(spec.flange_angle)])
    inward = np.array([-along[1], along[0]])
    offset = points - np.array([spec.tread_radius_mm, spec.tread_width_mm])
    near = (offset @ inward < spec.flange_thickness_mm / 2) & (offset @ along < 12.0)
    under = turns * spec.tread_radius_mm < 10.0 + spec.flange_thickness_mm
    return np.asarray(under[:, None] & near[None])


def _where(response: Response, point: int, turn: float) -> str:
    r, z = response.points[point]
    part = response.part_of[point]
    return f"{part} at r {r:.0f}, z {z:.0f} mm, {np.degrees(turn):.0f} deg from the rail"
