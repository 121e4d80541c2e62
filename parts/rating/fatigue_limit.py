"""Places of the welds that may crack: hot-spot stress at toes, throat stress at roots."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.rating.detail import Detail
from platewheel.parts.rating.detail_class import (
    BACKED_ROOT,
    FILLET_ROOT,
    OPENED_ROOT,
    ROOT,
    TOE,
    WHOLE_ROOT,
    is_backed,
)
from platewheel.parts.rating.limit import Limit, Worst
from platewheel.parts.rating.vented_disc import bead_factor, toe_factor
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.section_mesh import TOE_STEPS, Toe
from platewheel.parts.stress.throat import Throat, throat_of
from platewheel.parts.stress.turn import angles, around, unit_histories
from platewheel.parts.wheel.welds import bead_words, weld_beads

if TYPE_CHECKING:
    from numpy.typing import NDArray

HOT_SPOT = (1.67, -0.67)  # of the stresses at 0.4 t and 1.0 t. IIW, fine mesh


def toe_details(response: Response) -> list[Detail]:
    """Stress square to every toe, at its reading points; with both the extrapolated one as well,
    so that the worst of the three covers stresses that change sign within a thickness."""
    readings = [(toe, _readings(response, toe)) for toe in response.mesh.toes]
    points = sorted({point for _, found in readings for point in found})
    if not points:
        return []
    down, across = unit_histories(response, points)
    details = []
    for toe, found in readings:
        at = [points.index(point) for point in found]
        pairs = [(_square(down[..., i], toe), _square(across[..., i], toe)) for i in at]
        if len(pairs) == 2:
            near, far = pairs
            pairs.append(
                (
                    HOT_SPOT[0] * near[0] + HOT_SPOT[1] * far[0],
                    HOT_SPOT[0] * near[1] + HOT_SPOT[1] * far[1],
                )
            )
        where = f"{toe.plate} beside the {bead_words(toe.bead)}"
        more = toe_factor(response.spec, toe.bead)
        details += [
            Detail(
                "weld toes",
                where,
                TOE.fat_n_mm2,
                more * one[..., None],
                more * other[..., None],
                feels_push=toe.bead == ROOT,
            )
            for one, other in pairs
        ]
    return details


def _readings(response: Response, toe: Toe) -> tuple[int, ...]:
    """Stress points at 0.4 t and 1.0 t from the toe along the face; those that exist."""
    rows = np.nonzero([part == toe.plate for part in response.part_of])[0]
    found = []
    for share in TOE_STEPS:
        step = share * toe.thickness_mm
        if step < toe.room_mm - 1e-3:
            place = np.add(toe.at, step * np.asarray(toe.along))
            gap = np.hypot(*(response.points[rows] - place).T)
            if gap.min() < 1e-3:
                found.append(int(rows[int(np.argmin(gap))]))
    return tuple(found)


def _square(stress: NDArray[np.float64], toe: Toe) -> NDArray[np.float64]:
    """(..., 6) of rr, zz, tt, rz, ... to the stress square to the toe's line along the face."""
    a, b = toe.along
    return np.asarray(a * a * stress[..., 0] + b * b * stress[..., 1] + 2 * a * b * stress[..., 3])


def root_details(response: Response) -> list[Detail]:
    """Every bead's throat: force over it with its whole range; force with bending where it pulls
    the root open (EN 1993-1-8:2005, 4.12), and with its whole range, as EN 1993-1-9:2005, 7.2.1,
    counts what is not stress-relieved; a backed root by the last alone, in a class of its own."""
    details = []
    for name, throat, down, across in _throat_lines(response):
        found = [throat.stresses(line) for line in [*down, across]]
        force = bead_factor(response.spec, name) * np.stack([square for _, square, _ in found])
        bent = bead_factor(response.spec, name, opened=True)
        root = bent * np.stack([root for root, _, _ in found])[..., None]
        kinds = [
            ("weld roots", FILLET_ROOT, force, False),
            ("opened weld roots", OPENED_ROOT, root, True),
            ("weld roots, full range", WHOLE_ROOT, root, False),
        ]
        if is_backed(response.spec, name):
            kinds = [("backed root", BACKED_ROOT, root, False)]
        details += [
            Detail(
                limit,
                bead_words(name),
                one.fat_n_mm2,
                series[:-1],
                series[-1],
                opened=pulls,
                feels_push=name == ROOT,
            )
            for limit, one, series, pulls in kinds
        ]
    return details


def throat_limit(response: Response, side_share: float, push_share: float) -> Limit:
    """Load at which a throat reaches its static resistance over 1.5, with side force and push in
    proportion. Source: EN 1993-1-8:2005, 4.5.3.3, simplified method."""
    static = Worst()
    for name, throat, down, across in _throat_lines(response):
        share = push_share if name == ROOT else side_share
        more = bead_factor(response.spec, name)
        for line in down:
            for one in (line, line + share * across):
                _, square, along = throat.stresses(one)
                whole = np.sqrt((square**2).sum(axis=1) + along**2)
                static.offer(more * float(whole.max()), bead_words(name))
    grade = response.spec.grade
    resistance = grade.fu_n_mm2 / (math.sqrt(3) * grade.beta_w * 1.25) / 1.5
    return Limit("weld throats", resistance / static.value, static.where, "EN 1993-1-8, over 1.5")


def _throat_lines(
    response: Response,
) -> list[tuple[str, Throat, NDArray[np.float64], NDArray[np.float64]]]:
    """Each bead, its throat, and what passes through a mm of it: radial, axial and tangential
    force and moment, (places, angles, 4) for 1 N down, (angles, 4) for 1 N of push."""
    beads = {bead.name: bead for bead in weld_beads(response.spec)}
    turns, lines = angles(response), []
    for name, amplitudes in response.bead_forces.items():
        throat = throat_of(beads[name], response.mesh)
        per_mm = amplitudes / throat.radius_mm
        line = around(per_mm[:, [0, 2, 3, 1]], turns, 1)[:, [0, 1, 3, 2]]  # (angles, 4, cases)
        each = line.transpose(2, 0, 1)
        lines.append((name, throat, each[:PLACES], each[PLACES]))
    return lines
