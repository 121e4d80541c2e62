"""Tacks and beads in an order that spreads the heat: star of tacks, opposite quadrants."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.wheel.flange import flange_section, segment_turn
from platewheel.parts.wheel.hub_disc import SIDES
from platewheel.parts.wheel.spec import WheelSpec

PITCH_MM = 150.0  # most between tacks on plate of this thickness; common practice, no source
TUBE_TACKS = 4
QUADRANTS = 4


@dataclass(frozen=True)
class Tacks:
    """How many tacks: on each disc's rim, each disc's tube, each flange segment, the ring seam."""

    rim: int
    tube: int
    segment: int
    seam: int
    segments: int

    @property
    def all(self) -> int:
        """Of one wheel; two on each flange seam are its neighbours' end tacks."""
        return len(SIDES) * (self.rim + self.tube) + self.segment * self.segments + self.seam


def tacks_of(spec: WheelSpec) -> Tacks:
    """Tacks of one wheel: rims at most `PITCH_MM` apart and a multiple of four, so that each has
    one opposite; segments one at each end and no further apart."""
    around = 2 * math.pi * spec.bore_radius_mm(spec.tread_width_mm / 2)
    root = segment_turn(spec) * min(r for r, _ in flange_section(spec))
    return Tacks(
        rim=4 * max(1, math.ceil(around / PITCH_MM / 4)),
        tube=TUBE_TACKS if spec.has_tube else 0,
        segment=max(3, math.ceil(root / PITCH_MM) + 1),
        seam=0 if spec.tread_from == "pipe" else 2,
        segments=spec.flange_segments,
    )


def star_order(count: int) -> list[int]:
    """Numbers 1 to count, evenly round a circle, each as far as can be from all before it; of
    equals the one furthest from the last, then the lowest."""
    done: list[int] = [0]

    def apart(a: int, b: int) -> int:
        return min((a - b) % count, (b - a) % count)

    while len(done) < count:
        left = (i for i in range(count) if i not in done)
        done.append(
            max(left, key=lambda i: (min(apart(i, j) for j in done), apart(i, done[-1]), -i))
        )
    return [i + 1 for i in done]


def middle_out(count: int) -> list[int]:
    """Numbers 1 to count along a line: the middle first, then by turns to both ends."""
    middle = (count + 1) / 2
    return sorted(range(1, count + 1), key=lambda i: (abs(i - middle), i))


def quadrant_order() -> list[str]:
    """Rim beads in quarters: F field side, G gauge side, 1 to 4 round, equal numbers over each
    other. Each run lies opposite the one before and on the other side."""
    return ["F1", "G3", "F3", "G1", "F2", "G4", "F4", "G2"]
