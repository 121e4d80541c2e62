"""Forces that a bead carries, turned into stress over its throat."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.stress.section_mesh import SectionMesh
from platewheel.parts.wheel.welds import Bead

if TYPE_CHECKING:
    from numpy.typing import NDArray


@dataclass(frozen=True)
class Throat:
    """Shortest plane from where a joint begins (the bead's root, the edge of a gap, the corner
    of a worn tread) to the bead's face; `pull` is the unit vector square to it, towards the
    plate whose forces are given; `turn_sign` ties moments to the notch side."""

    size_mm: float
    middle: NDArray[np.float64]
    pull: NDArray[np.float64]
    turn_sign: float
    radius_mm: float

    def stresses(
        self, line: NDArray[np.float64]
    ) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
        """From radial, axial and tangential force and moment about the section's origin, each
        per mm of bead (angles, 4): notch stress (force and bending, tension positive), force
        square to the bead over the throat as a vector (angles, 2), and along the bead."""
        radial, axial, along, moment = (line[:, i] for i in range(4))
        normal = (radial * self.pull[0] + axial * self.pull[1]) / self.size_mm
        about = moment - (self.middle[0] * axial - self.middle[1] * radial)
        root = normal + 6 * self.turn_sign * about / self.size_mm**2
        return root, np.column_stack([radial, axial]) / self.size_mm, along / self.size_mm


def throat_of(bead: Bead, mesh: SectionMesh) -> Throat:
    """Throat of a bead whose forces come from its first plate by name."""
    first, second = sorted(
        (leg for leg in mesh.legs if leg.bead == bead.name), key=lambda leg: leg.plate
    )
    this, other = np.asarray(first.tip), np.asarray(second.tip)
    pull = (this - other) / np.linalg.norm(this - other)
    planes = []
    for notch in (np.asarray(first.notch), np.asarray(second.notch)):
        face = other + float(np.dot(notch - other, pull)) * pull
        planes.append((float(np.linalg.norm(notch - face)), notch, face))
    size, notch, face = min(planes, key=lambda plane: plane[0])
    inwards = (notch - face) / size
    return Throat(
        size,
        (notch + face) / 2,
        pull,
        float(np.sign(inwards[0] * pull[1] - inwards[1] * pull[0])),
        float(np.mean([r for r, _ in bead.section])),
    )
