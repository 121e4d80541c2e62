"""Spacers, shims and collars: what keeps wheels and bearings apart along the axle."""

from __future__ import annotations

from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.wheelset.diameters import Seats
from platewheel.parts.wheelset.shoulders import inner_ring_mm

COLLAR_MM = 10.0  # length of a collar beside a loose wheel; common practice, no source
COLLAR_WALL_MM = 8.0  # common practice, no source
COLLAR_SCREW_MM = 6.0  # M6 leaves 2 mm of the collar on either side
SPACER_WALL_MM = 4.0  # beside a bush or a bare hub; common practice, no source
SPACER_GAP_MM = 0.25  # on the radius, on the axle; common practice, no source
SHIM_MM = 2.0  # keeps collars off the outer ring in a loose wheel; common practice, no source
END_PLAY_MM = 0.5  # of a loose wheel on bushes between its collars; common practice, no source

Spacer = tuple[str, float, float, float, float]  # name, inside, outside, length, z of its middle


def hub_gap_mm(axle: AxleSpec, seats: Seats) -> float:
    """From a hub's end to the spacer or collar beside it: nothing, end play, or a shim."""
    if axle.turning:
        return 0.0
    return END_PLAY_MM / 2 if seats.bearing is None else SHIM_MM


def collared(axle: AxleSpec, seats: Seats) -> bool:
    """Whether a collar stands at each hub's inner end: a loose wheel without shoulder or frame."""
    return not axle.turning and axle.frames == "outside" and seats.body_mm <= seats.seat_mm


def axle_spacers(
    axle: AxleSpec, seats: Seats, hub: tuple[float, float], face_mm: float
) -> tuple[Spacer, ...]:
    """All of both sides; `hub` are the right hub's ends, `face_mm` the face towards it of the
    frame's bearing or grip, all z in mm. Names end in -left and -right."""
    outside, gap = axle.frames == "outside", hub_gap_mm(axle, seats)
    found = []
    if not axle.turning and seats.bearing is not None:
        across, inner = _on_ring_mm(seats), seats.seat_mm if outside else seats.journal_mm
        outer = seats.journal_mm if outside else seats.seat_mm
        found.append(_ring("shim-outer", outer, across, hub[1], hub[1] + gap))
        if not outside or collared(axle, seats):
            found.append(_ring("shim-inner", inner, across, hub[0] - gap, hub[0]))
    z0, z1 = (hub[1] + gap, face_mm) if outside else (face_mm, hub[0] - gap)
    if z1 - z0 > 1e-6:
        across = _on_ring_mm(seats) if axle.turning else seats.journal_mm + 2 * SPACER_WALL_MM
        found.append(_ring("spacer", seats.journal_mm, across, z0, z1))
    across = seats.seat_mm + 2 * COLLAR_WALL_MM
    if not axle.turning and not outside:
        z0, z1 = hub[1] + gap, hub[1] + gap + COLLAR_MM
        found.append(_ring("collar", seats.seat_mm, across, z0, z1))
    if collared(axle, seats):
        z0, z1 = hub[0] - gap - COLLAR_MM, hub[0] - gap
        found.append(_ring("collar", seats.seat_mm, across, z0, z1))
    return tuple(
        (f"{name}-{side}", inside, out, length, sign * z)
        for sign, side in ((-1, "left"), (1, "right"))
        for name, inside, out, length, z in found
    )


def _on_ring_mm(seats: Seats) -> float:
    """Outside of a spacer: it touches the inner ring of a rolling bearing, and not the outer."""
    if seats.bearing is None:
        return seats.journal_mm + 2 * SPACER_WALL_MM
    return inner_ring_mm(seats.bearing)


def _ring(name: str, on_mm: float, outside_mm: float, z0: float, z1: float) -> Spacer:
    return name, on_mm + 2 * SPACER_GAP_MM, outside_mm, z1 - z0, (z0 + z1) / 2
