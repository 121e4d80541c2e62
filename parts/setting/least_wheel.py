"""The wheel as it may be in the end: plates as thin as their standard allows, and rusted.

What runs, guides and is fitted stays where it is drawn: tread, the flange's rail-side face, the
tube's outside, the discs' outer faces but for rust. Plates thin towards the inside of the box, the
tube towards its bore, and the discs follow the ring's bore. Rust takes both faces of discs and
flange (the box is vented), and one of ring and tube: the tread is worn, not rusted, and the axle
fills the bore. A bead loses it off its face. Ends and widths are left alone.

All plates are thin at once. That is not the very least of every limit: discs at their full size
in a thin ring load the beads more, by up to 0.4 % of the rating (demo, garden, quarry), and a full
tube the toes by 0.8 %.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from pydantic import Field

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.steel import Steel
from platewheel.parts.setting.rust import corrosion_mm
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.kinds import kinds_of
from platewheel.parts.wheel.part import PartKind
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.stock_thickness import below_thickness

LEAST_SHARE = 0.5  # of plate or bead that must be left; below it the wheel is another, our choice
SLIP = 1e-9  # mm, of rounding
TUBE_KEY = "hub_tube_outside_mm"  # the tube has no thickness of its own


class LeastWheel(WheelSpec):
    """A wheel whose plates have lost metal; strengths stay those of the plates as bought."""

    lost_mm: float = Field(0.0, ge=0, description="the most that any plate has lost")

    @property
    def grade(self) -> Steel:
        """The steel with its bands of thickness moved down by the loss: none gains by rust."""
        steel = super().grade
        bands = tuple((most - self.lost_mm + SLIP, fy) for most, fy in steel.yield_by_thickness)
        return replace(steel, yield_by_thickness=bands)


@dataclass(frozen=True)
class Loss:
    """What a part's plate may have lost: by tolerance and by rust on its faces, mm."""

    kind: PartKind
    thickness_mm: float  # as drawn
    tolerance_mm: float
    rust_mm: float
    standard: str

    @property
    def least_mm(self) -> float:
        """What is left; below 0 where rust has gone through."""
        return self.thickness_mm - self.tolerance_mm - self.rust_mm

    @property
    def key(self) -> str:
        """The job file's key of this thickness."""
        return self.kind.thickness_key or TUBE_KEY


def losses(setting: Setting) -> tuple[Loss, ...]:
    """Loss of every part that the wheel has, in the order of its kinds."""
    spec, rust = setting.wheel, corrosion_mm(setting.finish, setting.use.years)
    found = []
    for kind in kinds_of(spec):
        thickness = kind.thickness_mm(spec)
        below = below_thickness(
            spec, kind.cut_from(spec), thickness, setting.shop.thickness_tolerance
        )
        faces = 1 if kind.role == "runs on the rail" or not kind.thickness_key else 2
        found.append(Loss(kind, thickness, below.mm, faces * rust, below.standard))
    return tuple(found)


def eaten(setting: Setting) -> str:
    """Why too little of the wheel is left to judge it, or nothing: tolerance and rust take half
    of a plate or of a bead's throat."""
    for loss in losses(setting):
        if loss.least_mm < LEAST_SHARE * loss.thickness_mm:
            return (
                f"of the {loss.kind.title}'s {loss.thickness_mm:.3g} mm tolerance "
                f"({loss.tolerance_mm:.2g} mm) and rust ({loss.rust_mm:.2g} mm) leave less than "
                f"half: a larger {loss.key}, a coating, or finish.corrosion_mm as you know it"
            )
    spec, rust = setting.wheel, corrosion_mm(setting.finish, setting.use.years)
    for key, size, off in (
        ("weld_throat_mm", spec.weld_throat_mm, rust),
        ("root_weld_mm", spec.root_weld_mm, math.sqrt(2) * rust),
    ):
        if size - off < LEAST_SHARE * size:
            return (
                f"rust takes {off:.2g} of {key} = {size:g}, more than half: a larger bead, a "
                "coating, or finish.corrosion_mm as you know it"
            )
    return ""


def least_wheel(setting: Setting) -> Setting:
    """The setting with the wheel at its least metal; the same one where nothing is lost.

    The wheel is not put to the spec's rules again, which are for what is drawn. Raises: SpecError
    for a wheel of which `eaten` says that too little is left.
    """
    spec, rust = setting.wheel, corrosion_mm(setting.finish, setting.use.years)
    gone = losses(setting)
    most = max(loss.thickness_mm - loss.least_mm for loss in gone)
    if most == 0:
        return setting
    if reason := eaten(setting):
        raise SpecError(
            [Fault("finish.corrosion_mm", rust, "half of every plate and bead left", reason)]
        )
    values = spec.model_dump() | {"lost_mm": most}
    for loss in gone:
        if loss.kind.thickness_key:
            values[loss.kind.thickness_key] = loss.least_mm
        else:
            values["hub_bore_mm"] = spec.hub_tube_outside_mm - 2 * loss.least_mm
    values["disc_field_inset_mm"] += rust
    values["disc_gauge_inset_mm"] += rust
    values["weld_throat_mm"] -= rust
    values["root_weld_mm"] -= math.sqrt(2) * rust  # leg of a bead in a square corner, the most
    return replace(setting, wheel=LeastWheel.model_construct(**values))
