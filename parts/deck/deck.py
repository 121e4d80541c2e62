"""The deck of a job's wheel: half of it in 3-D, held at the bore, loaded as the rating loads it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

import numpy as np

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.deck.cards import Step, deck_lines
from platewheel.parts.deck.loads import Spot, patch_spot, push_spot, spread
from platewheel.parts.deck.meshing import apart, mesh_wheel, vent_middles
from platewheel.parts.deck.own_disc import off_openings_mm, to_the_load
from platewheel.parts.deck.solid_mesh import ON_MM, SolidMesh
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.loads.wheel_load import flange_push_n, wheel_load_n
from platewheel.parts.rating.rate import contact_patch_mm, least_place_mm
from platewheel.parts.rating.unrated import loose
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.response import LEAST_HALF_LENGTH_MM
from platewheel.parts.wheel.own_disc import openings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

Over = Literal["vent", "web"]
MOST_ELEMENT, LEAST_ELEMENT = 4.0, 0.4  # of the plates' thickness


@dataclass(frozen=True)
class Patch:
    """The rating's patch: its places along the tread (middle, at the flange, farthest from it),
    width and half length, mm."""

    places_mm: tuple[float, float, float]
    width_mm: float
    half_length_mm: float


@dataclass(frozen=True)
class Deck:
    """Mesh of the half wheel, rows of nodes by the name of their set, steps; loads are of the
    whole wheel, forces of what is meshed: the half, or the `whole` one."""

    mesh: SolidMesh
    sets: dict[str, NDArray[np.int64]]
    steps: tuple[Step, ...]
    patch: Patch
    load_n: float
    push_n: float
    whole: bool = False
    turn_deg: float | None = None  # of a disc of the user's own from its drawing

    def lines(self, head: tuple[str, ...] = ()) -> Iterator[str]:
        """Lines of the .inp file."""
        return deck_lines(self.mesh, self.sets, self.steps, head)


def rated_patch(setting: Setting) -> Patch:
    """Size and places of the patch as the rating has them."""
    wheel = setting.wheel
    width, half_length = contact_patch_mm(setting)
    length = wheel.tread_width_mm / math.cos(wheel.taper_half_angle)
    width = min(width, length)
    last = length - width / 2
    first = min(max(least_place_mm(setting, width), width / 2), last)
    return Patch(((first + last) / 2, last, first), width, max(half_length, LEAST_HALF_LENGTH_MM))


def as_drawn(setting: Setting) -> Setting:
    """The setting with plates as thick as drawn, as the deck has them; what it is read beside."""
    shop = unchecked(setting.shop, {"thickness_tolerance": "nominal"})
    finish = unchecked(setting.finish, {"corrosion_mm": 0.0})
    return replace(setting, shop=shop, finish=finish)


def push_n(setting: Setting) -> float:
    """Push on the flange in the tightest curve, loaded, N."""
    return flange_push_n(setting)


def wheel_deck(setting: Setting, *, over: Over = "vent", coarse: float = 1.0) -> Deck:
    """The deck with the patch over a vent or over the web between two, elements `coarse` times as
    large as plates are thick (less at beads, vents and patch).

    A mirror plane goes through a vent's middle and through a web's: half the wheel does. A disc
    of the user's own has its true openings, turned with its widest, or its web, over the patch;
    where it has no mirror line there the whole wheel is meshed.
    Raises: ValueError for a `coarse` out of range; ImportError where gmsh is not installed;
    GeometryError where parts are loose or gmsh cannot mesh them.
    """
    if not LEAST_ELEMENT <= coarse <= MOST_ELEMENT:
        raise ValueError(f"coarse: found {coarse:g}; allowed: {LEAST_ELEMENT} to {MOST_ELEMENT}")
    if why := loose(setting):
        raise GeometryError(f"deck: {why}")
    wheel, patch = setting.wheel, rated_patch(setting)
    first = math.pi / wheel.vent_count if over == "web" and wheel.vent_count else 0.0
    middle, flange_side, _ = patch.places_mm
    fine = (
        ((middle + flange_side) / 2, patch.width_mm + flange_side - middle, patch.half_length_mm)
        if flange_side > middle
        else (middle, patch.width_mm, patch.half_length_mm)
    )
    own, turn, mirrored = None, None, True
    if setting.disc is not None:
        own, turn, mirrored = to_the_load(setting.disc, over)
    mesh = mesh_wheel(
        wheel, patch_mm=fine, first_vent=first, coarse=coarse, disc=own, whole=not mirrored
    )
    share = 2 if mirrored else 1
    load, push = wheel_load_n(setting), push_n(setting)
    steps = [
        Step(
            name,
            f"{load:.6g} N up on the tread, {words}, {place:.4g} mm along it from the field edge",
            spread(mesh, _spot(setting, patch, place), (-load / share, 0.0, 0.0)),
        )
        for name, words, place in zip(
            ("VERTICAL-MIDDLE", "VERTICAL-FLANGE-SIDE", "VERTICAL-FIELD-SIDE"),
            ("in the middle of where it may stand", "beside the flange", "farthest from it"),
            patch.places_mm,
            strict=True,
        )
    ]
    if push:
        forces = spread(mesh, push_spot(apart(wheel)), (0.0, 0.0, push / share))
        words = f"{push:.6g} N on the flange along the axle, to the middle of the track"
        steps.append(Step("PUSH", words, forces))
    sets = node_sets(setting, mesh, first, own)
    if not mirrored:
        del sets["MIRROR"]
    return Deck(mesh, sets, tuple(steps), patch, load, push, not mirrored, turn)


def _spot(setting: Setting, patch: Patch, place: float) -> Spot:
    return patch_spot(apart(setting.wheel), place, patch.width_mm, patch.half_length_mm)


def node_sets(
    setting: Setting, mesh: SolidMesh, first_vent: float, own: Blank | None = None
) -> dict[str, NDArray[np.int64]]:
    """BORE, MIRROR, PATCH (nodes of the tread's face) and, with vents, VENTS (their edges), also
    those of the openings of a disc of the user's own as it lies."""
    wheel = setting.wheel
    inner = min(float(mesh.radius.min()), wheel.hub_bore_mm / 2)
    spot = _spot(setting, rated_patch(setting), rated_patch(setting).places_mm[0])
    sets = {
        "BORE": np.nonzero(mesh.radius < inner + ON_MM)[0],
        "MIRROR": np.nonzero(np.abs(mesh.points[:, 1]) < ON_MM)[0],
        "TREAD_FACE": np.unique(mesh.faces_on(spot.part, spot.start, spot.end)),
    }
    if wheel.vent_count or (own and openings(own)):
        if own:
            edge = off_openings_mm(own, mesh.points[:, :2]) < 1e-3
        else:
            middles = vent_middles(wheel, first_vent)
            away = np.hypot(*(mesh.points[:, None, :2] - middles[None]).transpose(2, 0, 1))
            edge = (np.abs(away - wheel.vent_diameter_mm / 2) < 1e-3).any(axis=1)
        in_disc = np.zeros(len(mesh.points), dtype=bool)
        for side in ("disc-field", "disc-gauge"):
            in_disc[mesh.tets[mesh.of(side)]] = True
        sets["VENTS"] = np.nonzero(edge & in_disc)[0]
    return sets
