"""A ring as it was rolled: what tape and calliper say of it, and the wheel that it makes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.spec_model import find_faults
from platewheel.parts.wheel.spec import WheelSpec

FAR_SHARE = 0.05  # a ring farther from the drawn one is another ring, or a slip of the pen
WALL_SHARES = (0.8, 1.25)  # of the drawn wall; strip and pipe are rolled closer
SHRUNK_SHARE = 0.01  # of the circumference, most that welds take: they take a few tenths
ANGLE_OFF_DEG = 15.0  # welds pull a flange by a few degrees; more is read from the other side
TAPE_MM = 0.3  # of diameter, a tape twice read to 0.5 mm; common practice, no source
SLACK_MM = 1.0  # two measures of one diameter may differ by: two tapes and a calliper


@dataclass(frozen=True, kw_only=True)
class MeasuredRing:
    """One rolled ring. Circumferences at the gauge edge, by tape; diameters over the tread.

    `flange_seam_mm`: left open (+) or lapped (-) at the last seam of the drawn flange, tried on
    with the job's root gap in every other seam. After the wheel is welded: `after_welding_mm`, the
    circumference once more, and `flange_angle_deg`, rail-side face to axle.
    """

    ring: str
    outside_circumference_mm: float
    wall_mm: float | None = None
    inside_circumference_mm: float | None = None
    largest_diameter_mm: float | None = None
    smallest_diameter_mm: float | None = None
    flange_seam_mm: float | None = None
    after_welding_mm: float | None = None
    flange_angle_deg: float | None = None

    @property
    def outside_diameter_mm(self) -> float:
        """Mean tread diameter, true of any closed convex curve. Source: Cauchy, C = pi x mean
        width."""
        return self.outside_circumference_mm / math.pi

    @property
    def after_welding_diameter_mm(self) -> float | None:
        """Mean tread diameter of the welded wheel. Source: as of the ring."""
        return None if self.after_welding_mm is None else self.after_welding_mm / math.pi

    @property
    def out_of_round_mm(self) -> float | None:
        """Largest less smallest diameter; None where none was measured. One alone lies as far
        from the tape's mean as the other (Source: an ellipse a little out of round)."""
        largest, smallest = self.largest_diameter_mm, self.smallest_diameter_mm
        mean = self.outside_diameter_mm
        if largest is None:
            return None if smallest is None else 2 * max(0.0, mean - smallest)
        return 2 * max(0.0, largest - mean) if smallest is None else largest - smallest


def wall_mm(drawn: WheelSpec, ring: MeasuredRing) -> float:
    """Wall across the plate: from both tapes, or as measured, or else as drawn."""
    if ring.inside_circumference_mm is not None:
        radial = (ring.outside_circumference_mm - ring.inside_circumference_mm) / (2 * math.pi)
        slope = 0.0 if drawn.tread_from == "pipe" else drawn.taper_half_angle
        return radial * math.cos(slope)
    return drawn.tread_thickness_mm if ring.wall_mm is None else ring.wall_mm


def ring_spec(drawn: WheelSpec, ring: MeasuredRing) -> WheelSpec:
    """The drawn wheel with this ring's diameter and wall. Raises: SpecError."""
    return WheelSpec(**_values(drawn, ring))


def inside_diameter_mm(spec: WheelSpec) -> float:
    """Bore at the gauge edge."""
    return 2 * spec.bore_radius_mm(spec.tread_width_mm)


def drawn_circumferences_mm(drawn: WheelSpec) -> tuple[float, float]:
    """Outside and inside, at the gauge edge, of the ring as drawn."""
    return math.pi * drawn.tread_diameter_mm, math.pi * inside_diameter_mm(drawn)


def ring_faults(drawn: WheelSpec, ring: MeasuredRing) -> list[Fault]:
    """Why no wheel of the drawn kind can be made of this ring; keys are the columns' names."""
    faults = [*_outside(drawn, ring)]
    if not faults:  # all else is judged by the outside
        faults += [*_wall(drawn, ring), *_roundness(ring), *_seam(ring)]
        faults += [*_welded(ring), *_angle(drawn, ring)]
    if not faults:
        found = find_faults(WheelSpec, _values(drawn, ring))
        faults += (fault.below("wheel made of this ring") for fault in found)
    return faults


def _outwards(low: float, high: float) -> tuple[float, float]:
    """A range as it is told, to 0.1 mm, nothing of it cut off."""
    return math.floor(10 * low + 1e-6) / 10, math.ceil(10 * high - 1e-6) / 10


def _values(drawn: WheelSpec, ring: MeasuredRing) -> dict[str, Any]:
    return drawn.model_dump() | {
        "tread_diameter_mm": ring.outside_diameter_mm,
        "tread_thickness_mm": wall_mm(drawn, ring),
    }


def _outside(drawn: WheelSpec, ring: MeasuredRing) -> Iterator[Fault]:
    outside = drawn_circumferences_mm(drawn)[0]
    least, most = _outwards((1 - FAR_SHARE) * outside, (1 + FAR_SHARE) * outside)
    if not least <= ring.outside_circumference_mm <= most:
        yield Fault(
            "outside_circumference_mm",
            ring.outside_circumference_mm,
            f"{least:.1f} to {most:.1f} mm, within "
            f"{100 * FAR_SHARE:g} % of the drawn {outside:.1f} mm",
            "measure again, the tape once round the tread beside the gauge edge; a ring of "
            "another size is another job",
        )


