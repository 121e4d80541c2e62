"""Fatigue limits: hot-spot stress at weld toes, throat stress at weld roots, one range a turn."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.rating.detail_class import (
    BACKED_ROOT,
    FILLET_ROOT,
    OPENED_ROOT,
    TOE,
    WHOLE_ROOT,
    DetailClass,
    is_backed,
)
from platewheel.parts.rating.limit import Limit, Worst
from platewheel.parts.rating.response import Response
from platewheel.parts.rating.section_mesh import TOE_STEPS, Toe
from platewheel.parts.rating.throat import throat_of
from platewheel.parts.rating.turn import angles, around, cases, stress_fields
from platewheel.parts.wheel.welds import bead_words, weld_beads

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Field = NDArray[np.float64]

KNEE_CYCLES, CATEGORY_CYCLES = 1e7, 2e6
HOT_SPOT = (1.67, -0.67)  # of the stresses at 0.4 t and 1.0 t. IIW, fine mesh


def allowed_range(fat_n_mm2: float, cycles: float, factor: float) -> float:
    """Stress range that a class allows for so many cycles: slope 3 to 1e7, then slope 5.

    Source: IIW recommendations, loads of varying size; the inverse of
    `parts.rating.fatigue.cycles_to_failure_iiw`, over the partial factor on ranges.
    """
    knee = fat_n_mm2 * (CATEGORY_CYCLES / KNEE_CYCLES) ** (1 / 3)
    if cycles <= KNEE_CYCLES:
        return float(fat_n_mm2 * (CATEGORY_CYCLES / cycles) ** (1 / 3) / factor)
    return float(knee * (KNEE_CYCLES / cycles) ** 0.2 / factor)


def toe_limit(response: Response, lateral_share: float, cycles: float, factor: float) -> Limit:
    """Load at which the worst toe's hot-spot range reaches its class for the cycles."""
    readings = [(toe, _readings(response, toe)) for toe in response.mesh.toes]
    read = sorted({point for _, points in readings for point in points})
    worst = Worst()
    for _, stress in stress_fields(response, lateral_share, read):
        for toe, points in readings:
            if points:
                worst.offer(
                    _toe_range(stress, toe, tuple(read.index(point) for point in points)),
                    f"{toe.plate} beside the {bead_words(toe.bead)}",
                )
    return fatigue_limit("weld toes", worst, TOE, cycles, factor)


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


def _toe_range(stress: NDArray[np.float64], toe: Toe, points: tuple[int, ...]) -> float:
    """Range over a turn of the stress square to the toe; with both readings the largest of the
    extrapolated one and the two, which covers stresses that change sign within a thickness."""
    a, b = toe.along
    across = (a * a * stress[:, 0] + b * b * stress[:, 1] + 2 * a * b * stress[:, 3])[
        :, list(points)
    ]
    series = [across[:, i] for i in range(len(points))]
    if len(points) == 2:
        series.append(HOT_SPOT[0] * across[:, 0] + HOT_SPOT[1] * across[:, 1])
    return max(float(np.ptp(s)) for s in series)


def root_limits(
    response: Response, lateral_share: float, cycles: float, factor: float
) -> list[Limit]:
    """Loads at which a bead's throat reaches its classes, and its static resistance over 1.5.

    Force over throat counts with its whole range; force with bending counts where it pulls the
    root open (EN 1993-1-8:2005, 4.12), at a backed root with its whole range, and alone. Static:
    EN 1993-1-8, 4.5.3.3, simplified method.
    """
    spec = response.spec
    force, opened, backed, static = Worst(), Worst(), Worst(), Worst()
    for name, root, square, along in _throats(response, lateral_share):
        words = bead_words(name)
        if is_backed(spec, name):
            backed.offer(float(np.ptp(root)), words)
        else:
            spread = np.ptp(square, axis=0)
            force.offer(math.hypot(spread[0], spread[1]), words)
            opened.offer(float(np.ptp(np.maximum(root, 0.0))), words)
        whole = np.sqrt((square**2).sum(axis=1) + along**2)
        static.offer(float(whole.max()), words)
    grade = spec.grade
    resistance = grade.fu_n_mm2 / (math.sqrt(3) * grade.beta_w * 1.25) / 1.5
    limits = [
        fatigue_limit("weld roots", force, FILLET_ROOT, cycles, factor),
        fatigue_limit("opened weld roots", opened, OPENED_ROOT, cycles, factor),
        Limit("weld throats", resistance / static.value, static.where, "EN 1993-1-8, over 1.5"),
    ]
    if backed.where:
        limits.append(fatigue_limit("backed root", backed, BACKED_ROOT, cycles, factor))
    return limits


def whole_range_limit(
    response: Response, lateral_share: float, cycles: float, factor: float
) -> Limit:
    """Load at which force and bending over a throat reach the class with their whole range,
    compression counted in full, as EN 1993-1-9:2005, 7.2.1 has it for welds as they are made.

    A second reading beside "opened weld roots", lower and so safer; `rate` does not judge by it.
    Raises: nothing; infinite where no root is open.
    """
    worst = Worst()
    for name, root, _, _ in _throats(response, lateral_share):
        if not is_backed(response.spec, name):
            worst.offer(float(np.ptp(root)), bead_words(name))
    return fatigue_limit("weld roots, full range", worst, WHOLE_ROOT, cycles, factor)


def _throats(response: Response, lateral_share: float) -> Iterator[tuple[str, Field, Field, Field]]:
    """Each bead in each case by name: stresses over its throat at every angle for 1 N, as
    `Throat.stresses` gives them."""
    beads = {bead.name: bead for bead in weld_beads(response.spec)}
    turns = angles(response)
    for name, amplitudes in response.bead_forces.items():
        throat = throat_of(beads[name], response.mesh)
        for case in cases(lateral_share):
            mixed = case.mix(amplitudes) / throat.radius_mm  # per mm of bead
            line = around(mixed[:, [0, 2, 3, 1]], turns, 1)[:, [0, 1, 3, 2]]
            yield name, *throat.stresses(line)


def fatigue_limit(
    name: str, worst: Worst, detail: DetailClass, cycles: float, factor: float
) -> Limit:
    """Load at which the worst range of a turn, N/mm2 for 1 N, reaches its class for the cycles."""
    fat = detail.fat_n_mm2
    allowed = allowed_range(fat, cycles, factor)
    load = allowed / worst.value if worst.value else math.inf
    return Limit(name, load, worst.where, f"FAT {fat:g}", worst.value, fat)
