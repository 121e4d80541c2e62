"""The wheels that a shop could make: choices for each free dimension, and the wheel of a choice."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Literal

from platewheel.parts.wheel.spec import WheelSpec

Source = Literal["sheet", "bar", "pipe"]
AXES = (
    "diameter",
    "ring",
    "flange",
    "depth",
    "angle",
    "play",
    "disc",
    "inset",
    "fit",
    "throat",
    "root",
    "vents",
)
DEPTHS_MM = (6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0, 13.0, 15.0, 17.0, 20.0, 25.0, 30.0)
ANGLES_DEG = tuple(float(angle) for angle in range(54, 91, 2))  # to a flat washer
INSETS_MM = (6.0, 8.0, 10.0, 14.0)
THROATS_MM = (3.0, 3.5, 4.0, 5.0, 6.0, 7.0, 8.0)
ROOTS_MM = (4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0)
VENTS = tuple((n, float(mm)) for n in (2, 4) for mm in (10, 12, 16, 20, 25, 30))
WIDTHS_MM = (30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0)  # of strips cut from sheet
SEGMENTS = (1, 2, 3, 4)
MORE_FIT_MM = (0.0, 0.25, 0.5, 0.75, 1.0)  # on the job's own clearance, for larger discs
VENT_WEB_MM = 0.5  # beyond the leg of the fillet, between vent and rim bead
PLAY = "axle.back_to_back_mm"  # read as a dimension of the wheel: an axle is set for its flange
# which choices a dimension hangs on; all other dimensions are the job's own
HANGS_ON: dict[str, tuple[str, ...]] = {
    "tread_diameter_mm": ("diameter",),
    "tread_from": ("ring",),
    "tread_width_mm": ("ring",),
    "tread_thickness_mm": ("ring",),
    "flange_thickness_mm": ("flange",),
    "flange_depth_mm": ("depth",),
    "flange_angle_deg": ("angle",),
    "flange_segments": ("segments",),
    PLAY: ("play",),
    "disc_thickness_mm": ("disc",),
    "disc_field_inset_mm": ("inset",),
    "disc_gauge_inset_mm": ("inset",),
    "fit_clearance_mm": ("fit",),
    "weld_throat_mm": ("throat",),
    "root_weld_mm": ("root",),
    "vent_count": ("vents",),
    "vent_diameter_mm": ("vents",),
    "vent_circle_mm": ("diameter", "ring", "inset", "fit", "throat", "vents"),
    "hub_tube_length_mm": ("ring", "inset", "throat"),
}


@dataclass(frozen=True)
class Ring:
    """What a tread ring is made of; a pipe has its own diameter."""

    source: Source
    width_mm: float
    thickness_mm: float
    diameter_mm: float | None = None


@dataclass(frozen=True)
class Choices:
    """Values of every axis, in the order in which they are tried; lengths mm, angles degrees. A
    play of None is the axle as the job has it, see `parts.propose.play`."""

    diameter: tuple[float, ...]
    ring: tuple[Ring, ...]
    flange: tuple[float, ...]
    depth: tuple[float, ...]
    angle: tuple[float, ...]
    disc: tuple[float, ...]
    inset: tuple[float, ...]
    fit: tuple[float, ...]
    throat: tuple[float, ...]
    root: tuple[float, ...]
    vents: tuple[tuple[int, float], ...]
    segments: tuple[int, ...]
    play: tuple[float | None, ...] = (None,)

    @property
    def wheels(self) -> int:
        """Combinations, those that cannot be made too."""
        return math.prod(len(getattr(self, axis)) for axis in (*AXES, "segments"))


def shop_choices(
    wheel: WheelSpec,
    *,
    sheets_mm: tuple[float, ...],
    bars_mm: tuple[tuple[float, float], ...],
    pipes_mm: tuple[tuple[float, float], ...],
    roll_most_mm: float,
    least_diameter_mm: float,
    most_diameter_mm: float,
    step_mm: float,
    plays_mm: tuple[float | None, ...] = (None,),
) -> Choices:
    """Choices from the stock to hand. `sheets_mm`: thicknesses that can be cut; `bars_mm`: width
    and thickness; `pipes_mm`: outside and wall. What is rolled is at most `roll_most_mm` thick.
    """
    first = math.ceil(least_diameter_mm / step_mm - 1e-9)
    last = math.floor(most_diameter_mm / step_mm + 1e-9)
    round_sizes = [step_mm * k for k in range(first, last + 1)]
    rolled = tuple(t for t in sheets_mm if t <= roll_most_mm)
    rings = [Ring("bar", w, t) for w, t in bars_mm if t <= roll_most_mm]
    rings += [Ring("sheet", w, t) for t in rolled for w in WIDTHS_MM]
    pipes = [(d, t) for d, t in pipes_mm if least_diameter_mm <= d <= most_diameter_mm]
    rings += [Ring("pipe", w, t, d) for d, t in pipes for w in WIDTHS_MM]
    plates = (*rolled, *(ring.thickness_mm for ring in rings))
    thickest = max(plates, default=0.0)
    return Choices(
        diameter=tuple(sorted({*round_sizes, *(d for d, _ in pipes)})),
        ring=tuple(rings),
        flange=rolled,
        depth=DEPTHS_MM,
        angle=ANGLES_DEG,
        disc=sheets_mm,
        inset=INSETS_MM,
        fit=tuple(wheel.fit_clearance_mm + more for more in MORE_FIT_MM),
        throat=THROATS_MM,
        root=tuple(leg for leg in ROOTS_MM if leg <= thickest),
        vents=VENTS if wheel.vent_count else ((0, 0.0),),
        segments=SEGMENTS,
        play=plays_mm,
    )


def goes(choices: Choices, diameter: int, ring: int) -> bool:
    """Whether ring stock goes with a tread diameter: a pipe has one alone, and no strip is
    rolled to a pipe's odd size."""
    own = choices.ring[ring].diameter_mm
    size = choices.diameter[diameter]
    if own is not None:
        return size == own
    odd = {one.diameter_mm for one in choices.ring if one.diameter_mm is not None}
    return size not in odd or size % 10 == 0