def _wall(drawn: WheelSpec, ring: MeasuredRing) -> Iterator[Fault]:
    least, most = _outwards(*(share * drawn.tread_thickness_mm for share in WALL_SHARES))
    gauge, inside = ring.wall_mm, ring.inside_circumference_mm
    sound = True
    if gauge is not None and not least <= gauge <= most:
        sound = False
        yield Fault(
            "wall_mm",
            gauge,
            f"{least:.1f} to {most:.1f} mm, {WALL_SHARES[0]:g} to {WALL_SHARES[1]:g} times the "
            f"drawn {drawn.tread_thickness_mm:g} mm",
            "measure the wall across the plate with a calliper, clear of the seam",
        )
    if inside is None:
        return
    if not least <= wall_mm(drawn, ring) <= most:
        outside = ring.outside_circumference_mm
        low, high = (outside - 2 * math.pi * wall for wall in (most, least))
        yield Fault(
            "inside_circumference_mm",
            inside,
            f"{low:.1f} to {high:.1f} mm, a wall of {least:.1f} to {most:.1f} mm inside an outside "
            f"of {outside:.1f} mm",
            "measure again inside the gauge edge, or leave it empty and give wall_mm",
        )
    elif sound and gauge is not None and abs(wall_mm(drawn, ring) - gauge) > SLACK_MM / 2:
        yield Fault(
            "wall_mm",
            gauge,
            f"{wall_mm(drawn, ring):.2f} mm, which the two circumferences tell, +-{SLACK_MM / 2:g}",
            "measure wall and inside circumference again, or leave the worse of the two empty",
        )


def _roundness(ring: MeasuredRing) -> Iterator[Fault]:
    """Slips of the pen alone: what a ring may be out of round is `roundness_limit`, which is
    nearer than `FAR_SHARE`, and beyond it a ring is trued and not refused. The mean lies between
    the two diameters (Source: Cauchy, C = pi x mean width), but for what tape and calliper err."""
    largest, smallest = ring.largest_diameter_mm, ring.smallest_diameter_mm
    mean = ring.outside_diameter_mm
    for name, value, low, high in (
        ("largest_diameter_mm", largest, mean - SLACK_MM, (1 + FAR_SHARE) * mean),
        ("smallest_diameter_mm", smallest, (1 - FAR_SHARE) * mean, mean + SLACK_MM),
    ):
        low, high = _outwards(low, high)
        if value is not None and not low <= value <= high:
            yield Fault(
                name,
                value,
                f"{low:.1f} to {high:.1f} mm beside a mean diameter of {mean:.1f} mm, which the "
                "tape tells",
                "measure across the tread at the gauge edge, turning the calliper half round",
            )
    if largest is not None and smallest is not None and not smallest <= largest:
        yield Fault(
            "smallest_diameter_mm",
            smallest,
            f"at most largest_diameter_mm, {largest:g} mm",
            "change the two round",
        )


def _seam(ring: MeasuredRing) -> Iterator[Fault]:
    most = FAR_SHARE * ring.outside_circumference_mm
    if ring.flange_seam_mm is not None and not abs(ring.flange_seam_mm) <= most:
        yield Fault(
            "flange_seam_mm",
            ring.flange_seam_mm,
            f"-{most:.0f} to {most:.0f} mm, {100 * FAR_SHARE:g} % of the ring's circumference",
            "measure between the ends at the middle of the flange's depth; + open, - lapped",
        )


def _welded(ring: MeasuredRing) -> Iterator[Fault]:
    outside = ring.outside_circumference_mm
    least, most = _outwards((1 - SHRUNK_SHARE) * outside, outside + math.pi * TAPE_MM)
    if ring.after_welding_mm is not None and not least <= ring.after_welding_mm <= most:
        advice = "tape once round the tread beside the flange again; see the chalk on the wheel"
        if most < ring.after_welding_mm <= outside / (1 - SHRUNK_SHARE):
            advice = "change the two round where they stand in each other's column, or " + advice
        yield Fault(
            "after_welding_mm",
            ring.after_welding_mm,
            f"{least:.1f} to {most:.1f} mm, the circumference beside {outside:g} mm as rolled: "
            f"welds take less than {100 * SHRUNK_SHARE:g} % and add nothing, tapes err by "
            f"{math.pi * TAPE_MM:.1f} mm",
            advice,
        )


def _angle_again(found_deg: float, least_deg: float, most_deg: float) -> str:
    """What to try: the reading without its sign or from the other side where that is one."""
    if found_deg == 0:
        return "leave it empty where it was not measured"
    for one, how in (
        (-found_deg, "without the sign"),
        (90 - found_deg, "read from the wheel's face"),
        (180 - found_deg, "read from the flange's back"),
    ):
        if least_deg <= one <= most_deg:
            return f"{one:g}, {how}; an angle is from the axle to the flange's rail-side face"
    return (
        "measure from the axle to the flange's rail-side face: 90 less what a gauge on the wheel's "
        "face says"
    )


def _angle(drawn: WheelSpec, ring: MeasuredRing) -> Iterator[Fault]:
    least, most = (drawn.flange_angle_deg + off for off in (-ANGLE_OFF_DEG, ANGLE_OFF_DEG))
    if ring.flange_angle_deg is not None and not least <= ring.flange_angle_deg <= most:
        yield Fault(
            "flange_angle_deg",
            ring.flange_angle_deg,
            f"{least:g} to {most:g} degrees, within {ANGLE_OFF_DEG:g} of the drawn "
            f"{drawn.flange_angle_deg:g}",
            _angle_again(ring.flange_angle_deg, least, most),
        )
