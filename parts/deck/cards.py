"""The deck as cards (.inp) that several open solvers read: nodes, elements, sets, steps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.base.steel import E_N_MM2, POISSON
from platewheel.parts.deck.solid_mesh import SolidMesh

if TYPE_CHECKING:
    from numpy.typing import NDArray

A_LINE = 12  # numbers on a card that lists many


@dataclass(frozen=True)
class Step:
    """One set of loads by itself: its name, what it is, forces on all nodes (n, 3), N."""

    name: str
    words: str
    forces: NDArray[np.float64]


def deck_lines(
    mesh: SolidMesh, sets: dict[str, NDArray[np.int64]], steps: Sequence[Step], head: Sequence[str]
) -> Iterator[str]:
    """Lines of the deck. `sets` are rows of nodes by name: `BORE` is held, `MIRROR`, of half
    a wheel, may not leave its plane y = 0. Nodes and elements are numbered from 1."""
    yield from (f"** {line}".rstrip() for line in head)
    yield "*NODE, NSET=ALL"
    for number, (x, y, z) in enumerate(mesh.points.tolist(), 1):
        yield f"{number}, {x:.9g}, {y:.9g}, {z:.9g}"
    number = 0
    for i, part in enumerate(mesh.parts):
        yield f"*ELEMENT, TYPE=C3D10, ELSET={set_name(part)}"
        for row in (mesh.tets[mesh.part_of == i] + 1).tolist():
            number += 1
            yield f"{number}, {', '.join(map(str, row))}"
    yield "*ELSET, ELSET=WHEEL"
    yield from (set_name(part) for part in mesh.parts)
    for name, rows in sets.items():
        yield f"*NSET, NSET={name}"
        yield from _listed((rows + 1).tolist())
    yield "*MATERIAL, NAME=STEEL"
    yield "*ELASTIC"
    yield f"{E_N_MM2:g}, {POISSON:g}"
    yield "*SOLID SECTION, ELSET=WHEEL, MATERIAL=STEEL"
    yield "*BOUNDARY"
    yield "BORE, 1, 3"
    if "MIRROR" in sets:
        yield "MIRROR, 2, 2"
    for step in steps:
        yield f"** {step.name}: {step.words}"
        yield "*STEP"
        yield "*STATIC"
        yield "*CLOAD, OP=NEW"
        for row, axis in np.argwhere(step.forces != 0.0).tolist():
            yield f"{row + 1}, {axis + 1}, {step.forces[row, axis]:.9g}"
        yield "*NODE FILE"
        yield "U"
        yield "*EL FILE"
        yield "S"
        yield "*NODE PRINT, NSET=BORE, TOTALS=ONLY"
        yield "RF"
        yield "*END STEP"


def set_name(part: str) -> str:
    """A part's name as a set of elements."""
    return part.upper().replace("-", "_")


def _listed(numbers: Sequence[int]) -> Iterable[str]:
    for start in range(0, len(numbers), A_LINE):
        yield ", ".join(map(str, numbers[start : start + A_LINE])) + ","
