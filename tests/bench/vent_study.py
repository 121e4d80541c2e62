"""What vents do to a wheel, in 3-D: the study that `parts/rating/vented_disc.py` is fitted to.

Run by hand: python -m tests.bench.vent_study [CASE ...] (all unless named: about half an hour with
CalculiX 2.20 on two cores). Each wheel is meshed by gmsh (elements 1.2 times the plates' thickness,
half of it and at least 28 round at vents: 50,000 to 90,000 nodes), half of it solved by `ccx` with
the patch beside the flange, over a vent and over a web, and the push of 0.4 of the load. Prints the
rows of `tests/parts/rating/test_vented_disc.py`: loads at which the vents' edges reach fy / 1.5,
the range of their stress as one vent goes round (N/mm2 for 1000 N), and how many times beads, toes
and flange have what they have in the wheel without vents, the worse of both discs. Vertical load
alone, then with the push. Hats of 5 degrees smooth what beads carry.
"""

from __future__ import annotations

import argparse
import math
import tempfile
from dataclasses import replace
from pathlib import Path

import numpy as np

from platewheel.cli.job.job import read_job
from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.deck.cards import Step, deck_lines
from platewheel.parts.deck.deck import node_sets, rated_patch
from platewheel.parts.deck.loads import patch_spot, push_spot, spread
from platewheel.parts.deck.meshing import apart, mesh_wheel
from platewheel.parts.deck.solid_mesh import SolidMesh
from platewheel.parts.setting.setting import Setting
from tests.bench import solid_readings as read
from tests.bench.calculix import Solved, solve
from tests.parts.rating.vent_cases import CASES, PUSH, with_vents
from tests.places import DEMO, TRACKS

COARSE = 1.2
MIXES = ((1.0, 0.0), (1.0, PUSH))  # of the patch and the push
UNIT_N = 1000.0


def solved(setting: Setting, first_vent: float) -> tuple[SolidMesh, list[Solved]]:
    """Patch beside the flange and push, for 1 N each."""
    wheel, patch = setting.wheel, rated_patch(setting)
    place = patch.places_mm[1]
    mesh = mesh_wheel(
        wheel,
        patch_mm=(place, patch.width_mm, patch.half_length_mm),
        first_vent=first_vent,
        coarse=COARSE,
    )
    spot = patch_spot(apart(wheel), place, patch.width_mm, patch.half_length_mm)
    steps = (
        Step("PATCH", "", spread(mesh, spot, (-UNIT_N / 2, 0.0, 0.0))),
        Step("PUSH", "", spread(mesh, push_spot(apart(wheel)), (0.0, 0.0, UNIT_N / 2))),
    )
    with tempfile.TemporaryDirectory() as folder:
        lines = deck_lines(mesh, node_sets(setting, mesh, first_vent), steps, ())
        found = solve(lines, Path(folder))
    return mesh, [Solved(one.moved / UNIT_N, one.stress / UNIT_N) for one in found]


def measures(
    setting: Setting, first_vent: float
) -> tuple[dict[str, float], list[float], list[np.ndarray]]:
    """Beads, toes and flange by name; edge stress of each mix; series of the edges of each mix."""
    wheel = setting.wheel
    mesh, loads = solved(setting, first_vent)
    found = {"gives": read.flange_gives(wheel, mesh, loads[1].moved)}
    beads = read.bead_measures(wheel, mesh, loads, MIXES)
    toes = read.toe_ranges(wheel, mesh, first_vent, loads, MIXES)
    for kind in ("rim", "tube", "root"):
        own = [
            name for name in beads if name.startswith(f"weld-{'disc' if kind == 'rim' else kind}")
        ]
        found[kind] = max(beads[name][0] for name in own)
        found[f"{kind} opened"] = max(beads[name][1] for name in own)
        if kind != "root":
            found[f"{kind} toe"] = max(toes[name] for name in own)
    edges, series = [], []
    if wheel.vent_count:
        for weights in MIXES:
            stress = read.mixed(loads, weights)
            edges.append(read.edge_stress(wheel, mesh, first_vent, stress))
            series.append(read.edge_series(wheel, mesh, first_vent, stress))
    return found, edges, series


def main() -> None:
    """Prints a row a case."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("cases", nargs="*", metavar="CASE", help=", ".join(CASES))
    given = parser.parse_args()
    print("    # last: gives, rim, rim opened, rim toe, tube, opened, toe, root, opened")
    bare: dict[tuple[str, float], dict[str, float]] = {}
    for name in given.cases or CASES:
        case = CASES[name]
        path = DEMO if case.job == "demo" else TRACKS / f"{case.job}.toml"
        setting = with_vents(read_job(path).setting, case)
        wheel = setting.wheel
        key = case.job, wheel.disc_thickness_mm
        if key not in bare:
            none = replace(setting, wheel=unchecked(wheel, {"vent_count": 0}))
            bare[key] = measures(none, 0.0)[0]
        both = [measures(setting, turn) for turn in (0.0, math.pi / wheel.vent_count)]
        allowed = wheel.grade.fy_n_mm2(wheel.disc_thickness_mm) / 1.5
        loads = [[round(allowed / max(edges[: i + 1])) for i in (0, 1)] for _, edges, _ in both]
        above = {
            what: round(max(found[what] for found, _, _ in both) / bare[key][what], 2)
            for what in bare[key]
        }
        series = [np.concatenate([s[i] for _, _, s in both]) for i in (0, 1)]
        ranges = [float(np.ptp(s, axis=0).max()) for s in series]
        edge = [round(1000 * value, 2) for value in ranges]
        print(
            f'    "{name}": Found({loads[0]}, {loads[1]}, {edge}, {list(above.values())}),',
            flush=True,
        )


if __name__ == "__main__":
    main()
