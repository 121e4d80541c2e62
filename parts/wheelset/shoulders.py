"""What an axle's shoulders must keep to: what goes on passes, fillets have their place, bearings
touch a shoulder with their inner ring alone."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from platewheel.parts.base.faults import Fault
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.wheelset.bearing_table import Bearing
from platewheel.parts.wheelset.diameters import BUSH_WALL_MM, Seats
from platewheel.parts.wheelset.iso_fits import RANGES_MM

FILLET_MM = 2.0  # common practice, no source
INNER_RING_SHARE = 0.3  # its height, both sides, of outside less bore; makers' lists, from memory


def inner_ring_mm(bearing: Bearing) -> float:
    """Outside of what may touch the bearing's inner ring and stay clear of the outer."""
    return bearing.bore_mm + INNER_RING_SHARE * (bearing.outside_mm - bearing.bore_mm)


def shoulder_faults(axle: AxleSpec, seats: Seats) -> list[Fault]:
    """All faults of the axle's steps in diameter."""
    return [
        *_order(axle, seats),
        *_fillets(axle, seats),
        *_against_ring(axle, seats),
        *_bush_outside(axle, seats),
    ]


def _order(axle: AxleSpec, seats: Seats) -> Iterable[Fault]:
    """What goes on from the axle's ends must pass what lies further out."""
    seat, journal = seats.seat_mm, seats.journal_mm
    if axle.frames == "outside" and journal > seat + 1e-6:
        yield Fault(
            "axle.journal_diameter_mm",
            journal,
            f"at most the axle in the hubs, {seat:g} mm: the wheel goes on over it",
            "a bearing of smaller bore, or a larger wheel.hub_bore_mm",
        )
    if axle.frames == "inside" and journal < seat - 1e-6:
        yield Fault(
            "axle.journal_diameter_mm",
            journal,
            f"at least the axle in the hubs, {seat:g} mm: bearing or spacer goes on over it",
            'a larger journal, or frames = "outside"',
        )


def fillet_mm(axle: AxleSpec, seats: Seats) -> float:
    """Radius in the shoulders' corners, mm: given, or as large as is usual and has its place."""
    if axle.shoulder_fillet_mm is not None:
        return axle.shoulder_fillet_mm
    most = [FILLET_MM, *_shoulders_mm(axle, seats)]
    if found := _ring_shoulder(axle, seats):
        most.append(found[2].chamfer_mm)
    return min(most)


def _shoulders_mm(axle: AxleSpec, seats: Seats) -> list[float]:
    """Heights of the axle's shoulders."""
    order = [seats.body_mm, seats.seat_mm, seats.journal_mm]
    if axle.frames == "inside":
        order = [seats.body_mm, seats.journal_mm, seats.seat_mm]
    return [abs(a - b) / 2 for a, b in pairwise(order) if abs(a - b) > 1e-6]


def _fillets(axle: AxleSpec, seats: Seats) -> Iterable[Fault]:
    """A fillet higher than its shoulder has no place."""
    steps, radius = _shoulders_mm(axle, seats), fillet_mm(axle, seats)
    if steps and radius > min(steps) + 1e-6:
        yield Fault(
            "axle.shoulder_fillet_mm",
            radius,
            f"at most the lowest shoulder, {min(steps):g} mm",
            f"shoulder_fillet_mm = {min(steps):g}, or another step in diameter",
        )


def _ring_shoulder(axle: AxleSpec, seats: Seats) -> tuple[str, float, Bearing] | None:
    """The shoulder that a ball bearing's ring stands against, if any: its key, its diameter and
    the bearing."""
    if seats.bearing is None or seats.bearing.kind != "deep-groove":
        return None
    inside = axle.frames == "inside"
    key, high = "body_diameter_mm", seats.body_mm
    if axle.turning and not inside:
        return None  # a spacer stands between hub and bearing
    if not axle.turning and inside:
        key, high = "journal_diameter_mm", seats.journal_mm
    if high <= seats.bearing.bore_mm + 1e-6:
        return None
    return f"axle.{key}", high, seats.bearing


def _against_ring(axle: AxleSpec, seats: Seats) -> Iterable[Fault]:
    """A shoulder that would rub the outer ring, or whose fillet keeps the bearing off it."""
    found = _ring_shoulder(axle, seats)
    if found is None:
        return
    key, high, bearing = found
    most = inner_ring_mm(bearing)
    if high > most + 1e-6:
        yield Fault(
            key,
            high,
            f"at most {most:.1f} mm against {bearing.name}, whose outer ring it would rub",
            "a lower shoulder, or leave it out",
        )
    radius = fillet_mm(axle, seats)
    if radius > bearing.chamfer_mm + 1e-6:
        yield Fault(
            "axle.shoulder_fillet_mm",
            radius,
            f"at most {bearing.chamfer_mm:g} mm, the chamfer of {bearing.name}: it would not seat",
            f"shoulder_fillet_mm = {bearing.chamfer_mm:g}, or leave it out",
        )


def _bush_outside(axle: AxleSpec, seats: Seats) -> Iterable[Fault]:
    """A bush larger than the tables of fits."""
    if seats.bush is None or seats.bush.outside_mm <= RANGES_MM[-1]:
        return
    listed = f"fits are listed up to {RANGES_MM[-1]:g} mm outside"
    if not axle.turning:
        yield Fault(
            "wheel.hub_bore_mm",
            seats.bush.outside_mm,
            f"at most {RANGES_MM[-1]:g} mm round the bush of a loose wheel: {listed}",
            "a thinner hub",
        )
        return
    most = (RANGES_MM[-1] - seats.bush.bore_mm) / 2
    yield Fault(
        "axle.bush_wall_mm",
        seats.bush.wall_mm,
        f"at most {most:g} mm on {seats.bush.bore_mm:g}: {listed}",
        f"bush_wall_mm = {min(BUSH_WALL_MM, most):g}",
    )
