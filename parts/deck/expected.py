"""What the rating says of places that a solver of the deck can read: nodes, values, limits."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.deck.deck import Deck
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.solid_of_revolution import R, Z
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.hub_disc import disc_z_mm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

RR, ZZ, TT = 0, 1, 2  # of the rating's stresses
COLUMN = {RR: "S11", ZZ: "S33", TT: "S22"}  # at the plane of the patch
STEPS = {"VERTICAL-MIDDLE": PLACES // 2, "VERTICAL-FLANGE-SIDE": PLACES - 1}


@dataclass(frozen=True)
class Reading:
    """A value that the rating gives for the deck's own load: in which step, at which node (its
    number in the deck), what to read there; mm or N/mm2."""

    step: str
    what: str
    node: int
    column: str  # U1 to U3, S11 to S33
    rated: float


def readings(setting: Setting, deck: Deck, response: Response) -> tuple[Reading, ...]:
    """Places on the plane of the patch: the flange's tip, the ring's bore under the patch, the
    gauge disc's outer face half way out. Stress at nodes is the mean of the elements there."""
    wheel = setting.wheel
    there = {step.name for step in deck.steps}
    tip = flange_section(wheel)[1]
    found = []

    def moved(step: str, component: int, case: int, load: float) -> None:
        value = float(response.tip[:, component, case].sum()) * load
        column = {R: "U1", Z: "U3"}[component]
        found.append(Reading(step, "flange tip moves", _node(deck, "flange", tip), column, value))

    for step, case in STEPS.items():
        moved(step, R, case, deck.load_n)
        spots = [("disc-gauge", "outer face of the gauge disc", _half_way(setting), (TT, RR))]
        if step == "VERTICAL-MIDDLE":
            z = deck.patch.places_mm[0] * math.cos(wheel.taper_half_angle)
            bore = (wheel.bore_radius_mm(z), z)
            spots.insert(0, ("tread", "bore of the ring under the patch", bore, (TT, ZZ)))
        for part, words, place, components in spots:
            node = _node(deck, part, place)
            r, z = deck.mesh.radius[node - 1], deck.mesh.points[node - 1, 2]
            for component in components:
                whole = response.stress[:, component, :, case].sum(axis=0)
                value = _at(response, part, (float(r), float(z)), whole) * deck.load_n
                found.append(Reading(step, words, node, COLUMN[component], value))
    if "PUSH" in there:
        moved("PUSH", Z, PLACES, deck.push_n)
    return tuple(found)


def _half_way(setting: Setting) -> tuple[float, float]:
    wheel = setting.wheel
    z = disc_z_mm(wheel, "gauge")[1]
    inner = max(wheel.hub_hole_diameter_mm, wheel.hub_tube_outside_mm) / 2
    return (inner + wheel.bore_radius_mm(z)) / 2, z


def _at(
    response: Response, part: str, place: tuple[float, float], values: NDArray[np.float64]
) -> float:
    """Value at a place (r, z) of a part, straight between the three points of the section round
    it; at its edge perhaps the nearest one's."""
    from scipy.interpolate import LinearNDInterpolator

    rows = np.nonzero([name == part for name in response.part_of])[0]
    points = response.points[rows]
    found = float(LinearNDInterpolator(points, values[rows])([place])[0])
    if math.isfinite(found):
        return found
    return float(values[rows[int(np.argmin(np.hypot(*(points - np.asarray(place)).T)))]])


def _node(deck: Deck, part: str, place: tuple[float, float]) -> int:
    """Number of the node of a part nearest to a place (r, z), on the plane of the patch."""
    mesh = deck.mesh
    rows = np.intersect1d(mesh.tets[mesh.of(part)][:, :4], deck.sets["MIRROR"])
    rows = rows[mesh.points[rows, 0] > 0]
    away = np.linalg.norm(mesh.points[rows] - (place[0], 0.0, place[1]), axis=1)
    return int(rows[int(np.argmin(away))]) + 1


def head(
    setting: Setting, deck: Deck, name: str, found: Assessment | None, why_not: str
) -> tuple[str, ...]:
    """Comment lines: what is in the deck, what is loaded, what to read, what the rating says."""
    mesh, patch = deck.mesh, deck.patch
    part, halved = ("the whole", "") if deck.whole else ("half of the", ", halved")
    mirror = "at +X; the plane y = 0 is a mirror, so forces here are half of the wheel's loads."
    if deck.whole:
        mirror = "at +X; the discs have no mirror line: forces here are all of the wheel's loads."
    lines = [
        f"{name}: {part} welded wheel, {len(mesh.points)} nodes, {len(mesh.tets)} elements",
        "Units: mm, N, N/mm2. Z is the axle axis, 0 at the field edge of the tread; the rail is",
        mirror,
        "Plates are as thick as drawn; the job's own rating takes them at their least.",
        *(
            [f"The discs are a drawing of the user's own, turned by {deck.turn_deg:.4g} degrees."]
            if deck.turn_deg is not None
            else []
        ),
        "Plates touch only through their weld beads. The bore (BORE) is clamped. Linear elastic.",
        f"Patch: {patch.width_mm:.4g} mm across the tread, {2 * patch.half_length_mm:.4g} mm along "
        "the rail, cosine squared.",
        "Loads of the whole wheel, each a step by itself (add them up; stress is linear):",
        *(f"  {step.name}: {step.words}" for step in deck.steps),
        "Stress at the toe or root of a bead has no limit: finer elements only raise it. Read",
        "plates 0.4 thicknesses and more away from a bead's corner; VENTS are the vents' edges.",
        "PUSH is all of the push on the flange; in a curve the tread's friction takes some back.",
        f"Check first that the reactions at BORE are the step's load{halved}.",
    ]
    if found is None:
        return (*lines, f"The rating does not rate this wheel: {why_not}")
    lines.append("What the rating says of this load, by node of the deck:")
    lines += [f"  {line}" for line in _table(readings(setting, deck, found.response))]
    if setting.wheel.vent_count:
        lines.append("(the rating reads these from discs without vents, and vents by factors)")
    lines.append(f"Limits of the rating, new, as loads of the wheel (here: {deck.load_n:.6g} N):")
    lines += [
        f"  {limit.load_n:.0f} N, {limit.name}: {limit.where}; {limit.by}"
        for limit in found.new.limits
    ]
    return tuple(lines)


def _table(rows: Sequence[Reading]) -> list[str]:
    return [
        f"{row.step:22} node {row.node:6d} {row.column} {row.rated:10.4g}  {row.what}"
        for row in rows
    ]