def wheel_values(base: dict[str, Any], choices: Choices, chosen: dict[str, int]) -> dict[str, Any]:
    """Keys of the wheel that a choice makes, `base` with the job's own; not yet checked for being
    possible.

    The hub tube stands out of the ring as far as the job's own does; the vents lie as near to
    the ring as the rim's bead lets them.
    """

    def at(axis: str) -> Any:
        return getattr(choices, axis)[chosen.get(axis, 0)]

    ring: Ring = at("ring")
    count, vent = at("vents")
    inset = at("inset")
    values = base | {
        "tread_diameter_mm": at("diameter"),
        "tread_from": ring.source,
        "tread_width_mm": ring.width_mm,
        "tread_thickness_mm": ring.thickness_mm,
        "flange_thickness_mm": at("flange"),
        "flange_depth_mm": at("depth"),
        "flange_angle_deg": at("angle"),
        "flange_segments": at("segments"),
        "disc_thickness_mm": at("disc"),
        "disc_field_inset_mm": inset,
        "disc_gauge_inset_mm": inset,
        "fit_clearance_mm": at("fit"),
        "weld_throat_mm": at("throat"),
        "root_weld_mm": at("root"),
        "vent_count": count,
        "vent_diameter_mm": vent,
    }
    return values | followers(base, values)


def followers(base: dict[str, Any], values: dict[str, Any]) -> dict[str, float]:
    """Length of the hub tube and circle of the vents that go with chosen values, see
    `wheel_values`; `base` as there."""
    width, throat = values["tread_width_mm"], values["weld_throat_mm"]
    moved: dict[str, float] = {}
    if base["hub_tube_length_mm"]:
        beyond = base["hub_tube_length_mm"] - base["tread_width_mm"]
        least = width - 2 * values["disc_field_inset_mm"] + 4 * throat
        moved["hub_tube_length_mm"] = float(math.ceil(max(width + beyond, least)))
    if values["vent_count"]:
        loss = width / base["tread_taper_1_in"] if base["tread_taper_1_in"] else 0.0
        bore = values["tread_diameter_mm"] - 2 * (loss + values["tread_thickness_mm"])
        room = throat * math.sqrt(2) + VENT_WEB_MM + values["fit_clearance_mm"]
        free = bore - values["vent_diameter_mm"] - 2 * room
        moved["vent_circle_mm"] = max(0.0, float(math.floor(free)))
    return moved
