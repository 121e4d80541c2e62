"""CalculiX (`ccx`) for the benches: a deck written and solved, its results (.frd) read back."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import numpy as np

TENSOR = ("SXX", "SYY", "SZZ", "SXY", "SYZ", "SZX")  # as they stand in the file


@dataclass(frozen=True)
class Solved:
    """One step: displacements (n, 3) mm and stresses (n, 6) as TENSOR, N/mm2, mean at the nodes."""

    moved: np.ndarray
    stress: np.ndarray


def solve(lines: Iterable[str], folder: Path, name: str = "deck") -> list[Solved]:
    """Each step of a deck. Raises: RuntimeError where ccx does not finish."""
    (folder / f"{name}.inp").write_text("\n".join(lines) + "\n", encoding="ascii")
    threads = os.environ | {"OMP_NUM_THREADS": "2"}
    done = subprocess.run(
        ["ccx", name], cwd=folder, env=threads, capture_output=True, text=True, check=False
    )
    if "Job finished" not in done.stdout:
        raise RuntimeError(f"ccx: {done.stdout[-2000:]}{done.stderr[-500:]}")
    return read_frd(folder / f"{name}.frd")


def read_frd(path: Path) -> list[Solved]:
    """Steps of a results file in CalculiX's fixed columns: a node in columns 4 to 13, then values
    of twelve columns each."""
    moved: list[np.ndarray] = []
    stress: list[np.ndarray] = []
    block: list[str] | None = None
    kind = ""
    with path.open("r", encoding="ascii", errors="replace") as file:
        for line in file:
            if line.startswith(" -4"):
                kind, block = line.split()[1], []
            elif line.startswith(" -1") and block is not None:
                block.append(line)
            elif line.startswith(" -3") and block is not None:
                if kind == "DISP":
                    moved.append(_values(block, 3))
                elif kind == "STRESS":
                    stress.append(_values(block, 6))
                block = None
    return [Solved(u, s) for u, s in zip(moved, stress, strict=True)]


def _values(lines: list[str], count: int) -> np.ndarray:
    nodes = np.array([int(line[3:13]) for line in lines])
    found = np.array(
        [[float(line[13 + 12 * i : 25 + 12 * i]) for i in range(count)] for line in lines]
    )
    return found[np.argsort(nodes)]


def von_mises(stress: np.ndarray) -> np.ndarray:
    """(n, 6) as TENSOR to (n,)."""
    x, y, z, xy, yz, zx = stress.T
    direct = (x - y) ** 2 + (y - z) ** 2 + (z - x) ** 2
    return np.asarray(np.sqrt(direct / 2 + 3 * (xy**2 + yz**2 + zx**2)))
