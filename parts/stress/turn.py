"""One turn of the wheel: stresses at every angle from the patch, for one load case.

The field over the angle at a standing load is what a point of the wheel feels as it turns once,
so largest less smallest over the angle is the fatigue range.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.stress.load_series import PLACES
from platewheel.parts.stress.response import Response

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Weights = tuple[NDArray[np.float64], NDArray[np.float64]]

SINES = 2  # the last two of COMPONENTS


def angles(response: Response) -> NDArray[np.float64]:
    """Angles that stresses are read at, 0 to 180 degrees in radians; close beside the patch."""
    step = response.half_length_mm / response.spec.tread_radius_mm / 4
    near = np.arange(0.0, 24 * step, step)
    return np.concatenate([near, np.linspace(near[-1] + step, np.pi, 60)])


@dataclass(frozen=True)
class Case:
    """A patch place, and the push on the flange as a share of the vertical load."""

    place: int
    lateral_share: float

    def mix(self, amplitudes: NDArray[np.float64]) -> NDArray[np.float64]:
        """Amplitudes (..., cases) of 1 N vertical in this case."""
        return np.asarray(
            amplitudes[..., self.place] + self.lateral_share * amplitudes[..., PLACES]
        )


def cases(lateral_share: float) -> tuple[Case, ...]:
    """Every place of the patch, with the push and without."""
    shares = (0.0, lateral_share) if lateral_share else (0.0,)
    return tuple(Case(place, share) for place in range(PLACES) for share in shares)


def around(
    amplitudes: NDArray[np.float64], turns: NDArray[np.float64], sines: int
) -> NDArray[np.float64]:
    """(harmonics, components, ...) to (angles, components, ...); the last `sines` components
    run as sin, the others as cos."""
    n = np.arange(len(amplitudes))
    cut = amplitudes.shape[1] - sines
    cosine = np.tensordot(np.cos(np.outer(turns, n)), amplitudes[:, :cut], axes=1)
    sine = np.tensordot(np.sin(np.outer(turns, n)), amplitudes[:, cut:], axes=1)
    return np.concatenate([cosine, sine], axis=1)


def stress_fields(
    response: Response, lateral_share: float, points: Sequence[int] | None = None
) -> Iterator[tuple[Case, NDArray[np.float64]]]:
    """Each case with its stresses (angles, 6, points) at 1 N: what the patch does at its place,
    and the push in its share; at every point, or at those numbered."""
    unit = response.unit if points is None else response.unit[..., list(points)]
    radial, tangential, push = response.series.weights(angles(response))

    def field(*loads: tuple[Weights, NDArray[np.float64]]) -> NDArray[np.float64]:
        both = [
            sum(
                np.tensordot(weights[i], amplitudes[:, part], axes=1)
                for weights, amplitudes in loads
            )
            for i, part in enumerate((slice(None, -SINES), slice(-SINES, None)))
        ]
        return np.concatenate(both, axis=1)

    pushed = field((push, unit[-1])) if lateral_share else np.zeros(1)
    place, patch = -1, pushed
    for case in cases(lateral_share):
        if case.place != place:
            place = case.place
            patch = field((radial, unit[place]), (tangential, unit[PLACES + place]))
        yield case, patch + case.lateral_share * pushed if case.lateral_share else patch


def unit_histories(
    response: Response, points: Sequence[int]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Stresses over half a turn at the points numbered: (places, angles, 6, points) for 1 N down
    at each place of the tread, and (angles, 6, points) for 1 N of push on the flange."""
    down = [stress for case, stress in stress_fields(response, 0.0, points)]
    both = list(stress_fields(response, 1.0, points))
    across = both[1][1] - both[0][1]
    return np.stack(down), across


def von_mises(stress: NDArray[np.float64]) -> NDArray[np.float64]:
    """(angles, 6, points) to (angles, points)."""
    rr, zz, tt, rz, zt, rt = (stress[:, i] for i in range(6))
    direct = (rr - zz) ** 2 + (zz - tt) ** 2 + (tt - rr) ** 2
    return np.asarray(np.sqrt(direct / 2 + 3 * (rz**2 + zt**2 + rt**2)))
