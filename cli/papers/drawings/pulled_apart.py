"""The parts of a wheel pulled apart along the axle: what each is called and how far it goes."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from platewheel.parts.base.units import Units, length_words
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.hub_disc import DISC
from platewheel.parts.wheel.kinds import KINDS
from platewheel.parts.wheel.own_disc import openings
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq

APART = 0.45  # free axle between two parts, over the sum of their radii
SPREAD = 0.05  # how far the pieces of a flange stand out, over the flange tip's radius


@dataclass(frozen=True)
class Pulled:
    """One kind of part: rows of its label, its solids and largest radius; after the pull, where
    its axle length starts, how far it went along the axle and its pieces outwards; mm."""

    key: str
    rows: tuple[str, ...]
    solids: tuple[cq.Solid, ...]
    radius_mm: float
    start_mm: float = 0.0
    shift_mm: float = 0.0
    out_mm: float = 0.0

    def piece_shift(self, piece: int) -> tuple[float, float, float]:
        """How far one of its solids moves; pieces of a ring stand a little apart."""
        turn = 2 * math.pi * (piece + 0.5) / len(self.solids)
        return self.out_mm * math.cos(turn), self.out_mm * math.sin(turn), self.shift_mm


def pulled_apart(
    spec: WheelSpec,
    solids: Mapping[str, cq.Solid],
    units: Units = "mm",
    disc: Blank | None = None,
) -> list[Pulled]:
    """The parts from the field side to the gauge side, in the order in which they go together.

    `solids` are those of `wheel_solids`, by name; beads among them are left out. `disc` is one of
    the user's own, which says what is cut into it.
    """
    parts = _named(spec, solids, units)
    if disc is not None:
        row = f"{len(openings(disc))} openings, own drawing"
        own = DISC.names
        parts = [replace(one, rows=(*one.rows, row)) if one.key in own else one for one in parts]
    return _apart(parts, SPREAD * spec.over_flange_diameter_mm / 2)


def _named(spec: WheelSpec, solids: Mapping[str, cq.Solid], units: Units) -> list[Pulled]:
    """The parts from the field side to the gauge side, in the order they go together."""

    def mm(value: float) -> str:
        return length_words(value, units)

    shown = (one for kind in KINDS for one in kind.shown(spec, mm))
    return [
        Pulled(one.key, one.rows, tuple(solids[name] for name in one.solids), one.radius_mm)
        for one in sorted(shown, key=lambda one: one.place)
    ]


def _apart(parts: Sequence[Pulled], spread_mm: float) -> list[Pulled]:
    """Each part moved along the axle until it stands clear of the one before."""
    moved: list[Pulled] = []
    end = 0.0
    for part in parts:
        boxes = [solid.BoundingBox() for solid in part.solids]
        low, high = min(box.zmin for box in boxes), max(box.zmax for box in boxes)
        gap = APART * (moved[-1].radius_mm + part.radius_mm) if moved else 0.0
        start = end + gap
        end = start + high - low
        out = spread_mm if len(part.solids) > 1 else 0.0
        moved.append(replace(part, start_mm=start, shift_mm=start - low, out_mm=out))
    return moved
