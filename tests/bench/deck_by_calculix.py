"""The deck of a job solved by CalculiX, beside the rating.

Run by hand: python -m tests.bench.deck_by_calculix [JOB.toml] [--over web] [--coarse 1.0]
[--no-vents] (the demo unless told); one to three minutes. Needs `ccx` and gmsh. Deflections and
stresses at named nodes, then the largest von Mises stress outside singular spots: in the ring
beside the patch, in the discs, at the vents' edges, each step and each with the push.
"""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

import numpy as np

from platewheel.cli.job.job import read_job
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.deck.deck import Deck, as_drawn, wheel_deck
from platewheel.parts.deck.expected import head, readings
from platewheel.parts.deck.meshing import apart
from platewheel.parts.deck.solid_mesh import SolidMesh
from platewheel.parts.rating.assess import Assessment, assess
from platewheel.parts.rating.static_limit import SINGULAR_SHARE, regular_points
from platewheel.parts.rating.unrated import unrated
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.turn import Case, angles, around
from platewheel.parts.stress.turn import von_mises as von_mises_turn
from platewheel.parts.wheel.kinds import kind_of
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import weld_beads
from tests.bench.calculix import Solved, solve, von_mises
from tests.places import DEMO

PLACE_OF = {"VERTICAL-MIDDLE": PLACES // 2, "VERTICAL-FLANGE-SIDE": PLACES - 1}
PLACE_OF["VERTICAL-FIELD-SIDE"] = 0
REACH = 1.0  # walls beside the patch that count as contact, as in the rating


def clear_of_beads(spec: WheelSpec, mesh: SolidMesh, part: str) -> np.ndarray:
    """Nodes of a part away from its beads' corners, as the rating reads them."""
    rows = np.zeros(len(mesh.points), dtype=bool)
    rows[mesh.tets[mesh.of(part)]] = True
    kind = kind_of(part)
    assert kind
    reach = SINGULAR_SHARE * kind.thickness_mm(spec)
    for bead in weld_beads(apart(spec)):
        for r, z in bead.section:
            rows &= np.hypot(mesh.radius - r, mesh.points[:, 2] - z) > reach
    return rows


def beside_patch(
    spec: WheelSpec,
    radius: np.ndarray,
    z: np.ndarray,
    turn: np.ndarray,
    place: float,
    patch: tuple[float, float],
) -> np.ndarray:
    """Whether points of the ring lie outside the contact: the outer half of the wall within one
    wall of the patch (width, half length)."""
    wall = spec.tread_thickness_mm
    slope = np.tan(spec.taper_half_angle)
    outer = spec.tread_radius_mm - (spec.tread_width_mm - z) * slope - radius < wall / 2
    near = np.abs(z - place * np.cos(spec.taper_half_angle)) < patch[0] / 2 + REACH * wall
    under = turn * spec.tread_radius_mm < patch[1] + REACH * wall
    return np.asarray(~(outer & near & under))


def solid_largest(setting: Setting, deck: Deck, field: np.ndarray, place: float) -> dict[str, str]:
    """Largest von Mises stress of each region and where, from the 3-D nodes."""
    spec, mesh = setting.wheel, deck.mesh
    patch = deck.patch.width_mm, deck.patch.half_length_mm
    ring = clear_of_beads(spec, mesh, "tread")
    ring &= beside_patch(spec, mesh.radius, mesh.points[:, 2], mesh.angle, place, patch)
    vents = np.zeros(len(mesh.points), dtype=bool)
    vents[deck.sets.get("VENTS", np.array([], dtype=int))] = True
    rows = {"ring": ring, "vents": vents}
    for side in ("disc-field", "disc-gauge"):
        rows[side] = clear_of_beads(spec, mesh, side) & ~vents
    found = {}
    for name, there in rows.items():
        if there.any():
            at = int(np.argmax(np.where(there, field, 0.0)))
            r, z, turn = mesh.radius[at], mesh.points[at, 2], np.degrees(mesh.angle[at])
            found[name] = f"{field[at]:8.2f} at r {r:5.1f} z {z:5.1f} {turn:4.0f} deg"
    return found


def rated_largest(
    setting: Setting, deck: Deck, response: Response, step: str, share: float
) -> dict[str, str]:
    """The same from the rating, discs without vents."""
    spec, turns = setting.wheel, angles(response)
    stress = around(Case(PLACE_OF[step], share).mix(response.stress), turns, 2) * deck.load_n
    field = von_mises_turn(stress) * regular_points(response)[None]
    r, z = response.points.T
    place = response.places_mm[PLACE_OF[step]]
    patch = response.patch_width_mm, response.half_length_mm
    clear = beside_patch(spec, r[None], z[None], turns[:, None], place, patch)
    found = {}
    for name, part in (("ring", "tread"), ("disc-field",) * 2, ("disc-gauge",) * 2):
        rows = np.array([one == part for one in response.part_of])[None]
        kept = np.where(rows & clear if name == "ring" else rows & np.ones_like(clear), field, 0)
        i, j = np.unravel_index(int(kept.argmax()), kept.shape)
        turn = np.degrees(turns[i])
        found[name] = f"{kept[i, j]:8.2f} at r {r[j]:5.1f} z {z[j]:5.1f} {turn:4.0f} deg"
    return found


def told(setting: Setting, deck: Deck, found: Assessment, solved: dict[str, Solved]) -> None:
    """Prints both side by side."""
    print(f"{'step':22} {'what':34} {'rating':>10} {'3-D':>10} {'differ':>8}")
    for row in readings(setting, deck, found.response):
        of = solved[row.step]
        column = int(row.column[1]) - 1
        field = of.moved if row.column[0] == "U" else of.stress
        value = float(field[row.node - 1, column])
        words = f"{row.what}, {row.column}"
        print(
            f"{row.step:22} {words:34} {row.rated:10.4g} {value:10.4g} {row.rated / value - 1:8.1%}"
        )
    share = deck.push_n / deck.load_n
    for name, place in zip(PLACE_OF, deck.patch.places_mm, strict=True):
        for pushed in (0.0, share) if share else (0.0,):
            stress = solved[name].stress
            if pushed:
                stress = stress + solved["PUSH"].stress
            ours = rated_largest(setting, deck, found.response, name, pushed)
            solid = solid_largest(setting, deck, von_mises(stress), place)
            print(f"{name}{' and push' if pushed else ''}: largest von Mises, rating | 3-D")
            for part, words in solid.items():
                print(f"  {part:11} {ours.get(part, 'see the limits'):40} | {words}")


def main() -> None:
    """Prints the deck's head and the comparison."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("job", nargs="?", type=Path, default=DEMO)
    parser.add_argument("--over", choices=("vent", "web"), default="vent")
    parser.add_argument("--coarse", type=float, default=1.0)
    parser.add_argument("--no-vents", action="store_true")
    given = parser.parse_args()
    setting = as_drawn(read_job(given.job).setting)
    if given.no_vents:
        from dataclasses import replace

        setting = replace(setting, wheel=unchecked(setting.wheel, {"vent_count": 0}))
    deck = wheel_deck(setting, over=given.over, coarse=given.coarse)
    found = assess(setting)
    if found is None:
        raise SystemExit(f"not rated: {unrated(setting)}")
    lines = head(setting, deck, given.job.stem, found, "")
    print("\n".join(lines))
    with tempfile.TemporaryDirectory() as folder:
        results = solve(deck.lines(lines), Path(folder))
    told(setting, deck, found, dict(zip((s.name for s in deck.steps), results, strict=True)))


if __name__ == "__main__":
    main()
