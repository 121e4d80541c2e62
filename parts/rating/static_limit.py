"""Static limit: von Mises stress outside the singular spots, and beside the vent holes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.rating.limit import Limit, Worst
from platewheel.parts.rating.response import Response
from platewheel.parts.rating.solid_of_revolution import POISSON
from platewheel.parts.rating.turn import angles, stress_fields, von_mises
from platewheel.parts.wheel.hub_disc import SIDES, disc_z_mm
from platewheel.parts.wheel.kinds import kind_of
from platewheel.parts.wheel.part import Role
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import TREAD

if TYPE_CHECKING:
    from numpy.typing import NDArray

SAFETY = 1.5  # on yield; load-rating practice for a static check with dynamic factors in the load
SINGULAR_SHARE = 0.4  # of the plate thickness round weld toes and roots (IIW reading distance)
VENT_EXTRA = 1.1  # neighbouring vents and the rim raise the plate theory's factor a little
BENDING_ALONG = (5 + 3 * POISSON) / (3 + POISSON)  # hole in a bent plate, Goodier 1936
BENDING_ACROSS = 2 - BENDING_ALONG


def static_limits(response: Response, lateral_share: float) -> list[Limit]:
    """Load at which von Mises stress reaches fy / 1.5: plates, and vent edges."""
    spec = response.spec
    kept = regular_points(response)
    in_tread = _in_role(response, "runs on the rail")
    in_flange = _in_role(response, "guides")
    plates, vents = Worst(), Worst()
    turns = angles(response)
    for case, stress in stress_fields(response, lateral_share):
        field = von_mises(stress) * kept[None]
        field[contact_mask(response, case.place, turns) & in_tread[None]] = 0.0
        if case.lateral_share:
            field[push_mask(response, turns) & in_flange[None]] = 0.0
        i, j = np.unravel_index(int(field.argmax()), field.shape)
        plates.offer(float(field[i, j]), _where(response, int(j), float(turns[i])))
        if spec.vent_count:
            for side in SIDES:
                vents.offer(*_vent_edge(response, side, stress, kept))
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


def _vent_edge(
    response: Response, side: str, stress: NDArray[np.float64], kept: NDArray[np.bool_]
) -> tuple[float, str]:
    """Largest stress on a vent's edge anywhere the hole may stand, by plate theory.

    Membrane: 3 s1 - s2 (Kirsch 1898); bending: 1.79 s1 + 0.21 s2 (Goodier 1936), both round a
    small hole in a wide plate.
    """
    spec, points = response.spec, response.points
    low, high = disc_z_mm(spec, "field" if side == "field" else "gauge")
    name = np.array([part == f"disc-{side}" for part in response.part_of])
    span = np.abs(points[:, 0] - spec.vent_circle_mm / 2) <= spec.vent_diameter_mm / 2 + 1e-6
    faces = []
    for z in (low, high):
        rows = np.nonzero(name & span & (np.abs(points[:, 1] - z) < 1e-6))[0]
        faces.append(rows[np.argsort(points[rows, 0])])
    clear = kept[faces[0]] & kept[faces[1]]  # a weld's notch is not the hole's edge
    faces = [rows[clear] if clear.any() else rows for rows in faces]
    below, above = (stress[:, :, rows] for rows in faces)
    membrane, bending = (below + above) / 2, (above - below) / 2
    m1, m2 = _principal(membrane)
    b1, b2 = _principal(bending)
    edge_m = np.maximum(np.abs(3 * m1 - m2), np.abs(3 * m2 - m1))
    edge_b = np.maximum(
        np.abs(BENDING_ALONG * b1 + BENDING_ACROSS * b2),
        np.abs(BENDING_ALONG * b2 + BENDING_ACROSS * b1),
    )
    return float((edge_m + edge_b).max()) * VENT_EXTRA, f"vent holes of disc-{side}"


def _principal(stress: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """In-plane principal stresses of a disc, from rr, tt, rt."""
    rr, tt, rt = stress[:, 0], stress[:, 2], stress[:, 5]
    mean, swing = (rr + tt) / 2, np.hypot((rr - tt) / 2, rt)
    return mean + swing, mean - swing
